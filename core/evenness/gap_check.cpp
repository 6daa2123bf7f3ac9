#include "evenness/gap_check.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/print.h"

namespace fallwright {

namespace {

constexpr double usual_metres = 3;  // length of a straightedge
constexpr double usual_feet = 10 * metres_per_foot;

// Worse: more of it over its limit, or without one more of it.
bool worse(const Gap& a, const Gap& b) {
    const bool limited = !std::isnan(a.limit) && !std::isnan(b.limit);
    return limited ? std::fabs(a.gap) / a.limit > std::fabs(b.gap) / b.limit : a.gap > b.gap;
}

double length_of(const Book& book, const Tolerance* tolerance) {
    const double usual = book.unit == Unit::Foot ? usual_feet : usual_metres;
    return tolerance == nullptr ? usual : tolerance->even.over.or_else(usual);
}

// Places with at least one reading that holds, parted by readings that do not; by the position of the first.
template <class Holds>
std::vector<double> places_where(const std::vector<Gap>& gaps, Holds holds) {
    std::vector<double> places;
    bool in_one = false;
    for (const Gap& gap : gaps) {
        const bool here = holds(gap);
        if (here && !in_one) places.push_back(gap.at);
        in_one = here;
    }
    return places;
}

// The most of them in any stretch of a length.
int most_in(const std::vector<double>& places, double length) {
    std::size_t most = 0;
    std::size_t first = 0;
    for (std::size_t i = 0; i < places.size(); ++i) {
        while (places[i] - places[first] > length) ++first;
        most = std::max(most, i - first + 1);
    }
    return static_cast<int>(most);
}

}  // namespace

GapChecker::GapChecker(const EvennessBasis& basis, const RowOfReadings& row, const Tolerance* tolerance)
    : basis_(basis),
      row_(row),
      tolerance_(tolerance),
      confidence_(confidence_of(basis.book)),
      length_(length_of(basis.book, tolerance)) {}

Gap GapChecker::gap_of(const RowLine& line, std::size_t i, const Rest& rest) const {
    Gap gap;
    gap.first = gap.last = gap.at = line.x[i];
    gap.gap = rest.gap;
    if (rest.a == rest.b) return gap;
    gap.rests = {line.x[rest.a], line.x[rest.b]};
    gap.design = under(row_.design, rest.a, i, rest.b);
    return gap;
}

// One solve: for gaps that somebody asks about.
void GapChecker::find_sd(Gap& gap, std::size_t i, const Rest& rest) const {
    if (rest.a != rest.b) gap.sd = std::sqrt(variance_of_rest(basis_.model, row_, rest.a, i, rest.b));
}

void GapChecker::judge(Gap& gap, bool both_ways, bool from_memory) const {
    if (std::isnan(gap.limit) || from_memory) return;
    Limits limits;
    limits.above = gap.limit;
    if (both_ways) limits.below = -gap.limit;
    gap.judged =
        judge_figure(gap.gap, gap.sd, limits, confidence_, length_places, basis_.book.metres_per_unit());
}

// Successive readings that are not within become one place, shown by the worst of them.
void GapChecker::gather(const std::vector<Gap>& by_reading, GapCheck& to) const {
    bool in_one = false;
    for (const Gap& gap : by_reading) {
        if (!to.any || worse(gap, to.worst)) to.worst = gap;
        to.any = true;
        const Verdict verdict = gap.judged.verdict;
        const bool here = verdict == Verdict::Outside || verdict == Verdict::Undecided;
        if (here && in_one) {
            const double first = to.places.back().first;
            if (worse(gap, to.places.back())) to.places.back() = gap;
            to.places.back().first = first;
            to.places.back().last = gap.at;
        } else if (here) {
            to.places.push_back(gap);
        }
        in_one = here;
    }
}

std::vector<Gap> GapChecker::gaps_by_reading() const {
    const std::vector<Rest> rests = gaps_under(row_.line, length_);
    std::vector<Gap> gaps;
    gaps.reserve(rests.size());
    const bool asked =
        tolerance_ != nullptr && (tolerance_->even.gap.has() || !tolerance_->even.irregularities.empty());
    std::size_t worst = 0;
    for (std::size_t i = 0; i < rests.size(); ++i) {
        gaps.push_back(gap_of(row_.line, i, rests[i]));
        if (asked) find_sd(gaps.back(), i, rests[i]);
        if (worse(gaps.back(), gaps[worst])) worst = i;
    }
    find_sd(gaps[worst], worst, rests[worst]);
    return gaps;
}

GapCheck GapChecker::straightedge() const {
    GapCheck found;
    found.over = length_;
    bool three = false;
    for (std::size_t i = 2; i < row_.line.x.size(); ++i)
        three = three || row_.line.x[i] - row_.line.x[i - 2] <= length_ + least_chainage;
    if (!three) {
        found.refused = "the readings stand too far apart: three must lie under it";
        return found;
    }
    std::vector<Gap> gaps = gaps_by_reading();
    for (Gap& gap : gaps) {
        if (tolerance_ != nullptr) gap.limit = tolerance_->even.gap.value;
        judge(gap, false, tolerance_ != nullptr && tolerance_->from_memory.gap);
    }
    gather(gaps, found);
    return found;
}

GapCheck GapChecker::spots() const {
    GapCheck found;
    if (tolerance_ == nullptr || tolerance_->even.gaps.count == 0) return found;
    const preset::FlatnessCriterion& allowed = tolerance_->even.gaps;
    const auto limit = [&allowed](double distance) { return allowed.limit_m(distance); };
    const double longest = allowed.limits.at(allowed.count - 1).base;
    RowLine flat = row_.line;
    const bool designed = std::none_of(row_.design.h.begin(), row_.design.h.end(),
                                       [](double level) { return std::isnan(level); });
    for (std::size_t i = 0; designed && i < flat.h.size(); ++i) flat.h[i] -= row_.design.h[i];
    std::vector<Rest> worst;
    if (!worst_spots(flat, longest, limit, worst)) {
        found.refused = "more than " + std::to_string(most_between) + " readings lie within " +
                        trimmed(basis_.book.in_unit(longest), 3) + ": look at fewer of them";
        return found;
    }
    std::vector<Gap> gaps;
    for (std::size_t i = 0; i < worst.size(); ++i) {
        if (worst[i].a == worst[i].b) continue;
        Gap gap = gap_of(flat, i, worst[i]);
        find_sd(gap, i, worst[i]);
        gap.limit = limit(gap.rests[1] - gap.rests[0]);
        judge(gap, true, tolerance_->from_memory.gaps);
        gaps.push_back(gap);
    }
    gather(gaps, found);
    return found;
}

IrregularityCheck GapChecker::count(const IrregularityLimit& limit, const std::vector<Gap>& gaps) const {
    const auto shown = [this](double metres) {
        return rounded_to(basis_.book.in_unit(metres), length_places);
    };
    const auto at_least = [&](const Gap& gap) {
        if (gap.sd == 0) return shown(gap.gap) >= shown(limit.size) ? 1.0 : 0.0;
        return 1 - probability_within(gap.gap, gap.sd, {Limits().below, limit.size});
    };
    const auto sure = [&](double least) {
        return [&at_least, least](const Gap& gap) {
            return rounded_to(at_least(gap), probability_places) >= rounded_to(least, probability_places);
        };
    };
    IrregularityCheck found{limit.size, limit.length, limit.most, 0, 0, 0, Verdict::Untested};
    const auto plain = [&](const Gap& gap) { return shown(gap.gap) >= shown(limit.size); };
    found.count = most_in(places_where(gaps, plain), limit.length);
    // Two places that are surely apart may be one where nothing is sure, and the reverse.
    found.surely = std::min(found.count, most_in(places_where(gaps, sure(confidence_)), limit.length));
    found.possibly = std::max(found.count, most_in(places_where(gaps, sure(1 - confidence_)), limit.length));
    if (tolerance_->from_memory.irregularities) return found;
    const bool whole = row_.line.x.back() - row_.line.x.front() >= limit.length - least_chainage;
    if (found.surely > limit.most)
        found.verdict = Verdict::Outside;
    else if (whole)
        found.verdict = found.possibly <= limit.most ? Verdict::Within : Verdict::Undecided;
    return found;
}

// Of limits of one size the longest stretch that the row fills, or the shortest where it fills none.
std::vector<IrregularityCheck> GapChecker::irregularities() const {
    std::vector<IrregularityCheck> found;
    if (tolerance_ == nullptr || !row_.along || tolerance_->even.irregularities.empty()) return found;
    const double length = row_.line.x.back() - row_.line.x.front() + least_chainage;
    const std::vector<Gap> gaps = gaps_by_reading();
    for (const IrregularityLimit& limit : tolerance_->even.irregularities) {
        const auto other_serves = [&](const IrregularityLimit& other) {
            if (other.size != limit.size || other.length == limit.length) return false;
            const bool fits = limit.length <= length;
            const bool other_fits = other.length <= length;
            return fits ? other_fits && other.length > limit.length
                        : other_fits || other.length < limit.length;
        };
        const std::vector<IrregularityLimit>& all = tolerance_->even.irregularities;
        if (std::none_of(all.begin(), all.end(), other_serves)) found.push_back(count(limit, gaps));
    }
    return found;
}

}  // namespace fallwright
