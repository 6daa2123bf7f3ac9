// plain_number: a number as files of other programs write it: a sign, digits, a point, an exponent.
//
// Nothing else: no blanks, no comma, no inf or nan. Within 1e-300..1e300 in size, or 0. Results come from one
// multiplication or division by a power of ten, so they are the same in every build and right to the last bit
// for up to 15 digits; further digits are within one in 1e16.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace fallwright::handover {

std::optional<double> plain_number(std::string_view text);

// Numbers parted by white space; nothing where one of them is none, or there are more than `most`.
std::optional<std::vector<double>> plain_numbers(std::string_view text, std::size_t most);

}  // namespace fallwright::handover
