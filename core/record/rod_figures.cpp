#include <algorithm>
#include <cmath>

#include "base/print.h"
#include "drain/run.h"
#include "fall/dig_to.h"
#include "record/drawings.h"
#include "record/figure_words.h"
#include "record/legend.h"
#include "record/scales.h"
#include "setout/rod.h"

namespace fallwright::record {

namespace {

using sheet::At;
using sheet::Ink;

constexpr double rod_left = 12, rod_width = 12, labels_left = 40, most_card = 150;
constexpr double big_type = 6, figure_type = 4.5;  // read at arm's length
constexpr double entry_height = 14, rim = 4, over_the_top = 8;

// The set-up that the job asks clamps for, else the one that stands.
std::size_t setup_for(const Evaluation& evaluation, std::size_t line) {
    for (const SetoutTable& table : evaluation.setout.tables) {
        if (table.line == line && table.setup != no_setup) return table.setup;
    }
    return drain::standing_setup(*evaluation.book);
}

std::string capitals(std::string words) {
    for (char& letter : words) {
        if (letter >= 'a' && letter <= 'z') letter = static_cast<char>(letter - 'a' + 'A');
    }
    return words;
}

// A surface as said to somebody who holds the rod.
std::string spoken(const std::string& what, bool piped) {
    if (what == "formation" && piped) return "trench bottom";
    if (what == "bed") return "top of bedding";
    return what;
}

class RodFigure {
  public:
    RodFigure(const Evaluation& evaluation, const SetoutWish& wish, const RodCard& card, Room room)
        : book_(*evaluation.book),
          wish_(wish),
          card_(card),
          room_(room),
          piped_(carries_pipes(book_.lines[wish.line])) {}

    sheet::Figure draw() {
        const double width = std::min(room_.width, most_card);
        Drawing drawing(width, room_.height + 400);
        const std::string name = book_.name(book_.lines[wish_.line].name);
        const std::string stretch =
            "chainage " + level_words(book_, card_.from) + " to " + level_words(book_, card_.to);
        double y = draw_titles(drawing, name, stretch, width);
        choose_scale(y);
        const double rod = std::max(on_paper(card_.marks.back().height, scale_) + over_the_top,
                                    entry_height * static_cast<double>(card_.marks.size()));
        foot_ = y + rod + 2;
        // Figures of the scale keep off the marks.
        for (const RodMark& mark : card_.marks)
            drawing.keep_clear(
                {rod_left - 3, y_of(mark.height) - 0.5, rod_left + rod_width + 3, y_of(mark.height) + 0.5});
        draw_rod(drawing, y + 2);
        draw_marks(drawing, y + 2);
        y = draw_notes(drawing, foot_ + 4, width);
        drawing.cut(y + rim);
        drawing.box({0.4, 0.4, width - 0.4, y + rim - 0.4}, {heavy_line, Ink::Line, sheet::Dash::Solid});
        return drawing.take("Rod card of " + name + ", " + stretch, said(name, stretch));
    }

  private:
    static double draw_titles(Drawing& drawing, const std::string& name, const std::string& stretch,
                              double width) {
        double y = draw_paragraph(drawing, "Rod for " + name, {rim, rim}, width - 2 * rim, big_type, true);
        return draw_paragraph(drawing, stretch, {rim, y}, width - 2 * rim, figure_type);
    }

    // As large as life where the rod fits on the sheet.
    void choose_scale(double top) {
        const double room = room_.height - top - 40;
        scale_ = round_scale(std::max(1.0, card_.marks.back().height * mm_per_metre / std::max(room, 40.0)),
                             book_.unit);
    }

    double y_of(double height) const { return foot_ - on_paper(height, scale_); }

    // Blocks of a round length from the foot, every other one dark.
    void draw_rod(Drawing& drawing, double top) const {
        const double block = round_step(3 * scale_ / mm_per_metre, book_.unit);
        const double left = rod_left, right = rod_left + rod_width;
        for (int i = 0;; ++i) {
            const double low = y_of(i * block), high = std::max(top, y_of((i + 1) * block));
            if (low <= top) break;
            if (i % 2 == 0)
                drawing.area(
                    {{left, low}, {left + rod_width / 3, low}, {left + rod_width / 3, high}, {left, high}},
                    Ink::Line, sheet::Pattern::Solid);
            if (i > 0 && i % 5 == 0)
                drawing.place(
                    label({}, short_words(book_, i * block), usual_type),
                    {{{left + rod_width / 3 + 0.8, low + small_type * 0.36}, sheet::Anchor::Start}});
        }
        drawing.box({left, top, right, foot_}, {wide, Ink::Line, sheet::Dash::Solid});
        drawing.line({left - 4, foot_}, {right + 4, foot_}, {0.7, Ink::Line, sheet::Dash::Solid});
    }

