// air: what heat does to a line of light or sight, and how long an instrument needs to take the air's
// temperature.
//
// Near ground the air is warmer below than above when the sun shines, and the beam is bent away from the
// ground by
//   k = 503 P / T^2 (0.0343 + dT/dz),    rise against a straight line = -k d^2 / 2R
// (from memory; mag-refr-*: -0.5 K/m is hot ground half a metre and more below, and lifts it by 2.2 mm over
// 100 m). Equal sights lose the same; what is left is the difference of the squares of the sights. Nothing of
// it is in the uncertainties: weather is no draw of a normal variable. Keep the beam half a metre clear of
// the ground (S12, S13).
#pragma once

namespace fallwright {

// How much higher the light stands at the longer of two sights than at the shorter one, over hot ground
// instead of in the air that is usual (k 0.13). Metres.
double hot_ground_lift(double shorter, double longer);

// Two minutes for each degree between where the instrument was kept and the air (test field pages citing ISO
// 17123: chk-acclim: 15 degrees, 30 minutes).
double warm_up_minutes(double temperature_difference);

constexpr double beam_clearance = 0.5;  // metres over the ground

}  // namespace fallwright
