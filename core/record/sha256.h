// sha256: the fingerprint of a file's bytes.
//
// Source: FIPS 180-4 (from memory; the test holds the examples published with it). It shows that a book is
// another one than the one fingerprinted; it does not show who changed it, or when.
#pragma once

#include <string>
#include <string_view>

namespace fallwright::record {

// 64 hexadecimal digits, lower case. Time linear in the length.
std::string sha256(std::string_view bytes);

}  // namespace fallwright::record
