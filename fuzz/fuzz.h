// fuzz: what the targets share: bytes of any kind in, and promises that must hold whatever they are.
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

namespace fallwright::fuzz {

// A broken promise ends the program, so that libFuzzer keeps the input; assertions may be switched off.
inline void must(bool holds, const char* promise) {
    if (holds) return;
    std::fprintf(stderr, "broken promise: %s\n", promise);
    std::abort();
}

inline std::string text(const std::uint8_t* data, std::size_t size) {
    return {reinterpret_cast<const char*>(data), size};
}

}  // namespace fallwright::fuzz

// Called by libFuzzer for each input; the answer is always 0.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);
