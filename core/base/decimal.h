// Decimal: a length or level as a whole number of 1e-7 m, so that sums of readings are exact.
//
// Unit: metres outside, ticks of 1e-7 m inside. Range: about +-9.2e11 m. A value given in feet is converted
// to metres first; readings in feet with up to three decimals convert without remainder (0.001 ft = 3048
// ticks). Programmer errors (not finite, out of range) are assertions; the book refuses such numbers before
// they come here.
#pragma once

#include <cmath>
#include <compare>
#include <cstdint>
#include <limits>
#include <optional>

namespace fallwright {

// Example: three set-ups share a misclosure of 7 mm out exactly: Decimal::metres(0.007).share(2, 3) is
// 0.0046667.
class Decimal {
  public:
    static constexpr double ticks_per_metre = 1e7;
    // Largest magnitude accepted from a book, in metres.
    static constexpr double limit_metres = 1e9;

    constexpr Decimal() = default;
    // Nearest tick, half away from zero. value: finite, within limit_metres.
    static Decimal metres(double value) { return Decimal(std::llround(value * ticks_per_metre)); }
    static constexpr Decimal ticks(std::int64_t value) { return Decimal(value); }

    double metres() const { return static_cast<double>(ticks_) / ticks_per_metre; }
    // The count of ticks itself, for arithmetic that must stay exact.
    constexpr std::int64_t ticks() const { return ticks_; }

    // this x numerator / denominator, half away from zero. denominator > 0.
    Decimal share(std::int64_t numerator, std::int64_t denominator) const;

    // Sums and differences are exact; overflow is a programmer error.
    constexpr Decimal operator-() const { return Decimal(-ticks_); }
    constexpr Decimal operator+(Decimal other) const { return Decimal(ticks_ + other.ticks_); }
    constexpr Decimal operator-(Decimal other) const { return Decimal(ticks_ - other.ticks_); }
    constexpr Decimal& operator+=(Decimal other) { return *this = *this + other; }
    constexpr Decimal& operator-=(Decimal other) { return *this = *this - other; }
    constexpr auto operator<=>(const Decimal&) const = default;

  private:
    explicit constexpr Decimal(std::int64_t value) : ticks_(value) {}
    std::int64_t ticks_ = 0;
};

// A Decimal that may be absent, in the room of one: a booked page holds seven of them a row, and most of them
// are absent (a row has a back, an inter or a fore sight, a rise or a fall). Absent is a count of ticks far
// beyond any length of a book, so nothing else is lost.
class MaybeDecimal {
  public:
    // Absent.
    constexpr MaybeDecimal() = default;
    // Present, whatever its value.
    constexpr MaybeDecimal(Decimal value) : ticks_(value.ticks()) {}

    // Whether there is one.
    constexpr explicit operator bool() const { return ticks_ != absent; }
    // Only where there is one; a programmer error else, which no build looks for.
    constexpr Decimal operator*() const { return Decimal::ticks(ticks_); }
    constexpr Decimal value_or(Decimal other) const { return *this ? **this : other; }
    // For those who pass it on.
    constexpr operator std::optional<Decimal>() const {
        return *this ? std::optional<Decimal>(**this) : std::nullopt;
    }
    // Two absent ones are equal.
    constexpr bool operator==(const MaybeDecimal&) const = default;

  private:
    // Far beyond limit_metres: no book holds it, and no sum of its lengths comes near it.
    static constexpr std::int64_t absent = std::numeric_limits<std::int64_t>::min();
    std::int64_t ticks_ = absent;
};

}  // namespace fallwright
