// Lines: what may be written into a book as one line.
//
// A line is one JSON object in UTF-8. Whether it is a sensible entry is for the book stage to say; here is
// only kept out what would damage the lines around it or could not be read back: an empty line, a line break
// or a NUL in it (a reader takes NULs for a tear), bytes that are no UTF-8, more than 64 KiB.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/finding.h"

namespace fallwright::store {

// Bytes of a line without its line break (contract section 1).
constexpr std::size_t longest_line = 65536;

using Lines = std::vector<std::string>;

// The first line that may not be written, as a finding about the file `named`: LineTooLong, else BadRequest.
std::optional<Finding> refuse(const std::string& named, const Lines& lines);

// Every line with its line break.
std::string with_breaks(const Lines& lines);

// RFC 3629: no overlong form, no surrogate, nothing above U+10FFFF.
bool is_utf8(std::string_view bytes);

}  // namespace fallwright::store
