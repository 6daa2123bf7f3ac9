// Draw: random choices from one seed, the same on every machine (the standard's distributions are not).
#pragma once

#include <cstddef>
#include <cstdint>
#include <random>

namespace fallwright::properties {

class Draw {
  public:
    explicit Draw(std::uint64_t seed) : source_(seed) {}

    // 0 .. count - 1; count > 0.
    std::size_t below(std::size_t count) { return static_cast<std::size_t>(source_() % count); }
    bool one_in(std::size_t count) { return below(count) == 0; }
    // low .. high in steps of `step`.
    double step(double low, double high, double step) {
        return low + step * static_cast<double>(below(static_cast<std::size_t>((high - low) / step + 1.5)));
    }
    template <class List>
    auto& from(List& list) {
        return list[below(list.size())];
    }

  private:
    std::mt19937_64 source_;
};

}  // namespace fallwright::properties
