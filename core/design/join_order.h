// join_order: in which order lines can be designed, so that one that is joined is there before those that
// join it. Inside design only.
#pragma once

#include <cstdint>
#include <vector>

#include "book/book.h"

namespace fallwright {

// Instead of a line: there is none of that name; the join is part of a circle.
constexpr std::int32_t no_line = -1;
constexpr std::int32_t in_circle = -2;

struct JoinOrder {
    std::vector<std::size_t> lines;  // indices in Book::lines, joined ones first
    // By line and join: the line joined, as its index in Book::lines.
    std::vector<std::vector<std::int32_t>> joined;
    std::vector<std::vector<std::size_t>> circles;  // lines that lead back to the first of them
};

JoinOrder order_by_joins(const Book& book);

}  // namespace fallwright
