// Draw: random choices that are the same on every machine for one written seed (the standard's distributions
// are not).
#pragma once

#include <cstdint>
#include <random>

namespace fallwright::durability {

class Draw {
  public:
    explicit Draw(std::uint64_t seed) : source_(seed) {}

    // 0 .. count - 1; count > 0.
    std::uint64_t below(std::uint64_t count) { return source_() % count; }
    std::uint64_t between(std::uint64_t low, std::uint64_t high) { return low + below(high - low + 1); }
    bool one_in(std::uint64_t count) { return below(count) == 0; }

  private:
    std::mt19937_64 source_;
};

}  // namespace fallwright::durability