    void draw_marks(Drawing& drawing, double top) const {
        std::vector<double> wanted;
        for (auto mark = card_.marks.rbegin(); mark != card_.marks.rend(); ++mark)
            wanted.push_back(y_of(mark->height) - entry_height / 2);
        const std::vector<double> at = spread(wanted, entry_height, top, foot_ - entry_height);
        std::size_t i = 0;
        for (auto mark = card_.marks.rbegin(); mark != card_.marks.rend(); ++mark, ++i)
            draw_mark(drawing, *mark, at[i]);
    }

    void draw_mark(Drawing& drawing, const RodMark& mark, double top) const {
        const double y = y_of(mark.height), middle = top + entry_height / 2;
        const double right = rod_left + rod_width;
        drawing.line({rod_left - 3, y}, {right + 3, y}, {0.7, Ink::Line, sheet::Dash::Solid});
        drawing.path({{right + 3, y}, {labels_left - 6, middle}, {labels_left - 1, middle}},
                     {medium, Ink::Line, sheet::Dash::Solid});
        sheet::Label name =
            label({labels_left, top + ascent * figure_type + 1},
                  capitals(spoken(mark.what, piped_)) + "  " + height_words(mark), figure_type);
        name.bold = true;
        drawing.text(name);
        if (std::isnan(mark.clamp)) return;
        drawing.text(label({labels_left, top + 1 + figure_type * 1.35 + ascent * figure_type},
                           "receiver at " + level_words(book_, mark.clamp) + " " + unit_words(book_),
                           figure_type));
    }

    std::string height_words(const RodMark& mark) const {
        return mark.height == 0 ? "foot of the rod"
                                : level_words(book_, mark.height) + " " + unit_words(book_);
    }

    double draw_notes(Drawing& drawing, double top, double width) const {
        const auto row = [&](const std::string& words, double y) {
            return draw_paragraph(drawing, words, {rim, y}, width - 2 * rim, 3);
        };
        double y = row(
            scale_ == 1
                ? "As large as life: hold the card to the rod; check one length before use."
                : "Scale " + scale_words(scale_, book_.unit) + ": measure the marks, do not copy them off.",
            top);
        if (!std::isnan(card_.marks.front().clamp)) {
            y =
                row("Receiver: where it is clamped when the foot of the rod stands on that surface at its "
                    "right level; light of " +
                        book_.name(book_.setups[wish_.setup].name) + ". One standard deviation \xc2\xb1 " +
                        difference_of(card_.sd) + ".",
                    y + 0.5);
        } else if (wish_.setup != no_setup) {
            y =
                row("No receiver figures: the light does not run parallel to the line here, or its plane is "
                    "not known.",
                    y + 0.5);
        }
        return y;
    }

    std::string difference_of(double sd) const {
        std::string words = difference_words(book_, sd);
        if (!words.empty() && words[0] == '+') words.erase(0, 1);
        return words + " " + difference_unit(book_);
    }

    std::string said(const std::string& name, const std::string& stretch) const {
        std::string words = "Rod for line " + name + ", " + stretch + ": ";
        for (const RodMark& mark : card_.marks)
            words +=
                spoken(mark.what, piped_) + " " + height_words(mark) +
                (std::isnan(mark.clamp) ? "" : " with the receiver at " + level_words(book_, mark.clamp)) +
                "; ";
        words.erase(words.size() - 2);
        return words + ".";
    }

    const Book& book_;
    const SetoutWish& wish_;
    const RodCard& card_;
    Room room_;
    bool piped_;
    double scale_ = 1, foot_ = 0;
};

}  // namespace

std::vector<sheet::Figure> rod_cards(const Evaluation& evaluation, std::size_t line, Room room) {
    SetoutWish wish;
    wish.line = line;
    wish.setup = setup_for(evaluation, line);
    std::vector<sheet::Figure> figures;
    for (const RodCard& card : fallwright::rod_cards(setout_basis(evaluation), wish))
        figures.push_back(RodFigure(evaluation, wish, card, room).draw());
    return figures;
}

}  // namespace fallwright::record
