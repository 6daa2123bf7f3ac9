#include "adjust/dense_reference.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <utility>

namespace fallwright::adjust::dense {

double Draw::uniform() {
    state = state * 6364136223846793005ULL + 1442695040888963407ULL;
    return static_cast<double>(state >> 11) / 9007199254740992.0;
}

std::int32_t Draw::below(std::size_t count) {
    return static_cast<std::int32_t>(uniform() * static_cast<double>(count));
}

Matrix normal_matrix(const Problem& problem) {
    Matrix n(problem.columns(), std::vector<double>(problem.columns(), 0.0));
    for (std::size_t i = 0; i < problem.rows(); ++i) {
        const double weight = 1 / (problem.sd[i] * problem.sd[i] + problem.folded[i]);
        for (std::size_t p = problem.start[i]; p < problem.start[i + 1]; ++p)
            for (std::size_t q = problem.start[i]; q < problem.start[i + 1]; ++q)
                n[problem.column[p]][problem.column[q]] +=
                    problem.coefficient[p] * problem.coefficient[q] * weight;
    }
    for (std::size_t j = 0; j < problem.columns(); ++j)
        if (problem.prior_sd[j] > 0) n[j][j] += 1 / (problem.prior_sd[j] * problem.prior_sd[j]);
    return n;
}

Matrix inverse(Matrix a) {
    const std::size_t size = a.size();
    Matrix b(size, std::vector<double>(size, 0.0));
    for (std::size_t k = 0; k < size; ++k) b[k][k] = 1;
    for (std::size_t k = 0; k < size; ++k) {
        std::size_t best = k;
        for (std::size_t i = k; i < size; ++i)
            if (std::abs(a[i][k]) > std::abs(a[best][k])) best = i;
        std::swap(a[k], a[best]);
        std::swap(b[k], b[best]);
        for (std::size_t i = 0; i < size; ++i) {
            const double factor = i == k ? 0.0 : a[i][k] / a[k][k];
            if (factor == 0) continue;
            for (std::size_t j = 0; j < size; ++j) {
                a[i][j] -= factor * a[k][j];
                b[i][j] -= factor * b[k][j];
            }
        }
    }
    for (std::size_t k = 0; k < size; ++k)
        for (std::size_t j = 0; j < size; ++j) b[k][j] /= a[k][k];
    return b;
}

double form(const Matrix& m, std::span<const Term> a, std::span<const Term> b) {
    double sum = 0;
    for (const Term& left : a)
        for (const Term& right : b)
            sum += left.coefficient * right.coefficient * m[left.column][right.column];
    return sum;
}

Problem network(std::uint64_t seed, std::size_t set_ups, std::size_t sights) {
    Draw draw{seed};
    Problem problem;
    const Column shared = problem.add_column();
    problem.add_prior(shared, 0, 5e-5);
    std::vector<Column> points{problem.add_column()};
    problem.add_prior(points.front(), 0.001, 0.002);
    for (std::size_t s = 0; s < set_ups; ++s) {
        const Column height = problem.add_column();
        const Column tilt = problem.add_column();
        problem.add_prior(tilt, 0, 2e-5);
        for (std::size_t k = 0; k < sights; ++k) {
            if (k > 0 && draw.uniform() < 0.6) points.push_back(problem.add_column());
            const Column point =
                k > 0 && draw.uniform() < 0.5 ? points.back() : points[draw.below(points.size())];
            const std::array<Term, 4> terms{Term{height, 1.0}, Term{point, -1.0},
                                            Term{tilt, 80 * draw.uniform() - 40},
                                            Term{shared, 50 * draw.uniform()}};
            problem.add_row(terms, 0.004 * draw.uniform() - 0.002, 0.001 + 0.001 * draw.uniform());
        }
    }
    for (const Column point : points) {
        const std::array<Term, 1> term{Term{point, 1.0}};
        problem.add_row(term, 0, 0.05);
    }
    return problem;
}

TEST(DenseReference, TheInverseTimesTheMatrixIsOne) {
    const Matrix n = normal_matrix(network(1, 5, 5));
    const Matrix q = inverse(n);
    for (std::size_t i = 0; i < n.size(); ++i)
        for (std::size_t j = 0; j < n.size(); ++j) {
            double sum = 0, size = 0;
            for (std::size_t k = 0; k < n.size(); ++k) {
                sum += q[i][k] * n[k][j];
                size += std::abs(q[i][k] * n[k][j]);
            }
            EXPECT_NEAR(sum, i == j ? 1 : 0, 1e-13 * size);
        }
}

}  // namespace fallwright::adjust::dense
