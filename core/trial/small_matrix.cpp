#include "trial/small_matrix.h"

#include <cmath>

namespace fallwright {

namespace {

// The exchange step of Gauss and Jordan: after it unknown k stands on the other side. After all, the matrix
// is its negative inverse.
void exchange(ErrorMatrix& matrix, std::size_t k, const std::array<bool, tested_errors>& meant) {
    const double pivot = matrix[k][k];
    for (std::size_t i = 0; i < tested_errors; ++i) {
        if (i == k || !meant[i]) continue;
        for (std::size_t j = 0; j <= i; ++j) {
            if (j == k || !meant[j]) continue;
            matrix[i][j] -= matrix[i][k] * matrix[k][j] / pivot;
            matrix[j][i] = matrix[i][j];
        }
    }
    for (std::size_t i = 0; i < tested_errors; ++i) {
        if (i == k || !meant[i]) continue;
        matrix[i][k] /= pivot;
        matrix[k][i] = matrix[i][k];
    }
    matrix[k][k] = -1 / pivot;
}

}  // namespace

ErrorMatrix inverse(ErrorMatrix matrix, const std::array<bool, tested_errors>& meant) {
    std::array<bool, tested_errors> left = meant;
    for (std::size_t step = 0; step < tested_errors; ++step) {
        std::size_t best = tested_errors;
        for (std::size_t i = 0; i < tested_errors; ++i) {
            if (left[i] && (best == tested_errors || matrix[i][i] > matrix[best][best])) best = i;
        }
        if (best == tested_errors) break;
        exchange(matrix, best, meant);
        left[best] = false;
    }
    for (std::size_t i = 0; i < tested_errors; ++i) {
        for (std::size_t j = 0; j < tested_errors; ++j)
            matrix[i][j] = meant[i] && meant[j] ? -matrix[i][j] : 0;
    }
    return matrix;
}

ErrorVector times(const ErrorMatrix& matrix, const ErrorVector& vector) {
    ErrorVector product{};
    for (std::size_t i = 0; i < tested_errors; ++i) {
        for (std::size_t j = 0; j < tested_errors; ++j) product[i] += matrix[i][j] * vector[j];
    }
    return product;
}

}  // namespace fallwright
