// layout: where the instrument will stand and what will be read from there, before anything is.
//
// A layout is a few set-ups and a list of readings without figures, on top of what a book already holds. It
// is a plain value: a search copies and changes it. Readings that are already taken are no part of it; they
// stay in the book and are solved together with it (workbook.h). Metres, bearings in degrees.
#pragma once

#include <string>
#include <vector>

#include "book/book.h"
#include "where/where.h"

namespace fallwright {

// A set-up something is planned in. With `fixed` it stays as it is: something is read in it already, its head
// is shared, or its place is not known.
struct Stand {
    NameId name = no_name;
    std::int32_t setup = -1;  // in the book as written; -1: proposed
    bool fixed = false;
    bool moved = false;   // its place is no longer the book's
    bool turned = false;  // half round from what the book says, or from along the line
    Spot spot;
    Maybe bearing;  // of the main axis, not turned

    double axis() const;  // where the main axis points, turned or not; NaN where nothing says
};

// A reading to come. `as` has its point or line, chainage and surface; the set-up is the stand's.
struct PlannedSight {
    std::size_t stand = 0;
    Reading as;
    std::int32_t given = -1;  // index in the book's readings; -1: proposed
    double figure = 0;        // as predicted, else 1.5 m
    Spot spot;                // of the point; unknown, and not used, of a proposed change point
};

struct Layout {
    std::vector<Stand> stands;
    std::vector<PlannedSight> sights;
    // Proposed change points, in the order of their making: each lies midway between the set-ups that read
    // it.
    std::vector<NameId> change_points;

    // Set-ups cost more than readings (same set-up 1, another set-up 5: measurement-model section 6.6).
    double effort() const;
    // Where a sight goes to; a proposed change point follows the set-ups that read it.
    Spot spot_of(const PlannedSight& sight) const;
    Spot change_point_spot(NameId point) const;
    bool reads(std::size_t stand, NameId point) const;
    // Whether a point joins set-ups: it is read from more than one of them.
    bool joins(NameId point) const;
    bool is_change_point(NameId point) const;
};

constexpr double setup_effort = 5;
constexpr double reading_effort = 1;
constexpr double usual_figure = 1.5;  // metres on the staff, where nothing predicts it (contract section 2)

// Midway; unknown where one of them is, or they lie in different frames.
Spot midway(const Spot& a, const Spot& b);
// NaN likewise.
double distance_between(const Spot& a, const Spot& b);
// A direction as a bearing, 0 to 360.
double bearing_of(const Heading& heading);
Position position_of(const Book& book, const Spot& spot);

}  // namespace fallwright
