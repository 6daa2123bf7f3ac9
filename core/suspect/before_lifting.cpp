// Before the tripod is lifted: the point first read from it, read again.
#include <array>
#include <cmath>

#include "model/predict.h"
#include "suspect/deciding.h"

namespace fallwright {

std::unique_ptr<BeforeLifting> before_lifting(const Causes& causes) {
    constexpr double certainty = 1.96;
    const std::int32_t setup = causes.standing();
    if (setup < 0) return nullptr;
    const auto at = static_cast<std::size_t>(setup);
    const std::span<const std::uint32_t> rows = causes.on_tripod(at);
    const SightRow& first = causes.model().sights.rows[rows.front()];
    if (causes.model().sights.rows[rows.back()].point == first.point) return nullptr;
    const Predictor predictor(causes.book(), causes.where(), causes.model());
    const SightPlace place = {first.terms.u, first.terms.v, first.terms.d, first.terms.has_uv, false};
    const std::array<PointTerm, 1> level = {{{first.point, 1}}};
    const Prediction read = predictor.read(at, place, {0, level}, first.staff);
    if (std::isnan(read.sd)) return nullptr;
    const double noise = predictor.reading_noise(causes.model().sights.setups[at].g, at, read.staff, place.d);
    auto again = std::make_unique<BeforeLifting>();
    again->setup = setup;
    again->point = first.point;
    again->staff = read.staff;
    again->sd = std::sqrt(read.sd * read.sd + noise * noise);
    again->limit = certainty * again->sd;
    return again;
}

}  // namespace fallwright
