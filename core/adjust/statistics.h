// statistics: the distributions the results speak of.
//
// The mathematics library's exp, log, lgamma and erfc are used; they differ in the last bits between builds,
// which the printing rule removes.
#pragma once

namespace fallwright::adjust {

// P(X <= x) of the normal distribution with mean 0 and sd 1.
double normal_cdf(double x);

// P(X <= x) of chi-square with dof > 0; 0 for x <= 0. Series below the mean, continued fraction above; about
// 1e-12.
double chi_square_cdf(double x, double dof);

// x with chi_square_cdf(x, dof) = p, 0 < p < 1, dof > 0; about 1e-10 relative.
double chi_square_quantile(double p, double dof);

// P(X <= x) of the ratio of two independent variances of one size (F distribution), dof > 0; 0 for x <= 0.
// Continued fraction of the incomplete beta function; about 1e-12.
double variance_ratio_cdf(double x, double dof_above, double dof_below);

// x with variance_ratio_cdf(x, ...) = p, 0 < p < 1; about 1e-10 relative. With one degree of freedom above it
// is the square of Student's t for (1 + p) / 2.
double variance_ratio_quantile(double p, double dof_above, double dof_below);

}  // namespace fallwright::adjust
