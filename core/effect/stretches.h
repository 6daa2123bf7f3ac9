// stretches: what an adjustment of an instrument parts. Checks and readings of one stretch speak of the same
// tilt, cone and collimation; those of two do not.
#pragma once

#include <cstdint>
#include <vector>

#include "book/book.h"

namespace fallwright {

// A stretch is counted by how often the instrument was adjusted before, in time order (contract section 1:
// ties by line).
class Stretches {
  public:
    explicit Stretches(const Book& book);  // outlives this

    // 0 before the first adjustment.
    // instrument: index in Book::instruments; entry: index in Book::entries.
    std::int32_t of(std::size_t instrument, std::uint32_t entry) const;

  private:
    struct Adjustment {
        Instant at;
        std::uint32_t entry;
    };
    const Book& book_;
    std::vector<std::vector<Adjustment>> adjustments_;  // by instrument
};

}  // namespace fallwright
