#include "ground/flatness.h"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

#include "base/print.h"
#include "base/stable_order.h"
#include "ground/near_spots.h"
#include "verdict/joint.h"
#include "verdict/verdict.h"

namespace fallwright::ground {

namespace {

using preset::FlatnessCriterion;
using preset::FlatnessRule;

constexpr double off_middle = 0.05;   // of the distance of the outer two
constexpr double same_base = 0.025;   // as preset::FlatnessCriterion::limit_m has it
constexpr double sure = 6;            // sds, by a bound of the sd
constexpr double least_reach = 1e-3;  // metres
constexpr double middles_per_reach = 0.05;

// A figure of a table, and the sum of levels it is.
struct TableFigure {
    FlatnessCheck check;
    std::array<double, 3> share{0, 0, 0};  // of the levels of its spots
    double bound = 0;                      // no less than its sd

    double margin() const { return (check.limit - std::fabs(check.value)) / bound; }
};

class FlatnessFinder {
  public:
    FlatnessFinder(const Book& book, const std::vector<BookSpot>& spots, const Model& model,
                   const preset::FlatnessPreset& preset, const FlatnessCriterion& criterion)
        : book_(book), spots_(spots), model_(model), criterion_(criterion) {
        found_.preset = &preset;
        found_.criterion = &criterion;
        found_.reach = NAN;
        found_.probability = NAN;
    }

    Flatness run() {
        look();
        if (found_.checks == 0) return found_;
        found_.worst = figures_[worst_].check;
        found_.worst.sd = std::sqrt(std::max(0.0, model_.variance_of(terms(figures_[worst_]))));
        const auto most_outside = static_cast<std::size_t>(
            std::floor(static_cast<double>(found_.checks) * (1 - criterion_.share) + 1e-9));
        found_.plain_within = found_.outside <= most_outside;
        const bool judges =
            found_.preset->source.provenance != preset::Provenance::FromMemory && criterion_.share == 1;
        if (judges) judge();
        return found_;
    }

  private:
    // Between the outer two spots.
    double farthest() const {
        const double last = criterion_.limits[criterion_.count - 1].base;
        const double room = criterion_.one_base() ? last * (1 + same_base) : last;
        return criterion_.rule == FlatnessRule::Change ? 2 * room : room;
    }

    void look() {
        double reach = farthest();
        while (reach > least_reach && NearSpots(spots_, reach).pairs() > static_cast<double>(most_pairs)) {
            reach /= 2;
            found_.reach = reach;
        }
        const NearSpots outer(spots_, reach);
        const NearSpots middles(spots_, reach * middles_per_reach);
        for (std::size_t i = 0; i < spots_.size(); ++i) {
            const auto a = static_cast<std::int32_t>(i);
            outer.about(spots_[i].e, spots_[i].n, reach, [&](std::int32_t c) {
                if (c > a && distance(a, c) <= reach) take_pair(a, c, middles);
            });
        }
    }

    const BookSpot& spot(std::int32_t index) const { return spots_[static_cast<std::size_t>(index)]; }

    double distance(std::int32_t a, std::int32_t b) const {
        const double e = spot(b).e - spot(a).e, n = spot(b).n - spot(a).n;
        return std::sqrt(e * e + n * n);
    }

    void take_pair(std::int32_t a, std::int32_t c, const NearSpots& middles) {
        const double apart = distance(a, c);
        if (criterion_.rule == FlatnessRule::Difference) return add({a, c, -1}, {1, -1, 0}, apart);
        const double base = criterion_.rule == FlatnessRule::Change ? apart / 2 : apart;
        if (std::isnan(criterion_.limit_m(base))) return;
        const std::int32_t b = middle(a, c, apart, middles);
        if (b < 0) return;
        if (criterion_.rule == FlatnessRule::Change) return add({a, b, c}, {-1, 2, -1}, base);
        const double along = share_along(a, b, c, apart);
        add({a, b, c}, {along - 1, 1, -along}, base);
    }

    // How far along from a to c a spot stands.
    double share_along(std::int32_t a, std::int32_t b, std::int32_t c, double apart) const {
        return ((spot(b).e - spot(a).e) * (spot(c).e - spot(a).e) +
                (spot(b).n - spot(a).n) * (spot(c).n - spot(a).n)) /
               (apart * apart);
    }

