// SHA-256 (FIPS 180-4): the fingerprint of bytes. It shows that bytes were changed, not by whom or when.
#pragma once

#include <string>
#include <string_view>

namespace fallwright {

// 64 lower-case hexadecimal digits.
std::string sha256_hex(std::string_view bytes);

}  // namespace fallwright
