// root: where a function crosses zero inside a bracket, by Chandrupatla's method (Advances in Engineering
// Software 28, 1997): inverse quadratic steps where the three last points allow one, halving else, so the
// bracket never opens.
// Inside drain only.
#pragma once

#include <cassert>
#include <cmath>

namespace fallwright::drain {

// The bracket is closed to this share of the root's size.
constexpr double root_tolerance = 4e-16;
constexpr int most_root_steps = 300;

// The next step from b to a, as a share of the bracket; c is the point before.
struct RootStep {
    double a, b, c;
    double fa, fb, fc;
    double share() const {
        const double chi = (a - b) / (c - b), phi = (fa - fb) / (fc - fb);
        if (!(phi * phi < chi && (1 - phi) * (1 - phi) < 1 - chi)) return 0.5;
        return fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb);
    }
};

// f is monotone or at least continuous, from and to bracket a crossing: one of f(from), f(to) is 0 or their
// signs differ.
template <class F>
double root_between(F f, double from, double to) {
    RootStep at{to, from, to, f(to), f(from), 0};
    if (at.fa == 0) return at.a;
    if (at.fb == 0) return at.b;
    assert((at.fa < 0) != (at.fb < 0));
    at.fc = at.fa;
    double share = 0.5;
    for (int step = 0; step < most_root_steps; ++step) {
        const double tried = at.a + share * (at.b - at.a);
        const double value = f(tried);
        if ((value < 0) == (at.fa < 0)) {
            at.c = at.a;
            at.fc = at.fa;
        } else {
            at.c = at.b;
            at.fc = at.fb;
            at.b = at.a;
            at.fb = at.fa;
        }
        at.a = tried;
        at.fa = value;
        const double best = std::fabs(at.fa) < std::fabs(at.fb) ? at.a : at.b;
        if (at.fa == 0) return at.a;
        const double least = root_tolerance * std::fabs(best) / std::fabs(at.b - at.a);
        if (!(least < 0.5)) return best;
        share = std::fmin(1 - least, std::fmax(least, at.share()));
    }
    return at.a;
}

}  // namespace fallwright::drain
