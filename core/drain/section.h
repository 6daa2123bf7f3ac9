// section: the wet part of a circular pipe, by the depth of water in it.
//
// With y the depth, D the bore and theta the angle that the water's edge spans at the centre,
// theta = 2 acos(1 - 2 y / D):
//   area       D^2 (theta - sin theta) / 8
//   perimeter  D theta / 2, wet wall only
//   radius     area / perimeter, the hydraulic radius
//   top        D sin(theta / 2), width of the water's surface: 0 where empty and where full
// Chow, Open-Channel Hydraulics, 1959, as cited beside a table of the elements (HY-07).
//
// Any one unit of length (area its square). Empty at a depth of 0 and below: everything 0. Full at the bore
// and above: radius D / 4. Relative error below 1e-12 at every depth, the smallest included; only + - x / and
// square roots, so the same bits in every build. Pure.
#pragma once

namespace fallwright::drain {

struct Wetted {
    double area = 0, perimeter = 0, radius = 0, top = 0;
    double angle = 0;  // theta, radians: 0 empty, pi half full, 2 pi full
};

// bore above 0, both finite; programmer errors else.
Wetted wetted(double bore, double depth);

// The same by theta, 0 to 2 pi: what solvers count in, since everything is smooth in it.
Wetted wetted_at_angle(double bore, double angle);
// D (1 - cos(theta / 2)) / 2.
double depth_at_angle(double bore, double angle);

// Where the hydraulic radius, and with it the velocity under any law, is greatest: tan theta = theta. theta,
// and y / D.
constexpr double fastest_angle = 4.493409457909064;
constexpr double fastest_depth = 0.81280312733986089;

}  // namespace fallwright::drain
