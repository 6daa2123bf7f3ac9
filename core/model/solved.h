// solved: a small book for tests, with its model. Inside model only.
#pragma once

#include <array>
#include <cmath>
#include <memory>
#include <string>
#include <utility>

#include "model/model.h"

namespace fallwright {

class SolvedBook {
  public:
    // entries: lines of JSON after the book's own, which leaves curvature out.
    explicit SolvedBook(const std::string& entries)
        : book_(std::move(
              *read_book("{\"kind\":\"book\",\"format\":\"fallwright\",\"version\":1,\"curvature\":false}\n" +
                         entries))),
          figures_(read_figures(*book_)),
          where_(locate(*book_, 30)),
          model_(build_model(*book_, figures_, where_)) {}

    const Book& book() const { return *book_; }
    const Where& where() const { return where_; }
    const Model& model() const { return *model_; }
    std::int32_t point(const std::string& name) const { return model_->points.at(book_->names.find(name)); }
    const PointLevel& level(const std::string& name) const {
        return model_->levels.at(static_cast<std::size_t>(point(name)));
    }
    // One standard deviation of the difference of two levels.
    double sd_between(const std::string& a, const std::string& b) const {
        const std::array<PointTerm, 2> sum = {{{point(a), 1}, {point(b), -1}}};
        return std::sqrt(model_->variance_of(sum));
    }
    Finding said(Code code) const {
        for (const Findings* part : {&model_->findings, &model_->sights.findings}) {
            for (const Finding& each : *part) {
                if (each.code == code) return each;
            }
        }
        return {};
    }

  private:
    std::unique_ptr<Book> book_;
    Figures figures_;
    Where where_;
    std::unique_ptr<Model> model_;
};

}  // namespace fallwright
