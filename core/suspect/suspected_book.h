// suspected_book: a small book for tests, solved, with its evidence and causes. Inside suspect only.
#pragma once

#include <memory>
#include <string>
#include <utility>

#include "suspect/causes.h"
#include "suspect/suspect.h"

namespace fallwright {

class SuspectedBook {
  public:
    // entries: lines of JSON after the book's own, which leaves curvature out.
    explicit SuspectedBook(const std::string& entries)
        : book_(std::move(
              *read_book("{\"kind\":\"book\",\"format\":\"fallwright\",\"version\":1,\"curvature\":false}\n" +
                         entries))),
          designs_(design_lines(*book_)),
          figures_(read_figures(*book_)),
          where_(locate(*book_, 30)),
          model_(build_model(*book_, figures_, where_)),
          evidence_(std::make_unique<Evidence>(*book_, designs_, *model_)),
          causes_(std::make_unique<Causes>(*book_, where_, figures_, designs_, *model_, *evidence_)) {}

    const Book& book() const { return *book_; }
    const Model& model() const { return *model_; }
    const Evidence& evidence() const { return *evidence_; }
    const Causes& causes() const { return *causes_; }
    Suspects suspects() const { return find_suspects(*book_, where_, figures_, designs_, *model_); }
    // Row of the reading with that id.
    std::int32_t row(const std::string& id) const {
        for (std::size_t i = 0; i < model_->sights.rows.size(); ++i) {
            if (book_->id_of(book_->readings[model_->sights.rows[i].reading].entry) == id)
                return static_cast<std::int32_t>(i);
        }
        return -1;
    }
    // The first cause of a kind that a reading (its row) or a benchmark (its point's name) has.
    Cause cause(SuspectKind kind, std::int32_t row, const std::string& point = "") const {
        Cause found;
        bool any = false;
        causes_->each([&](const Cause& cause) {
            const bool named = point.empty() || (cause.point >= 0 && name_of(cause.point) == point);
            if (any || cause.kind != kind || !named || (row >= 0 && cause.row != row)) return;
            found = cause;
            any = true;
        });
        return found;
    }
    std::int32_t point(const std::string& name) const { return model_->points.at(book_->names.find(name)); }
    Probe probe(const Cause& cause) const { return evidence_->measure(causes_->column(cause)); }
    std::string name_of(std::int32_t point) const {
        return book_->name(model_->points.name(static_cast<std::size_t>(point)));
    }

  private:
    std::unique_ptr<Book> book_;
    Designs designs_;
    Figures figures_;
    Where where_;
    std::unique_ptr<Model> model_;
    std::unique_ptr<Evidence> evidence_;
    std::unique_ptr<Causes> causes_;
};

}  // namespace fallwright
