// deviations: how far what was laid lies off its design, along a line: band of tolerance, points, bars of +-.
// Inside record only.
//
// High lies above the line of the design, as on site. Of each point a thick bar of one standard deviation of
// its level and a thin one of 1.96 of them either way, and the symbol of its verdict. What lies beyond the
// panel is drawn at its edge with its figure.
#pragma once

#include <functional>
#include <vector>

#include "record/drawing.h"
#include "record/legend.h"
#include "record/section_data.h"

namespace fallwright::record {

// A deviation drawn; about: the point.
struct DeviationPoint {
    double x = 0;  // on paper
    double value = 0, sd = NAN;
    Judgement judged;
    std::string about;
};

struct DeviationPanel {
    Box box;                          // of the panel
    double scale = 1;                 // of heights
    double middle = 0;                // y of the design
    double below = NAN, above = NAN;  // the tolerance, metres; NaN: open or none
};

// What the panel must show, metres either way: the band and all but the wildest of the points.
double deviation_reach(const std::vector<FoundSurface>& surfaces, bool of_fit);
// The panel of a height and reach; its scale is round.
DeviationPanel deviation_panel(const Box& box, double reach, const Tolerance* tolerance, Unit unit);

// Frame, band, axis on the left in the book's unit; then the points.
void draw_panel(Drawing& drawing, const DeviationPanel& panel, const Book& book);
// values: figures beside the points where they fit.
void draw_points(Drawing& drawing, const DeviationPanel& panel, const std::vector<DeviationPoint>& points,
                 const Book& book, bool values, UsedMarks& used);

}  // namespace fallwright::record
