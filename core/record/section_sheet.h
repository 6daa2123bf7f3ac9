// section_sheet: one sheet of a long section: its scales, where a chainage and a level lie on it, and its
// parts. Inside record only.
//
// From the top: head; names of chambers; the section over its datum line; boxes; deviations; legend. Heights
// are exaggerated, at most ten times. The datum line lies at a round level below everything on the sheet.
#pragma once

#include <string>
#include <vector>

#include "record/boxes.h"
#include "record/deviations.h"
#include "record/drawing.h"
#include "record/drawings.h"
#include "record/legend.h"
#include "record/scales.h"
#include "record/section_data.h"

namespace fallwright::record {

struct SectionSheet {
    const SectionData* data = nullptr;
    Window window;
    Unit unit = Unit::Metre;
    double horizontal = 500, vertical = 50;  // 1:n
    double top = 0, datum_y = 0;             // of the section
    double datum = 0;                        // metres
    double lowest = NAN, highest = NAN;      // of everything on the sheet
    BoxTable boxes;

    double x(double ch) const { return boxes.left + inset + on_paper(ch - window.from, horizontal); }
    double y(double level) const { return datum_y - on_paper(level - datum, vertical); }
    const Column& column(std::size_t i) const { return data->columns[window.first + i]; }
    std::size_t count() const { return window.last - window.first + 1; }

    static constexpr double inset = 4;  // of the first place from the edge of the boxes
};

// Between the datum line and the boxes, where leaders bend, mm.
constexpr double knee = 4;
// From the lowest level to the datum line, at least; gradients are written there.
constexpr double over_datum = 8;

// Levels of a surface between two chainages, broken where it steps or is not there.
struct LevelPoint {
    double ch, level;
};
std::vector<std::vector<LevelPoint>> levels_between(const SectionData& data, const DesignSurface& surface,
                                                    double from, double to);
std::vector<std::vector<LevelPoint>> ground_between(const SectionData& data, double from, double to);

// lowest and highest of a sheet from its window; NaN where it has no level at all.
void find_range(SectionSheet& sheet);

// What the drawn lines are, for the legend.
void draw_section_lines(Drawing& drawing, const SectionSheet& sheet, std::vector<LegendEntry>& legend);
void draw_chambers(Drawing& drawing, const SectionSheet& sheet, std::vector<LegendEntry>& legend);
void draw_gradients(Drawing& drawing, const SectionSheet& sheet);

std::vector<BoxRow> box_rows(const SectionSheet& sheet);
// Below the datum line; where they end.
double draw_boxes(Drawing& drawing, const SectionSheet& sheet);

}  // namespace fallwright::record
