#include <algorithm>
#include <cmath>

#include "base/print.h"
#include "record/dimensions.h"
#include "record/drawings.h"
#include "record/figure_words.h"
#include "record/legend.h"
#include "setout/pegs.h"

namespace fallwright::record {

namespace {

using sheet::At;
using sheet::Ink;

constexpr double card_height = 68, least_card = 80, rim = 3;
constexpr double name_type = 4, note_type = 3, huge_type = 9;  // to read at arm's length
constexpr double peg_width = 14, peg_height = 30, most_line_down = 18;

// Pipes are laid to their invert; at a step in a chamber there are two.
std::string spoken(const std::string& what) {
    if (what == "laid") return "invert";
    if (what == "laid in") return "invert IN";
    return what == "laid out" ? "invert OUT" : what;
}

class PegSheet {
  public:
    PegSheet(const Evaluation& evaluation, std::size_t line, Room room)
        : book_(*evaluation.book),
          name_(book_.name(book_.lines[line].name)),
          room_(room),
          pegs_(peg_card(setout_basis(evaluation), line)) {
        across_ = std::max<std::size_t>(1, static_cast<std::size_t>(room.width / least_card));
        down_ = std::max<std::size_t>(1, static_cast<std::size_t>(room.height / card_height));
    }

    std::vector<sheet::Figure> draw() const {
        std::vector<sheet::Figure> figures;
        const std::size_t on_sheet = across_ * down_, sheets = (pegs_.size() + on_sheet - 1) / on_sheet;
        for (std::size_t first = 0; first < pegs_.size(); first += on_sheet) {
            const std::size_t last = std::min(first + on_sheet, pegs_.size());
            const std::size_t rows = (last - first + across_ - 1) / across_;
            Drawing drawing(room_.width, static_cast<double>(rows) * card_height);
            std::string said = "Cards for the pegs of line " + name_ + ": ";
            for (std::size_t i = first; i < last; ++i) {
                draw_card(drawing, i - first, pegs_[i]);
                said += (i == first ? "" : "; ") + book_.name(pegs_[i].point) + ", write " +
                        to_write(pegs_[i]) + ", line " + level_words(book_, pegs_[i].line_down) + " " +
                        unit_words(book_) + " below the top";
            }
            std::string title = "Peg cards of " + name_;
            if (sheets > 1)
                title += ", sheet " + std::to_string(first / on_sheet + 1) + " of " + std::to_string(sheets);
            figures.push_back(drawing.take(title, said + "."));
        }
        return figures;
    }

  private:
    // "C 1.6": what stands on the peg; C cut, F fill, from the line.
    std::string to_write(const PegRow& peg) const {
        const bool cut = rounded_to(book_.in_unit(peg.whole), 3) >= 0;
        return (cut ? "C " : "F ") + fixed(std::fabs(book_.in_unit(peg.whole)), 1);
    }

    void draw_card(Drawing& drawing, std::size_t place, const PegRow& peg) const {
        const double width = room_.width / static_cast<double>(across_);
        const double left = static_cast<double>(place % across_) * width;
        const std::size_t row = place / across_;
        const double top = static_cast<double>(row) * card_height;
        const Box card = {left + 0.5, top + 0.5, left + width - 0.5, top + card_height - 0.5};
        drawing.box(card, {wide, Ink::Line, sheet::Dash::Dashed});
        const double inner = width - 2 * rim - 1;
        double y = draw_paragraph(drawing, book_.name(peg.point), {card.left + rim, card.top + rim}, inner,
                                  name_type, true);
        draw_peg(drawing, {card.left + rim + 8, y + 3}, peg);
        draw_writing(drawing, {card.left + rim + 38, y + 3}, card.right - 1, peg);
        draw_facts(drawing, {card.left + rim, card.bottom - rim - note_type * 1.4 * 4}, inner, peg);
    }

    // The peg with the line to be drawn on it; not to scale but for its order.
    void draw_peg(Drawing& drawing, At at, const PegRow& peg) const {
        const double left = at.x, right = at.x + peg_width, bottom = at.y + peg_height;
        drawing.path({{left, bottom - 6},
                      {left, at.y},
                      {right, at.y},
                      {right, bottom - 6},
                      {(left + right) / 2, bottom},
                      {left, bottom - 6}},
                     {heavy_line, Ink::Line, sheet::Dash::Solid});
        const double share = peg.line_down / (book_.metres_per_unit() / 10);
        const double line = at.y + std::clamp(share * most_line_down, 0.0, most_line_down);
        drawing.line({left - 3, line}, {right + 3, line}, {0.7, Ink::Line, sheet::Dash::Solid});
        if (line - at.y > 0.5) {
            drawing.line({right + 1, at.y}, {right + 6, at.y}, {hair, Ink::Line, sheet::Dash::Solid});
            dimension_up(drawing, right + 4.5, at.y, line, "");
        }
        drawing.place(label({}, level_words(book_, peg.line_down), note_type),
                      {{{right + 6.5, (line + at.y) / 2 + note_type * 0.36}, sheet::Anchor::Start}});
    }

    void draw_writing(Drawing& drawing, At at, double right, const PegRow& peg) const {
        const bool cut = rounded_to(book_.in_unit(peg.whole), 3) >= 0;
        sheet::Label big = label({(at.x + right) / 2 + 3, at.y + huge_type}, to_write(peg), huge_type,
                                 sheet::Anchor::Middle);
        big.bold = true;
        drawing.text(big);
        drawing.mark({{(at.x + right) / 2 + 3 - text_width(big.text, huge_type, true) / 2 - 5,
                       at.y + huge_type * 0.65},
                      cut ? sheet::Mark::DigWedge : sheet::Mark::FillWedge,
                      6,
                      0,
                      cut ? Ink::Dig : Ink::Fill});
        drawing.text(label({(at.x + right) / 2 + 3, at.y + huge_type + 5},
                           cut ? "down from the line" : "up from the line", note_type,
                           sheet::Anchor::Middle));
        drawing.text(label({(at.x + right) / 2 + 3, at.y + huge_type + 10}, "to " + spoken(peg.what),
                           name_type, sheet::Anchor::Middle));
    }

    void draw_facts(Drawing& drawing, At at, double width, const PegRow& peg) const {
        const std::string unit = " " + unit_words(book_);
        const bool cut = rounded_to(book_.in_unit(peg.cut), 3) >= 0;
        std::string sd = difference_words(book_, peg.sd);
        if (!sd.empty() && sd[0] == '+') sd.erase(0, 1);
        double y = draw_paragraph(
            drawing, "Draw the line " + level_words(book_, peg.line_down) + unit + " below the top.", at,
            width, note_type);
        y = draw_paragraph(drawing,
                           std::string(cut ? "Cut " : "Fill ") + level_words(book_, std::fabs(peg.cut)) +
                               unit + " \xc2\xb1 " + sd + " " + difference_unit(book_) + " from the top.",
                           {at.x, y}, width, note_type);
        draw_paragraph(drawing,
                       "Top " + level_words(book_, peg.level) + ", " + spoken(peg.what) + " " +
                           level_words(book_, peg.design) + ".",
                       {at.x, y}, width, note_type);
    }

    const Book& book_;
    std::string name_;
    Room room_;
    std::vector<PegRow> pegs_;
    std::size_t across_ = 1, down_ = 1;
};

}  // namespace

std::vector<sheet::Figure> peg_cards(const Evaluation& evaluation, std::size_t line, Room room) {
    return PegSheet(evaluation, line, room).draw();
}

}  // namespace fallwright::record
