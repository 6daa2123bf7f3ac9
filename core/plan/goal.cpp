#include "plan/goal.h"

namespace fallwright {

namespace {

constexpr int halvings = 60;  // of an interval of a few units: to the last bits of a double

// Where a falling function passes a value.
template <class Function>
double crossing(double low, double high, double value, Function falling) {
    for (int i = 0; i < halvings; ++i) {
        const double middle = (low + high) / 2;
        (falling(middle) >= value ? low : high) = middle;
    }
    return (low + high) / 2;
}

}  // namespace

std::string_view proof_word(Proof proof) {
    switch (proof) {
        case Proof::Half:
            return "half";
        case Proof::Narrow:
            return "narrow";
        case Proof::Nothing:
            return "nothing";
        case Proof::OneSided:
            return "one-sided";
        case Proof::NoTolerance:
            break;
    }
    return "";
}

double normal_quantile(double p) {
    constexpr double reach = 9;
    return -crossing(-reach, reach, p, [](double x) { return normal_cdf(-x); });
}

double Goal::half_width() const {
    return two_sided() ? (limits.above - limits.below) / 2 : NAN;
}

double Goal::largest_sd() const {
    return half_width() / normal_quantile((1 + confidence) / 2);
}

double Goal::half_sd() const {
    return half_width() / (2 * normal_quantile(confidence));
}

Provable provable(const Goal& goal, double sd) {
    Provable can;
    if (!goal.any() || std::isnan(sd)) return can;
    if (!goal.two_sided()) {
        can.proof = Proof::OneSided;
        can.guard = sd * normal_quantile(goal.confidence);
        return can;
    }
    const double half = goal.half_width();
    const Limits centred{-half, half};
    const auto within = [&](double off) { return probability_within(off, sd, centred); };
    if (within(0) < goal.confidence) {
        can.proof = Proof::Nothing;
        return can;
    }
    can.margin = crossing(0, half, goal.confidence, within);
    can.guard = half - can.margin;
    can.proof = sd <= goal.half_sd() ? Proof::Half : Proof::Narrow;
    return can;
}

}  // namespace fallwright
