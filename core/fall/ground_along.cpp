#include "fall/ground_along.h"

#include <algorithm>
#include <cmath>

#include "base/print.h"

namespace fallwright {

namespace {

// Offsets are one where names of points write them alike.
constexpr int offset_places = 3;
// Chainages as close as this are one place.
constexpr double same_chainage = 1e-6;

}  // namespace

GroundAlong::GroundAlong(const Book& book, const LineFalls& found, const Model& model, std::string_view what)
    : book_(&book), model_(&model) {
    const NameId ground = book.names.find(what);
    for (const Station& station : found.stations) {
        const PointLevel& level = model.levels[static_cast<std::size_t>(station.point)];
        if (station.what == ground && !std::isnan(level.level))
            spots_.push_back({row_of(station.off), station.ch, station.point});
    }
    std::sort(spots_.begin(), spots_.end(), [](const Spot& a, const Spot& b) {
        if (a.row != b.row) return a.row < b.row;
        return a.ch != b.ch ? a.ch < b.ch : a.point < b.point;
    });
}

double GroundAlong::row_of(double off) const {
    return rounded_to(book_->in_unit(off), offset_places);
}

double GroundAlong::level_of(const Spot& spot) const {
    return model_->levels[static_cast<std::size_t>(spot.point)].level;
}

std::vector<double> GroundAlong::chainages() const {
    std::vector<double> chainages;
    for (const Spot& spot : spots_) {
        if (spot.row == 0 && (chainages.empty() || spot.ch > chainages.back() + same_chainage))
            chainages.push_back(spot.ch);
    }
    return chainages;
}

LevelAlong GroundAlong::at(double ch, double off) const {
    const double row = row_of(off);
    const auto here = [row](const Spot& spot) { return spot.row == row; };
    const auto after = std::partition_point(spots_.begin(), spots_.end(), [row, ch](const Spot& spot) {
        return spot.row < row || (spot.row == row && spot.ch < ch - same_chainage);
    });
    if (after == spots_.end() || !here(*after)) return {NAN, {}};
    if (after->ch <= ch + same_chainage) return {level_of(*after), {{after->point, 1}}};
    if (after == spots_.begin() || !here(*(after - 1))) return {NAN, {}};
    const Spot& before = *(after - 1);
    const double share = (ch - before.ch) / (after->ch - before.ch);
    return {level_of(before) + share * (level_of(*after) - level_of(before)),
            {{before.point, 1 - share}, {after->point, share}}};
}

}  // namespace fallwright
