// set_out_book: a small book for tests, evaluated as far as setting out and the stages after it need.
//
// Its lines are entries of a book in the given unit, without curvature unless asked for, so that figures can
// be worked out by hand: a level plane is level. Nothing is checked of the entries; what is wrong in them is
// in the findings of each stage, as in the product. The sights of readings without a distance are 30 m.
//
//   SetOutBook book(R"({"kind":"benchmark","point":"BM","level":50} ...)");
//   book.basis()           what set_out() and drain_runs() are given
//   book.set_out(10)       the table of the first line from the first set-up
#pragma once

#include <algorithm>
#include <memory>
#include <string>
#include <utility>

#include "setout/setout.h"
#include "staff/figures.h"

namespace fallwright {

// Not for the product: who evaluates a real book goes through desk/evaluation.h, which knows its rules.
class SetOutBook {
  public:
    // entries: lines of JSON after the book's own, each ended by a newline; the book opens with unit and
    // curvature. Designs, figures, places, levels and falls are worked out at once, in the order of the
    // stages, and stay as long as this.
    explicit SetOutBook(const std::string& entries, bool curvature = false, const std::string& unit = "m")
        : book_(
              std::move(*read_book(R"({"kind":"book","format":"fallwright","version":1,"unit":")" + unit +
                                   R"(","curvature":)" + (curvature ? "true" : "false") + "}\n" + entries))),
          designs_(design_lines(*book_)),
          figures_(read_figures(*book_)),
          where_(locate(*book_, 30)),
          model_(build_model(*book_, figures_, where_)),
          found_(find_falls(*book_, *model_)) {}

    // Refers into this book, which outlives it. Make it anew rather than keep it: it is five references, and
    // costs nothing.
    SetoutBasis basis() const { return {*book_, designs_, where_, *model_, found_}; }
    // The parts of it, as the stages made them; for tests that ask a stage by itself.
    const Book& book() const { return *book_; }
    const Model& model() const { return *model_; }
    const Where& where() const { return where_; }
    const Figures& figures() const { return figures_; }

    // Of the first line, from the first set-up; no set-up where the book has none, so that only design levels
    // and dig are asked for.
    SetoutWish wish(double every, std::vector<std::string> whats = {}) const {
        return {0, book_->setups.empty() ? no_setup : 0, {every}, std::move(whats)};
    }
    // The table that the stage gives for that wish, with what it noticed; every in metres, whatever the unit.
    Setout set_out(double every, std::vector<std::string> whats = {}) const {
        return fallwright::set_out(basis(), wish(every, std::move(whats)));
    }

    // How often a finding was made: 0 where it was not, so that a test can say that nothing was noticed.
    static std::ptrdiff_t count(const Findings& findings, Code code) {
        return std::count_if(findings.begin(), findings.end(),
                             [code](const Finding& each) { return each.code == code; });
    }

  private:
    // In the order in which the stages need each other: each is built from those above it, which it refers
    // to, so that none of them may move.
    std::unique_ptr<Book> book_;
    Designs designs_;
    Figures figures_;
    Where where_;
    std::unique_ptr<Model> model_;
    std::vector<LineFalls> found_;
};

}  // namespace fallwright
