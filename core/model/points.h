// points: the points that readings, steps and benchmarks speak of, in order of first appearance in the book.
#pragma once

#include <cstdint>
#include <vector>

#include "book/book.h"
#include "staff/figures.h"

namespace fallwright {

// A point that only a benchmark or a step names is one too; a place alone makes none, since nothing tells its
// level.
class Points {
  public:
    // A reading that cannot be so (figures) speaks of nothing.
    Points(const Book& book, const Figures& figures);

    // Points count from 0.
    std::size_t size() const { return names_.size(); }
    // As the book calls it.
    NameId name(std::size_t point) const { return names_[point]; }
    // -1 where nothing speaks of it.
    std::int32_t at(NameId name) const { return name < index_.size() ? index_[name] : -1; }

  private:
    // By number, and by NameId.
    std::vector<NameId> names_;
    std::vector<std::int32_t> index_;
};

}  // namespace fallwright
