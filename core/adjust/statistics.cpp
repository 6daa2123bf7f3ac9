#include "adjust/statistics.h"

#include <cmath>
#include <initializer_list>

namespace fallwright::adjust {

namespace {

constexpr double smallest_term = 1e-17;
constexpr int most_terms = 100000;

// x^a e^-x / Gamma(a), in logarithms so that large a do not overflow.
double gamma_density_factor(double a, double x) {
    return std::exp(a * std::log(x) - x - std::lgamma(a));
}

// Lower regularised incomplete gamma function by its power series; good for x < a + 1.
double lower_gamma_series(double a, double x) {
    double term = 1 / a;
    double sum = term;
    for (int n = 1; n < most_terms && term > sum * smallest_term; ++n) {
        term *= x / (a + n);
        sum += term;
    }
    return sum * gamma_density_factor(a, x);
}

// Upper regularised incomplete gamma function by its continued fraction (Lentz's evaluation); good for x > a
// + 1.
double upper_gamma_fraction(double a, double x) {
    constexpr double tiny = 1e-300;
    double b = x + 1 - a;
    double c = 1 / tiny;
    double d = 1 / b;
    double product = d;
    for (int n = 1; n < most_terms; ++n) {
        const double numerator = -n * (n - a);
        b += 2;
        d = numerator * d + b;
        d = 1 / (std::fabs(d) < tiny ? tiny : d);
        c = b + numerator / c;
        c = std::fabs(c) < tiny ? tiny : c;
        product *= d * c;
        if (std::fabs(d * c - 1) < smallest_term * 10) break;
    }
    return product * gamma_density_factor(a, x);
}

// Wilson and Hilferty's approximation, from an approximate normal quantile; only a start for the search.
double chi_square_start(double p, double dof) {
    const double t = std::sqrt(-2 * std::log(p < 0.5 ? p : 1 - p));
    const double tail = t - (2.30753 + 0.27061 * t) / (1 + 0.99229 * t + 0.04481 * t * t);
    const double z = p < 0.5 ? -tail : tail;
    const double h = 2 / (9 * dof);
    const double cube = 1 - h + z * std::sqrt(h);
    const double start = dof * cube * cube * cube;
    return start > 0 ? start : dof * std::exp((std::log(p) + std::lgamma(dof / 2 + 1)) * 2 / dof);
}

// Continued fraction of the incomplete beta function (Lentz's evaluation); good for x < (a + 1) / (a + b +
// 2).
double beta_fraction(double a, double b, double x) {
    constexpr double tiny = 1e-300;
    const auto away_from_zero = [](double v) { return std::fabs(v) < tiny ? tiny : v; };
    double c = 1;
    double d = 1 / away_from_zero(1 - (a + b) * x / (a + 1));
    double product = d;
    for (int m = 1; m < most_terms; ++m) {
        const double even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m));
        const double odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1));
        for (const double numerator : {even, odd}) {
            d = 1 / away_from_zero(1 + numerator * d);
            c = away_from_zero(1 + numerator / c);
            product *= c * d;
        }
        if (std::fabs(c * d - 1) < smallest_term * 10) break;
    }
    return product;
}

// Regularised incomplete beta function.
double incomplete_beta(double a, double b, double x) {
    const double front =
        std::exp(std::lgamma(a + b) - std::lgamma(a) - std::lgamma(b) + a * std::log(x) + b * std::log1p(-x));
    if (x < (a + 1) / (a + b + 2)) return front * beta_fraction(a, b, x) / a;
    return 1 - front * beta_fraction(b, a, 1 - x) / b;
}

}  // namespace

double normal_cdf(double x) {
    return 0.5 * std::erfc(-x / std::sqrt(2.0));
}

double chi_square_cdf(double x, double dof) {
    if (x <= 0) return 0;
    const double a = dof / 2;
    const double half = x / 2;
    return half < a + 1 ? lower_gamma_series(a, half) : 1 - upper_gamma_fraction(a, half);
}

double chi_square_quantile(double p, double dof) {
    double low = 0;
    double high = chi_square_start(p, dof);
    while (chi_square_cdf(high, dof) < p) high = 2 * high + 1e-300;
    double x = chi_square_start(p, dof);
    for (int step = 0; step < 200 && high - low > 1e-13 * high; ++step) {
        const double excess = chi_square_cdf(x, dof) - p;
        (excess > 0 ? high : low) = x;
        const double density = gamma_density_factor(dof / 2, x / 2) / x;
        const double newton = x - excess / density;
        const bool inside = newton > low && newton < high;
        const double next = inside ? newton : 0.5 * (low + high);
        if (std::fabs(next - x) <= 1e-14 * x) return next;
        x = next;
    }
    return x;
}

double variance_ratio_cdf(double x, double dof_above, double dof_below) {
    if (x <= 0) return 0;
    const double scaled = dof_above * x;
    return incomplete_beta(dof_above / 2, dof_below / 2, scaled / (scaled + dof_below));
}

double variance_ratio_quantile(double p, double dof_above, double dof_below) {
    double low = 0, high = 1;
    while (variance_ratio_cdf(high, dof_above, dof_below) < p) high *= 2;
    for (int step = 0; step < 200 && high - low > 1e-12 * high; ++step) {
        const double middle = 0.5 * (low + high);
        (variance_ratio_cdf(middle, dof_above, dof_below) < p ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

}  // namespace fallwright::adjust
