#include "dial/proof.h"

#include <cmath>
#include <map>

#include "base/stable_order.h"
#include "model/predict.h"
#include "preset/error_figures.h"

namespace fallwright {

namespace {

constexpr double hard = 0.001;         // metres: a staff's foot finds such a surface to a millimetre
constexpr double usual_length = 10;    // metres, of a staff of unknown length
constexpr double least_length = 1e-6;  // metres
// Points tried until one is in the light: of thousands of stations read off one plane nearly all are.
constexpr std::size_t most_tries = 20;

struct Candidate {
    std::int32_t point = -1;
    SightPlace place;
    double foot = 0;
    int rank = 0;  // the smaller the better
};

class ProofFinder {
  public:
    ProofFinder(const DialBasis& basis, const Dial& dial, const Heading& main)
        : basis_(basis), dial_(dial), main_(main), at_(basis.where.setups[dial.setup]) {}

    std::optional<DialProof> find(const Spot& from, const Spot& to) {
        if (!at_.known || !main_.known || at_.frame != from.frame) return std::nullopt;
        gather(from, to);
        sort_stably(candidates_, [](const Candidate& a, const Candidate& b) {
            return a.rank != b.rank ? a.rank < b.rank : a.place.d > b.place.d;
        });
        if (candidates_.size() > most_tries) candidates_.resize(most_tries);
        for (const Candidate& each : candidates_) {
            if (const std::optional<DialProof> proof = try_point(each)) return proof;
        }
        return std::nullopt;
    }

  private:
    void gather(const Spot& from, const Spot& to) {
        const std::vector<double> feet = feet_of_points();
        const std::vector<bool> independent = independent_points();
        const std::vector<bool> elsewhere = points_of_other_lines();
        for (std::size_t i = 0; i < basis_.model.levels.size(); ++i) {
            const Spot& spot = basis_.where.points[basis_.model.points.name(i)];
            if (std::isnan(basis_.model.levels[i].level) || !spot.known || spot.frame != at_.frame) continue;
            Candidate each;
            each.point = static_cast<std::int32_t>(i);
            const Axes way = in_axes({spot.e - at_.e, spot.n - at_.n}, main_);
            each.place = {way.main, way.cross, std::sqrt(way.main * way.main + way.cross * way.cross), true,
                          false};
            each.foot = feet[i];
            each.rank = (elsewhere[i] ? 8 : 0) + (independent[i] ? 0 : 4) + (each.foot <= hard ? 0 : 2) +
                        (along(spot, from, to) ? 0 : 1);
            candidates_.push_back(each);
        }
    }

    // Whether it lies beside the stretch, not before its beginning nor beyond its end.
    static bool along(const Spot& spot, const Spot& from, const Spot& to) {
        const double e = to.e - from.e;
        const double n = to.n - from.n;
        const double share = ((spot.e - from.e) * e + (spot.n - from.n) * n) / (e * e + n * n);
        return share >= -least_length && share <= 1 + least_length;
    }

    // Whether a point's level comes from elsewhere than the plane to be proved: what was found on that plane
    // fits it whatever it is. All do while the plane is still to be set.
    std::vector<bool> independent_points() const {
        std::vector<bool> independent(basis_.model.levels.size(), !dial_.as_in_book);
        const auto free = [&](NameId name) {
            independent[static_cast<std::size_t>(basis_.model.points.at(name))] = true;
        };
        for (const Benchmark& benchmark : basis_.book.benchmarks) free(benchmark.point);
        for (const SightRow& row : basis_.model.sights.rows) {
            if (static_cast<std::size_t>(row.setup) != dial_.setup)
                independent[static_cast<std::size_t>(row.point)] = true;
        }
        for (const Step& step : basis_.book.steps) {
            free(step.from);
            free(step.to);
        }
        return independent;
    }

    // A surface of another line may not be there yet, or no longer, when this plane is set.
    std::vector<bool> points_of_other_lines() const {
        std::vector<bool> other(basis_.model.levels.size());
        for (const Reading& reading : basis_.book.readings) {
            const std::int32_t point = basis_.model.points.at(reading.point);
            if (point >= 0 && dial_.line != no_name && reading.line != no_name && reading.line != dial_.line)
                other[static_cast<std::size_t>(point)] = true;
        }
        return other;
    }

    // How well a staff's foot finds each point, by what was read there.
    std::vector<double> feet_of_points() const {
        std::vector<double> feet(basis_.model.levels.size(), preset::assumed_foot_sd("", false));
        std::map<NameId, double> known;
        for (const Reading& reading : basis_.book.readings) {
            const std::int32_t point = basis_.model.points.at(reading.point);
            if (point < 0 || reading.what == no_name) continue;
            const auto [what, is_new] = known.emplace(reading.what, 0);
            if (is_new) what->second = foot_on(reading.what);
            feet[static_cast<std::size_t>(point)] = what->second;
        }
        return feet;
    }

    double foot_on(NameId what) const {
        for (const WhatEntry& entry : basis_.book.whats) {
            if (entry.name == what && entry.foot_sd.has()) return entry.foot_sd.value;
        }
        bool layer = false;
        for (const LineEntry& line : basis_.book.lines) {
            for (const Layer& each : line.layers) layer = layer || each.what == what;
        }
        return preset::assumed_foot_sd(basis_.book.name(what), layer);
    }

    std::optional<DialProof> try_point(const Candidate& each) const {
        const Book& book = basis_.book;
        const Setup& tripod = book.setups[static_cast<std::size_t>(basis_.where.tripods[dial_.setup])];
        const std::int32_t staff = ByName(book.staffs)(tripod.staff);
        const Predictor predictor(book, basis_.where, basis_.model);
        const PointTerm level = {each.point, 1};
        const ForeseenLevel foreseen = {0, {&level, 1}};
        const std::array<double, 2> grades = {dial_.set.main, dial_.set.cross};
        const Prediction read = dial_.as_in_book
                                    ? predictor.read(dial_.setup, each.place, foreseen, staff)
                                    : predictor.read_on(grades, dial_.setup, each.place, foreseen, staff);
        const double length = staff < 0
                                  ? usual_length
                                  : book.staffs[static_cast<std::size_t>(staff)].length.or_else(usual_length);
        if (!(read.staff >= 0 && read.staff <= length)) return std::nullopt;
        const double noise = predictor.reading_noise(grades, dial_.setup, read.staff, each.place.d);
        return DialProof{basis_.model.points.name(static_cast<std::size_t>(each.point)), read.staff,
                         std::sqrt(read.sd * read.sd + noise * noise + each.foot * each.foot)};
    }

    const DialBasis& basis_;
    const Dial& dial_;
    const Heading& main_;
    const Spot& at_;
    std::vector<Candidate> candidates_;
};

}  // namespace

std::optional<DialProof> find_proof(const DialBasis& basis, const Dial& dial, const Heading& main,
                                    const Spot& from, const Spot& to) {
    return ProofFinder(basis, dial, main).find(from, to);
}

}  // namespace fallwright
