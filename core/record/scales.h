// scales: the round scales of drawings, round steps of axes, and how a line is split over sheets. Inside
// record only.
//
// A scale is a denominator n of 1:n. In metres 1, 2, 5 and from 1:20 also 2.5 times a power of ten; in feet
// 12 times 1 to 6 times a power of ten (1 in = 20 ft is 1:240), below that 1, 2, 4, 6. Enlargements 2:1, 5:1,
// 10:1. Source: common practice, after the pattern of ISO 5455; text not at hand.
//
// Metres of ground, millimetres of paper.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "quantity/unit.h"

namespace fallwright::record {

constexpr double mm_per_metre = 1000;

// Millimetres of paper for metres of ground.
constexpr double on_paper(double metres, double scale) {
    return metres * mm_per_metre / scale;
}

// The finest round scale that is no finer than n; n above 0.
double round_scale(double n, Unit unit);
// The next coarser one.
double coarser_scale(double scale, Unit unit);
// The coarsest round scale at which `metres` are at least `mm` long.
double scale_for_at_least(double metres, double mm, Unit unit);
// "1:500", "2:1"; in feet "1 in = 20 ft (1:240)".
std::string scale_words(double scale, Unit unit);

// 1, 2 or 5 times a power of ten of the book's unit, at least `least` metres; in metres.
double round_step(double least, Unit unit);

// Part of a line on one sheet: places first..last in what was split, from the chainage `from` on.
struct Window {
    std::size_t first = 0, last = 0;
    double from = 0, to = 0;  // to: where drawing ends, at the next sheet's first place or the sheet's edge
};
// chainages rising; each in exactly one window. width: metres that fit; most: places that fit.
std::vector<Window> windows_of(const std::vector<double>& chainages, double width, std::size_t most);

// The scale along a line: the finest at which all of it fits `width` mm, but no coarser than the one at which
// nine places of ten lie `apart` mm or more from the next. Lines then go over several sheets.
double scale_along(const std::vector<double>& chainages, double width, double apart, Unit unit);

// Places on paper, rising, moved as little as need be to lie `apart` from each other within from..to; they
// must fit.
std::vector<double> spread(const std::vector<double>& wanted, double apart, double from, double to);

}  // namespace fallwright::record
