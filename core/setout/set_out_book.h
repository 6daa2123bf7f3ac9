// set_out_book: a small book for tests, evaluated as far as setting out needs. Inside setout only.
#pragma once

#include <algorithm>
#include <memory>
#include <string>
#include <utility>

#include "setout/setout.h"
#include "staff/figures.h"

namespace fallwright {

class SetOutBook {
  public:
    // entries: lines of JSON after the book's own.
    explicit SetOutBook(const std::string& entries, bool curvature = false, const std::string& unit = "m")
        : book_(
              std::move(*read_book(R"({"kind":"book","format":"fallwright","version":1,"unit":")" + unit +
                                   R"(","curvature":)" + (curvature ? "true" : "false") + "}\n" + entries))),
          designs_(design_lines(*book_)),
          figures_(read_figures(*book_)),
          where_(locate(*book_, 30)),
          model_(build_model(*book_, figures_, where_)),
          found_(find_falls(*book_, *model_)) {}

    SetoutBasis basis() const { return {*book_, designs_, where_, *model_, found_}; }
    const Book& book() const { return *book_; }
    const Model& model() const { return *model_; }
    const Where& where() const { return where_; }
    const Figures& figures() const { return figures_; }

    // Of the first line, from the first set-up.
    SetoutWish wish(double every, std::vector<std::string> whats = {}) const {
        return {0, book_->setups.empty() ? no_setup : 0, {every}, std::move(whats)};
    }
    Setout set_out(double every, std::vector<std::string> whats = {}) const {
        return fallwright::set_out(basis(), wish(every, std::move(whats)));
    }

    static std::ptrdiff_t count(const Findings& findings, Code code) {
        return std::count_if(findings.begin(), findings.end(),
                             [code](const Finding& each) { return each.code == code; });
    }

  private:
    std::unique_ptr<Book> book_;
    Designs designs_;
    Figures figures_;
    Where where_;
    std::unique_ptr<Model> model_;
    std::vector<LineFalls> found_;
};

}  // namespace fallwright
