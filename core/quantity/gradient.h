// Gradient: rise per length, as a quantity, and the ways the trade writes one.
//
// Inside: a ratio, rise over horizontal length, positive rising, negative falling (in the direction the
// context names: chainage, main axis, the way the water runs). A Gradient is no number and no Length; it
// times a Length is the rise over that length.
//
// Text, after spaces and capitals are evened out:
//   1 in 80   1 to 80   1:80   1/80           rise first; the first figure is never above the second
//   1.25 %   12.5 permille   12.5 per mille   and the signs for them
//   12.5 mm/m   1/4 in per ft   0.25 in/ft   1/4"/ft   0.40 ft/100 ft   40 mm in 3 m
//   0.7162 deg                                also degrees and the sign for it
//   0.0125                                    a bare number is rise per length
//   level   flat                              0
// with a sign in front (or, 1 in -80, before the second figure), and with a word before or after: fall,
// falls, falling, down, downhill, downwards are negative, rise, rises, rising, up, uphill, upwards positive;
// "a fall of", "falling at" read as written. Without sign or word: rising.
//
// Refused, each as a finding bad-number that quotes the text and says the cure:
//   - sign and word that contradict (+1.25 % fall), two words that contradict, two signs. "-1.25 % fall"
//   agrees
//     with itself and is a fall of 1.25 %, never a rise.
//   - 1 in 0, which is no gradient.
//   - anything steeper than 1 in 1 (100 %, 45 degrees): 100 in 1, 2:1, 1.25 without its %. No light plane or
//     drain is so steep; 2:1 is 1 in 2 where batters are written run first and 200 % where rise first; and a
//     bare 1.25 is a forgotten %.
//   - "3 in 10 ft": 3 inches in 10 feet, or 3 in 10.
//   - a decimal comma; exponents.
// Numbers are read as in quantity/length.h: decimal point wherever the machine stands.
#pragma once

#include <cassert>
#include <compare>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "quantity/length.h"

namespace fallwright {

class Gradient {
  public:
    constexpr Gradient() = default;
    static constexpr Gradient ratio(double value) { return Gradient(value); }
    static constexpr Gradient percent(double value) { return Gradient(value / 100.0); }
    // Also mm per m.
    static constexpr Gradient permille(double value) { return Gradient(value / 1000.0); }
    // 1 in n; a negative n falls. n is not 0.
    static constexpr Gradient one_in(double n) {
        assert(n != 0);
        return Gradient(1.0 / n);
    }
    // Above the horizontal; strictly between -90 and 90.
    static Gradient degrees(double value);
    // run is not 0.
    static constexpr Gradient of(Length rise, Length run) {
        assert(run.metres() != 0);
        return Gradient(rise.metres() / run.metres());
    }

    constexpr double ratio() const { return ratio_; }
    constexpr double percent() const { return ratio_ * 100.0; }
    constexpr double permille() const { return ratio_ * 1000.0; }
    // n of 1 in n, positive whichever way it goes; none below 1e-7 (as rounded for results), where it is
    // level.
    std::optional<double> one_in() const;
    double degrees() const;
    // falling, rising, or level where one_in() is none.
    std::string_view word() const;

    constexpr Gradient operator-() const { return Gradient(-ratio_); }
    constexpr Gradient operator+(Gradient other) const { return Gradient(ratio_ + other.ratio_); }
    constexpr Gradient operator-(Gradient other) const { return Gradient(ratio_ - other.ratio_); }
    constexpr auto operator<=>(const Gradient&) const = default;

  private:
    explicit constexpr Gradient(double value) : ratio_(value) {}
    double ratio_ = 0;
};

// The rise over a length.
constexpr Length operator*(Gradient gradient, Length run) {
    return Length::metres(gradient.ratio() * run.metres());
}

Result<Gradient> parse_gradient(std::string_view text);

// A fall, positive the way the water runs. What is called a fall is one, whatever its sign: 1 in 80, 1 in 80
// fall and 1.25 % are falls; -1.25 % and 1 in 80 rise run against the water.
Result<Gradient> parse_fall(std::string_view text);
// The same of a gradient read already; `text`: how it was written.
Gradient as_fall(Gradient gradient, std::string_view text);

// One gradient in every way the trade writes it, for people; `figures` significant figures each (1..15), by
// the printing rule. Each text reads back by parse_gradient.
struct GradientTexts {
    std::string one_in;    // "1 in 80 falling", or "level"
    std::string percent;   // "-1.25 %"
    std::string mm_per_m;  // "-12.5 mm/m"
    std::string degrees;   // "-0.7162 deg"
};

GradientTexts all_ways(Gradient gradient, int figures = 4);

}  // namespace fallwright
