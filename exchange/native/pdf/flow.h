// flow: the place on the sheets where the next piece comes, and sheets as they fill. Inside pdf only.
#pragma once

#include <string_view>
#include <vector>

#include "exchange/native/pdf/sheets.h"

namespace fallwright::pdf {

// Sizes of type and distances between lines, mm.
struct Style {
    double size;
    bool bold;
    double leading() const { return 1.34 * size; }
    // From the top of a line to its baseline.
    double drop() const { return 1.02 * size; }
};

class Flow {
  public:
    Flow(sheet::PaperSize paper, Type& type) : paper_(paper), type_(type) { add_sheet(false); }

    Type& type() { return type_; }
    // `text` as it can be set: itself, or a mended copy.
    std::string_view clean(std::string_view text);
    // A text of our own that lives as long as the sheets.
    std::string_view keep(std::string text) { return laid_.texts.emplace_back(std::move(text)); }

    sheet::PaperSize paper() const { return paper_; }
    double left() const { return paper_.margin; }
    double width() const { return (turned() ? paper_.height : paper_.width) - 2 * paper_.margin; }
    double height() const { return (turned() ? paper_.width : paper_.height) - 2 * paper_.margin; }
    double width_if(bool turned) const { return (turned ? paper_.height : paper_.width) - 2 * paper_.margin; }
    double height_if(bool turned) const {
        return (turned ? paper_.width : paper_.height) - 2 * paper_.margin;
    }
    bool turned() const { return laid_.sheets.back().turned; }
    bool at_top() const { return y_ == paper_.margin; }
    double room() const { return paper_.margin + height() - y_; }
    double y() const { return y_; }
    std::size_t sheet() const { return laid_.sheets.size() - 1; }

    // A new sheet, unless this one is empty and lies the right way.
    void next_sheet(bool turned);
    // A new sheet where less than this is left.
    void need(double height) {
        if (room() < height && !at_top()) next_sheet(turned());
    }
    // Goes down; not at the top of a sheet.
    void gap(double height) {
        if (!at_top()) y_ += height;
    }
    void down(double height) { y_ += height; }

    template <class Piece>
    void put(const Piece& piece) {
        laid_.sheets.back().pieces.emplace_back(piece);
    }
    void rule(double from_x, double to_x, double y, double width, sheet::Ink ink = sheet::Ink::Line);
    void bookmark(int depth, std::string_view text);

    // Lines one under the other, over as many sheets as they need; never a single one of several left behind
    // or sent ahead. `each` is called with the top and bottom of every run of lines on one sheet.
    // `opening` is the length of what is set bold at the first line's beginning.
    template <class Each>
    void lines(const std::vector<std::string_view>& lines, double x, Style style, const Each& each,
               std::size_t opening = 0);
    void lines(const std::vector<std::string_view>& many, double x, Style style) {
        lines(many, x, style, [](double, double) {});
    }

    Laid take() { return std::move(laid_); }

  private:
    void add_sheet(bool turned);
    void put_line(std::string_view line, double x, Style style, std::size_t opening);
    // How many of `left` lines of this leading come onto this sheet.
    std::size_t taken(std::size_t left, bool first, double leading) const;

    sheet::PaperSize paper_;
    Type& type_;
    Laid laid_;
    double y_ = 0;
};

template <class Each>
void Flow::lines(const std::vector<std::string_view>& lines, double x, Style style, const Each& each,
                 std::size_t opening) {
    for (std::size_t k = 0; k < lines.size();) {
        const std::size_t count = taken(lines.size() - k, k == 0, style.leading());
        if (count == 0) {
            next_sheet(turned());
            continue;
        }
        const double top = y_;
        for (const std::size_t end = k + count; k < end; ++k, y_ += style.leading()) {
            put_line(lines[k], x, style, k == 0 ? opening : 0);
        }
        each(top, y_);
    }
}

}  // namespace fallwright::pdf
