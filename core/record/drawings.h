// drawings: the figures of the record, each from an evaluation. Inside record and desk.
//
// Each function draws what the book has and returns nothing where it has none of that. A drawing longer than
// the sheet is split over several figures, in order, each saying which part it is. Scales are round (1:100,
// 1:200, 1:250, 1:500, ...) and stated; the exaggeration of heights is stated on every section.
//
// Source of habits: common practice of long and cross sections (boxes of chainage and level under a datum
// line, heights exaggerated, levels on the line), after the pattern of drafting standards; texts not at hand.
#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include "evaluation/evaluation.h"
#include "sheet/figure.h"

namespace fallwright::record {

// Room on the sheet, mm.
struct Room {
    double width = 174, height = 250;
};

// Of one line (index in book.lines): datum line, boxes of chainage and levels, ground, design, as laid with
// its uncertainty, band of tolerance, pipe with its bore, chambers, gradients on the line.
std::vector<sheet::Figure> long_section(const Evaluation& evaluation, std::size_t line, Room room);
// One for each chainage that has points off the line, or a crossfall by design.
std::vector<sheet::Figure> cross_sections(const Evaluation& evaluation, std::size_t line, Room room);
// Deviations of one line along it, bars of uncertainty, the band of tolerance.
std::vector<sheet::Figure> deviation_strip(const Evaluation& evaluation, std::size_t line, Room room);
// The trench of a drain's pipes in section, one for each distinct size.
std::vector<sheet::Figure> trench_sections(const Evaluation& evaluation, std::size_t line, Room room);
// Where everything stands: lines, points, set-ups with their axes, sights.
std::vector<sheet::Figure> plan_of(const Evaluation& evaluation, Room room);
// What was tied to what: points and set-ups as nodes, sights as edges with residuals, closures with
// misclosures.
std::vector<sheet::Figure> network(const Evaluation& evaluation, Room room);
// A measured surface: triangles, contours, cut and fill where it has a design.
std::vector<sheet::Figure> surface_plan(const Evaluation& evaluation, std::size_t surface, Room room);
// Marks on a rod and cuts on pegs, to print and take along; drawn to fit the hand, a card each.
std::vector<sheet::Figure> rod_cards(const Evaluation& evaluation, std::size_t line, Room room);
std::vector<sheet::Figure> peg_cards(const Evaluation& evaluation, std::size_t line, Room room);

}  // namespace fallwright::record
