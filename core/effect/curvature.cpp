#include "effect/curvature.h"

namespace fallwright {

namespace {

constexpr double usual_refraction = 0.13;  // where the book has no rule
constexpr double earth_radius = 6371000;

double refraction_rule(const Book& book) {
    for (const Rule& rule : book.rules) {
        if (book.name(rule.name) == "refraction") return rule.k.or_else(usual_refraction);
    }
    return usual_refraction;
}

}  // namespace

Curvature::Curvature(const Book& book) : refraction_(refraction_rule(book)), counts_(book.curvature) {}

double Curvature::at(double d) const {
    return counts_ ? (1 - refraction_) * d * d / (2 * earth_radius) : 0;
}

}  // namespace fallwright
