// plain_zero: a zero written at length, as the parser can take it.
//
// RapidJSON reads a number whose digits are all 0 right only while the power of ten it stands for is at most
// 22: beyond that it normalises a significand of 0, which no processor defines, and 0e-100 came back as 1e31.
// A book may hold such a zero (JSON sets no bound, RFC 8259 section 6), and it is as good a zero as any.
//
// Inside book only.
#pragma once

#include <string>

namespace fallwright {

// Blanks what follows the first 0 of each number of the line that is 0, so 0.000e-7 is read as 0. Texts and
// all other numbers are left as they stand, and so is what is no number: the parser has its say on it. line:
// one line as JSON, in UTF-8; whole or not. Its size does not change, O(size).
void plain_zeros(std::string& line);

}  // namespace fallwright
