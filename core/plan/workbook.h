// workbook: a copy of the book in which planned readings stand as if they were read.
//
// The model needs no arithmetic of its own for that: a reading's figure says nothing about uncertainty but
// through effects that grow with it (staff scale, joints, lean), so a planned reading stands with the figure
// predicted, else 1.5 m, and the same rows give the same sds, redundancies and least detectable slips as the
// finished book will. What is already read keeps its figures.
//
// One copy serves a whole search: each layout overwrites set-ups, readings and places. Inside plan only.
#pragma once

#include <memory>
#include <string>

#include "plan/layout.h"
#include "plan/plan.h"

namespace fallwright {

// A layout as solved; valid by itself, until another layout is put into the workbook only for `book()`.
struct Solved {
    Where where;
    std::unique_ptr<Model> model;
    std::size_t first = 0;  // sight i of the layout is reading first + i
};

class Workbook {
  public:
    explicit Workbook(const PlanBasis& basis);

    // What the book itself plans.
    Layout as_planned() const;
    Solved solve(const Layout& layout);
    // With the layout solved last in it.
    const Book& book() const { return *book_; }
    const PlanBasis& basis() const { return basis_; }

    // "CP1", "CP2", ...: the first that neither the book as written nor the layout has. Tries of a search
    // share the names, so that there are no more of them than one layout needs.
    NameId name_for(const std::string& stem, const Layout& layout);
    NameId intern(const std::string& text) { return book_->names.intern(text); }
    // Of proposed set-ups; one that is assumed where not_named. Before the first layout is solved.
    void use_instrument(std::size_t instrument);

  private:
    void place_stands(const Layout& layout);
    void place_change_points(const Layout& layout);
    void list_readings(const Layout& layout);
    Figures figures_of(const Layout& layout) const;
    double predicted(std::size_t reading) const;

    const PlanBasis& basis_;
    std::unique_ptr<Book> book_;
    std::vector<Setup> setups_;  // of the book itself
    std::vector<PlaceEntry> places_;
    std::vector<Reading> readings_;    // those that are taken
    std::vector<std::uint32_t> kept_;  // their indices in the book
    std::size_t instrument_ = 0;       // of proposed set-ups
    std::uint32_t entry_ = 0;          // that of all that is proposed
};

}  // namespace fallwright
