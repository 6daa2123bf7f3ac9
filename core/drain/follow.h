// follow: the least dig for a pipe that follows a road.
//
// Along the way the water runs, x from the upstream end, the invert y may nowhere lie higher than
//   highest(x) = ground - least cover - wall - bore
// straight between the chainages where the ground was read. y is straight between breaks, which stand at
// candidates (chambers: a pipe changes its fall nowhere else), at most grades - 1 of them. Falls lie between
// least and steepest; y ends no lower than the outfall and begins no higher than the inlet. Least dig is
//   least  integral of (highest - y)
// which differs from the dug area of the long section by a constant: the trench under the least cover.
//
// For given breaks that is a linear program in the levels at the breaks (small_lp.h). Which breaks: every
// choice is bounded from above by grades that need not meet, each the best for itself, and is left out where
// even that is no better than what is found. So the answer is the best of all choices (`proved`), unless they
// are more than most_programs.
//
// What was traded: the limits that hold the pipe down, and what each costs: more dig, in area of the long
// section, for each metre more cover, each unit more of least fall, each metre higher outfall, lower inlet.
// Metres, ratios (falls positive the way the water runs), square metres. Pure; work in the order of
// candidates squared times readings. Two pipes of one dig: the one with the earlier breaks.
#pragma once

#include <cstdint>
#include <limits>
#include <vector>

namespace fallwright::drain {

struct FollowRoad {
    std::vector<double> x;        // where the ground was read, rising, two at least
    std::vector<double> highest;  // the highest invert there
    std::vector<double> breaks;   // candidates between first and last x, rising; may be none
};

struct FollowLimits {
    double least_fall = 0;
    double steepest_fall = std::numeric_limits<double>::infinity();
    double outfall = -std::numeric_limits<double>::infinity();
    double inlet = std::numeric_limits<double>::infinity();
    int grades = 1;  // at most that many, from 1 to most_grades
};

constexpr int most_grades = 8;
constexpr std::size_t most_candidates = 150;
constexpr std::size_t most_programs = 20000;

enum class Holder : std::uint8_t { Cover, LeastFall, SteepestFall, Outfall, Inlet };

// A limit that the pipe lies on. x: where; of a fall the upstream end of that grade.
struct Held {
    Holder by = Holder::Cover;
    double x = 0;
    double price = 0;  // dig in m2 for 1 more of it: metre of cover or outfall, unit of fall; 0 or more
};

struct Followed {
    bool found = false;
    bool proved = false;       // no choice of breaks is better
    std::vector<double> x, y;  // of the inverts: both ends and the breaks that are used
    double dig = 0;            // m2, over the trench under the least cover
    std::vector<Held> held;    // by x
    double shortfall = 0;      // not found: how much the end would lie under the outfall at best
    double price_of(Holder by) const;
};

// Not found: no pipe of so many grades keeps all limits; shortfall is 0 then only where steps ran out.
Followed follow(const FollowRoad& road, const FollowLimits& limits);

}  // namespace fallwright::drain