    // The spot nearest to halfway, -1 where none is near enough.
    std::int32_t middle(std::int32_t a, std::int32_t c, double apart, const NearSpots& middles) const {
        const double e = (spot(a).e + spot(c).e) / 2, n = (spot(a).n + spot(c).n) / 2;
        std::int32_t nearest = -1;
        double least = off_middle * apart;
        middles.about(e, n, least, [&](std::int32_t b) {
            const double de = spot(b).e - e, dn = spot(b).n - n;
            const double off = std::sqrt(de * de + dn * dn);
            if (b == a || b == c || off > least || (off == least && nearest >= 0 && b > nearest)) return;
            least = off;
            nearest = b;
        });
        return nearest;
    }

    void add(const std::array<std::int32_t, 3>& at, const std::array<double, 3>& share, double base) {
        TableFigure figure;
        figure.check = {at, base, 0, criterion_.limit_m(base), 0};
        if (std::isnan(figure.check.limit)) return;
        figure.share = share;
        for (std::size_t k = 0; k < 3; ++k) {
            if (at[k] < 0) continue;
            const auto point = static_cast<std::size_t>(spot(at[k]).point);
            figure.check.value += share[k] * spot(at[k]).level;
            figure.bound += std::fabs(share[k]) * model_.levels[point].sd;
        }
        ++found_.checks;
        found_.longest = std::max(found_.longest, base);
        if (shown(std::fabs(figure.check.value)) > shown(figure.check.limit)) ++found_.outside;
        const auto part = [](const TableFigure& each) {
            return std::fabs(each.check.value) / each.check.limit;
        };
        figures_.push_back(figure);
        if (part(figure) > part(figures_[worst_])) worst_ = figures_.size() - 1;
    }

    double shown(double metres) const { return rounded_to(book_.in_unit(metres), length_places); }

    std::vector<PointTerm> terms(const TableFigure& figure) const {
        std::vector<PointTerm> sum;
        for (std::size_t k = 0; k < 3; ++k) {
            const std::int32_t at = figure.check.spots[k];
            if (at >= 0) sum.push_back({spot(at).point, figure.share[k]});
        }
        return sum;
    }

    // Figures that are surely within need no covariance; one that is surely outside settles all.
    void judge() {
        std::vector<const TableFigure*> open;
        bool hopeless = false;
        for (const TableFigure& figure : figures_) {
            const double room = figure.check.limit - std::fabs(figure.check.value);
            hopeless = hopeless || room < -sure * figure.bound;
            if (room < sure * figure.bound) open.push_back(&figure);
        }
        sort_stably(open,
                    [](const TableFigure* a, const TableFigure* b) { return a->margin() < b->margin(); });
        if (open.size() > most_uncertain) open.resize(most_uncertain);
        std::vector<LimitedSum> sums;
        for (const TableFigure* figure : open) {
            const FlatnessCheck& check = figure->check;
            std::vector<adjust::Part> parts = model_.parts_of(terms(*figure));
            // What its spots share altogether, or none of them has, leaves the figure as it is.
            hopeless = hopeless || (parts.empty() && std::fabs(check.value) > check.limit);
            if (hopeless) break;
            if (!parts.empty())
                sums.push_back({{-check.limit - check.value, check.limit - check.value}, std::move(parts)});
        }
        found_.probability = hopeless ? 0 : joint_probability(std::move(sums));
        found_.verdict = verdict_of(found_.probability, confidence_of(book_));
    }

    const Book& book_;
    const std::vector<BookSpot>& spots_;
    const Model& model_;
    const FlatnessCriterion& criterion_;
    std::vector<TableFigure> figures_;
    std::size_t worst_ = 0;
    Flatness found_;
};

}  // namespace

std::vector<Flatness> flatness(const Book& book, const std::vector<BookSpot>& spots,
                               const preset::FlatnessPreset& preset, const Model& model) {
    std::vector<Flatness> all;
    for (const FlatnessCriterion& criterion : preset.criteria) {
        if (criterion.count > 0) all.push_back(FlatnessFinder(book, spots, model, preset, criterion).run());
    }
    return all;
}

}  // namespace fallwright::ground
