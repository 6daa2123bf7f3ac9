#include "design/across.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "design/vertices.h"

namespace fallwright {

namespace {

constexpr double same_crossfall = 5e-8;  // half the last place of a gradient in results
constexpr double infinite = std::numeric_limits<double>::infinity();

// Where something that goes straight from a to b passes 0 between them; NaN where it does not.
double zero_between(double from, double a, double to, double b) {
    const bool passes = (a < 0 && b > 0) || (a > 0 && b < 0);
    return passes ? from + (to - from) * a / (a - b) : NAN;
}

Maybe kept(double a, double b) {
    return std::fabs(a - b) < same_crossfall ? Maybe{a} : Maybe();
}

}  // namespace

Across::Across(const Crossfall& crossfall) : along_(crossfall.along) {
    for (std::size_t i = 1; i < along_.size(); ++i)
        in_order_ = in_order_ && along_[i].ch - along_[i - 1].ch >= least_chainage;
    if (along_.empty()) along_.push_back({});
}

std::array<double, 2> Across::at(double ch) const {
    const auto next = std::upper_bound(along_.begin(), along_.end(), ch,
                                       [](double value, const CrossfallAt& a) { return value < a.ch; });
    if (next == along_.begin()) return {next->left, next->right};
    const CrossfallAt& before = *std::prev(next);
    if (next == along_.end()) return {before.left, before.right};
    const double share = (ch - before.ch) / (next->ch - before.ch);
    return {before.left + share * (next->left - before.left),
            before.right + share * (next->right - before.right)};
}

double Across::rise(double ch, double off) const {
    if (off == 0) return 0;
    if (!in_order_) return NAN;
    const std::array<double, 2> outwards = at(ch);
    return off < 0 ? -off * outwards[0] : off * outwards[1];
}

std::vector<Across::Stretch> Across::stretches() const {
    if (!in_order_) return {};
    std::vector<Stretch> all;
    const CrossfallAt& first = along_.front();
    all.push_back({-infinite, first.ch, {first.left}, {first.right}});
    for (std::size_t i = 1; i < along_.size(); ++i) {
        const CrossfallAt& a = along_[i - 1];
        const CrossfallAt& b = along_[i];
        all.push_back({a.ch, b.ch, kept(a.left, b.left), kept(a.right, b.right)});
    }
    const CrossfallAt& last = along_.back();
    all.push_back({last.ch, infinite, {last.left}, {last.right}});
    return all;
}

std::vector<double> Across::turns() const {
    std::vector<double> found;
    if (!in_order_ || along_.size() < 2) return found;
    const auto add = [&found](double ch) {
        if (!std::isnan(ch)) found.push_back(ch);
    };
    for (std::size_t i = 0; i < along_.size(); ++i) {
        const CrossfallAt& b = along_[i];
        add(b.ch);
        if (i == 0) continue;
        const CrossfallAt& a = along_[i - 1];
        add(zero_between(a.ch, a.left, b.ch, b.left));
        add(zero_between(a.ch, a.right, b.ch, b.right));
        add(zero_between(a.ch, a.left + a.right, b.ch, b.left + b.right));
    }
    std::sort(found.begin(), found.end());
    return found;
}

}  // namespace fallwright
