// legend: what lines, hatches and symbols of a drawing mean, in words. Inside record only.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "record/drawing.h"

namespace fallwright::record {

struct Hatched {
    sheet::Ink ink = sheet::Ink::Faint;
    sheet::Pattern pattern = sheet::Pattern::HatchUp;
};
struct Marked {
    sheet::Mark mark = sheet::Mark::Spot;
    sheet::Ink ink = sheet::Ink::Line;
};
struct LegendEntry {
    std::variant<sheet::Stroke, Hatched, Marked> sample;
    std::string word;
};

// From `at` (its upper left corner) over `width`, in as many rows as it takes; where it ends below.
double draw_legend(Drawing& drawing, const std::vector<LegendEntry>& entries, sheet::At at, double width);
// How high that will be.
double legend_height(const std::vector<LegendEntry>& entries, double width);

// A wedge down, a wedge up, a bar, a ring, a dot, as used on deviations; those that `used` names.
struct UsedMarks {
    bool high = false, low = false, within = false, undecided = false, untested = false;
};
void add_marks(std::vector<LegendEntry>& entries, const UsedMarks& used);
void note_mark(UsedMarks& used, sheet::Mark mark);

// Words in rows from `at` (upper left corner) down, broken between words; where they end below.
double draw_paragraph(Drawing& drawing, const std::string& words, sheet::At at, double width, double size,
                      bool bold = false);

// The head of a drawing: its name in bold, beside it the job where it has room, under it a line of facts.
// Where it ends below.
double draw_head(Drawing& drawing, const std::string& name, const std::string& facts, const std::string& job);

}  // namespace fallwright::record
