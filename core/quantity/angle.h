// Angles in degrees, by own arithmetic: the same bits natively and in WebAssembly.
//
// The mathematics libraries of the two builds differ in the last bits of sin and atan, and everything that
// hangs on a bearing would differ with them. Here only + - x / are used (fmod is exact by definition), so
// equal input gives equal bytes.
//
// Method: the angle is brought to [-45, 45] degrees without rounding (a multiple of 360, then of 90, is taken
// off; both differences are exact), then the Taylor series of sin and cos are summed. The first term left out
// is 8e-20 (sin) and 2e-18 (cos) at 45 degrees, below half a unit in the last place.
#pragma once

namespace fallwright {

struct SinCos {
    double sin = 0;
    double cos = 1;
};

// Largest difference from the true value, tested against the C library in extended precision.
constexpr double sincos_error = 2e-16;

// Sine and cosine of an angle in degrees; for a bearing (clockwise from north) sin is the easting and cos
// the northing of one unit along it. Exact at every multiple of 90 degrees (0, 1, -1, no -0 but where the
// angle itself is -0). Any finite angle; one that is not finite gives NaN for both.
SinCos sincos_degrees(double degrees);

// The angle in degrees, -90 to 90, whose tangent is `ratio`: a gradient (rise per length) as an angle. Own
// arithmetic as well, error below 1e-13 degrees; infinity gives +-90, NaN gives NaN. Odd: the sign turns with
// the ratio's.
double atan_degrees(double ratio);

}  // namespace fallwright
