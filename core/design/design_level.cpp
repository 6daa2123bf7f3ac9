#include "design/design_level.h"

namespace fallwright {

namespace {

constexpr double least_coefficient = 1e-12;

void append(std::vector<Hang>& hangs, NameId point, double coefficient) {
    if (std::fabs(coefficient) > least_coefficient) hangs.push_back({point, coefficient});
}

// Both lists stand by rising name.
std::vector<Hang> merged(double a, const std::vector<Hang>& x, double b, const std::vector<Hang>& y) {
    std::vector<Hang> hangs;
    std::size_t i = 0;
    std::size_t j = 0;
    while (i < x.size() || j < y.size()) {
        if (j == y.size() || (i < x.size() && x[i].point < y[j].point)) {
            append(hangs, x[i].point, a * x[i].coefficient);
            ++i;
        } else if (i == x.size() || y[j].point < x[i].point) {
            append(hangs, y[j].point, b * y[j].coefficient);
            ++j;
        } else {
            append(hangs, x[i].point, a * x[i].coefficient + b * y[j].coefficient);
            ++i;
            ++j;
        }
    }
    return hangs;
}

}  // namespace

double DesignLevel::value(const LevelOf& level_of) const {
    double sum = constant;
    for (const Hang& hang : hangs) sum += hang.coefficient * level_of(hang.point);
    return sum;
}

DesignLevel combined(double a, const DesignLevel& x, double b, const DesignLevel& y) {
    DesignLevel sum;
    sum.constant = (a == 0 ? 0 : a * x.constant) + (b == 0 ? 0 : b * y.constant);
    if (sum.has()) sum.hangs = merged(a, x.hangs, b, y.hangs);
    return sum;
}

DesignLevel raised(DesignLevel x, double metres) {
    x.constant += metres;
    return x;
}

double difference(const DesignLevel& y, const DesignLevel& x) {
    const DesignLevel left = combined(1, y, -1, x);
    return left.hangs.empty() ? left.constant : std::numeric_limits<double>::quiet_NaN();
}

}  // namespace fallwright
