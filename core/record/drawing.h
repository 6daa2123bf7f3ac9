// drawing: a figure being drawn, and where its labels may still stand. Inside record only.
//
// Every label goes through here, so that no two of them overlap: a fixed one (title, box of a table) takes
// its place, a free one is offered places and stands at the first that is free, on the sheet and over no line
// that matters, else at the first that is free, or is left out. What a label must not hide (a symbol, a bar)
// can be kept clear as well.
//
// Millimetres of paper, y down, as in sheet/figure.h. Labels stand level or turned by 90 degrees.
#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "sheet/figure.h"
#include "sheet/type.h"

namespace fallwright::record {

using sheet::ascent;
using sheet::Box;
using sheet::descent;
using sheet::text_width;

// Widths of lines, mm.
constexpr double hair = 0.13, thin = 0.18, medium = 0.25, wide = 0.35, heavy_line = 0.5;

// Sizes of type, mm.
constexpr double small_type = 2.0, usual_type = 2.4, title_type = 3.2;

// Where a label could stand.
struct LabelPlace {
    sheet::At at;
    sheet::Anchor anchor = sheet::Anchor::Start;
};

// Around a point, the usual order: right above, right below, left above, left below, above, below, right,
// left; `reach` from it.
std::vector<LabelPlace> places_around(sheet::At point, double reach, double size);

class Drawing {
  public:
    Drawing(double width, double height);

    double width() const { return figure_.width; }
    double height() const { return figure_.height; }
    // What was drawn stays; the sheet ends here. For drawings that find their height as they go.
    void cut(double height) { figure_.height = height; }

    void line(sheet::At a, sheet::At b, const sheet::Stroke& stroke = {}, std::string about = "");
    // Fewer than two points draw nothing.
    void path(std::vector<sheet::At> points, const sheet::Stroke& stroke, std::string about = "",
              bool closed = false);
    void box(const Box& box, const sheet::Stroke& stroke);
    void area(std::vector<sheet::At> outline, sheet::Ink ink, sheet::Pattern pattern,
              std::vector<std::vector<sheet::At>> holes = {});
    void arc(const sheet::Arc& arc);
    // Kept clear of labels offered later.
    void mark(const sheet::Symbol& symbol, std::string about = "");

    // Stands where it is said to stand.
    void text(const sheet::Label& label, std::string about = "");
    // At the first of the places that is free and on the sheet; false where there is none.
    bool place(sheet::Label label, const std::vector<LabelPlace>& places, std::string about = "");
    bool is_free(const Box& box) const;
    void keep_clear(const Box& box);
    // A label would rather not lie over this line, but may where there is no other place.
    void avoid(sheet::At a, sheet::At b);

    sheet::Figure take(std::string title, std::string said);

  private:
    bool over_line(const Box& box) const;
    std::pair<std::size_t, std::size_t> cells(double from, double to, std::size_t most) const;

    sheet::Figure figure_;
    std::size_t columns_ = 1, rows_ = 1;
    std::vector<Box> taken_;
    std::vector<std::vector<std::uint32_t>> grid_;  // of taken_, by cell
    std::vector<std::vector<sheet::At>> avoided_;   // points of lines, by cell
};

// A text cut to a width on paper, with three points where something was left out.
std::string cut_to(std::string text, double size, double most, bool bold = false);

// A label at a place; the rest as usual.
sheet::Label label(sheet::At at, std::string text, double size = usual_type,
                   sheet::Anchor anchor = sheet::Anchor::Start);
sheet::Label turned(sheet::At at, std::string text, double size = usual_type,
                    sheet::Anchor anchor = sheet::Anchor::Middle);

}  // namespace fallwright::record
