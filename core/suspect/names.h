// names: point names that a tired hand mistakes for one another.
//
// Near-equal: one letter changed, added or left out, or two neighbours exchanged, upper and lower case alike
// ("CP1" and "CPl", "TBM 2" and "TBM2"). Names that differ in digits only, in one letter that stands alone
// ("peg E" and "peg W") or in a sign ("G-3" and "G+3") are how points are counted, and are not near; nor is a
// bare number near anything. Common practice, no source.
#pragma once

#include <string_view>
#include <utility>
#include <vector>

#include "book/book.h"
#include "model/points.h"

namespace fallwright {

bool near_equal(std::string_view a, std::string_view b);

// Pairs of points with near-equal names, by index in Points; names made from a line's chainage are left out,
// and books of more than near_names_limit points are not searched.
constexpr std::size_t near_names_limit = 20000;
std::vector<std::pair<std::int32_t, std::int32_t>> near_names(const Book& book, const Points& points);

}  // namespace fallwright
