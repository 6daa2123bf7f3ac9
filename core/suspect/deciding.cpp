#include "suspect/deciding.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/print.h"
#include "model/predict.h"
#include "preset/error_figures.h"
#include "suspect/mixture.h"
#include "suspect/words.h"

namespace fallwright {

namespace {

constexpr std::size_t most_points = 400;
constexpr std::size_t most_anchors = 12, most_targets = 40;
constexpr int new_setup_effort = 5;
constexpr double told_apart = 2;  // standard deviations
constexpr double new_sight = 30;  // metres, from a set-up yet to be chosen

// One explanation's column, ready for products; size as the readings see it.
struct Ready {
    const Weighed* weighed;
    double weight;
    bool real;
    std::vector<adjust::Part> parts;
    double size = 0, sd = 0;
};

// A reading that could be taken, and what each explanation makes of it.
struct Candidate {
    std::int32_t point = -1, from = -1;
    double staff = 0, own_variance = 0;  // by the evidence; what is the reading's own
    std::vector<adjust::Term> terms;
};

class Decider {
  public:
    Decider(const Evidence& evidence, const Causes& causes, const std::vector<Explanation>& explanations)
        : evidence_(evidence),
          causes_(causes),
          model_(causes.model()),
          predictor_(causes.book(), causes.where(), causes.model()),
          setup_(causes.standing()) {
        for (const Explanation& each : explanations) {
            Ready ready{each.weighed, each.weight, each.real, {}, 0, 0};
            if (each.weighed != nullptr) {
                ready.parts = evidence.measure(causes.column(each.weighed->cause, each.weighed->which)).parts;
                ready.size = std::isnan(each.weighed->size) ? 0 : each.weighed->size;
                ready.sd = std::isnan(each.weighed->sd) ? 0 : each.weighed->sd;
            }
            ready_.push_back(std::move(ready));
        }
    }

    std::unique_ptr<Deciding> run() {
        if (setup_ < 0 || ready_.size() < 2) return nullptr;
        for (const bool splits : {true, false}) {
            splits_ = splits;
            seek();
            if (best_ == nullptr) continue;
            best_->confirms_only = !splits;
            break;
        }
        return std::move(best_);
    }

    std::unique_ptr<Deciding> only(std::int32_t point) {
        if (setup_ >= 0) consider(from_here(point), 1);
        return std::move(best_);
    }

  private:
    void seek() {
        for (const std::int32_t point : points_here()) consider(from_here(point), 1);
        if (best_ != nullptr) return;
        const auto [anchors, targets] = points_anew();
        for (const std::int32_t from : anchors) {
            for (const std::int32_t point : targets) {
                if (from != point) consider(from_anew(from, point), new_setup_effort);
            }
        }
    }

    // Benchmarks and points named by the explanations first, then those read here, then all.
    std::vector<std::int32_t> points_here() const {
        std::vector<std::int32_t> points = named_points();
        for (const std::uint32_t row : causes_.on_tripod(static_cast<std::size_t>(setup_)))
            points.push_back(model_.sights.rows[row].point);
        for (std::size_t i = 0; i < model_.points.size(); ++i) points.push_back(static_cast<std::int32_t>(i));
        return first_of_each(points, most_points);
    }

    std::vector<std::int32_t> named_points() const {
        std::vector<std::int32_t> points;
        for (const Ready& each : ready_) {
            if (each.weighed == nullptr) continue;
            const Cause& cause = each.weighed->cause;
            if (cause.point >= 0) points.push_back(cause.point);
            if (cause.row >= 0) points.push_back(causes_.sight(cause.row).point);
        }
        for (const Benchmark& benchmark : causes_.book().benchmarks)
            points.push_back(model_.points.at(benchmark.point));
        return points;
    }

    std::vector<std::int32_t> first_of_each(const std::vector<std::int32_t>& points, std::size_t most) const {
        std::vector<std::int32_t> once;
        std::vector<bool> seen(model_.points.size(), false);
        for (const std::int32_t point : points) {
            if (point < 0 || seen[static_cast<std::size_t>(point)]) continue;
            seen[static_cast<std::size_t>(point)] = true;
            if (std::isnan(model_.levels[static_cast<std::size_t>(point)].level)) continue;
            once.push_back(point);
            if (once.size() == most) break;
        }
        return once;
    }

    std::pair<std::vector<std::int32_t>, std::vector<std::int32_t>> points_anew() const {
        std::vector<std::int32_t> anchors;
        for (const Benchmark& benchmark : causes_.book().benchmarks)
            anchors.push_back(model_.points.at(benchmark.point));
        std::vector<std::int32_t> targets = named_points();
        for (std::size_t i = 0; i < model_.points.size(); ++i) {
            if (model_.levels[i].readings > 1) anchors.push_back(static_cast<std::int32_t>(i));
            if (model_.levels[i].readings > 1) targets.push_back(static_cast<std::int32_t>(i));
        }
        return {first_of_each(anchors, most_anchors), first_of_each(targets, most_targets)};
    }

    Candidate from_here(std::int32_t point) const {
        const auto setup = static_cast<std::size_t>(setup_);
        Candidate candidate;
        candidate.point = point;
        const SightRow* before = row_here(point);
        const SightPlace place = place_here(point, before);
        const std::array<PointTerm, 1> level = {{{point, 1}}};
        const Foreseen seen = predictor_.foresee(setup, place, {0, level}, staff_here());
        candidate.staff = seen.staff;
        candidate.terms = seen.terms;
        if (std::isnan(candidate.staff)) return candidate;
        candidate.staff += evidence_.beyond_model(seen.terms);
        const double noise =
            predictor_.reading_noise(model_.sights.setups[setup].g, setup, candidate.staff, place.d);
        candidate.own_variance = seen.variance + noise * noise;
        if (before == nullptr) candidate.own_variance += foot_variance(point);
        return candidate;
    }

    const SightRow* row_here(std::int32_t point) const {
        for (const std::uint32_t row : causes_.on_tripod(static_cast<std::size_t>(setup_))) {
            if (model_.sights.rows[row].point == point) return &model_.sights.rows[row];
        }
        return nullptr;
    }

    SightPlace place_here(std::int32_t point, const SightRow* before) const {
        if (before != nullptr)
            return {before->terms.u, before->terms.v, before->terms.d, before->terms.has_uv, false};
        const NameId name = model_.points.name(static_cast<std::size_t>(point));
        return seen_from(causes_.where(), static_cast<std::size_t>(setup_), causes_.where().points[name]);
    }

    std::int32_t staff_here() const {
        const std::span<const std::uint32_t> rows = causes_.on_tripod(static_cast<std::size_t>(setup_));
        return model_.sights.rows[rows.back()].staff;
    }

    double foot_variance(std::int32_t point) const {
        for (const SightRow& row : model_.sights.rows) {
            if (row.point == point) return row.foot_variance;
        }
        const double bare = preset::assumed_foot_sd("", false);
        return bare * bare;
    }

    // Two points from a set-up yet to come: its height drops out, its tilt does not.
    Candidate from_anew(std::int32_t from, std::int32_t point) const {
        const auto setup = static_cast<std::size_t>(setup_);
        Candidate candidate;
        candidate.point = point;
        candidate.from = from;
        candidate.staff = evidence_.level(from) - evidence_.level(point);
        for (const auto& [which, sign] : {std::pair(from, 1.0), {point, -1.0}}) {
            const adjust::Column column = model_.level_columns[static_cast<std::size_t>(which)];
            if (column != no_column) candidate.terms.push_back({column, sign});
        }
        const double noise = predictor_.reading_noise({0, 0}, setup, 0, new_sight);
        const double tilt = model_.sights.setups[setup].errors->own_tilt_sd() * 2 * new_sight;
        candidate.own_variance = 2 * noise * noise + tilt * tilt + foot_variance(from) + foot_variance(point);
        return candidate;
    }

    double effect(const Candidate& candidate, const Weighed& weighed) const {
        const auto now = [&](std::int32_t point) {
            SightPlace place;
            if (candidate.from < 0) place = place_here(point, row_here(point));
            return causes_.effect_now(weighed.cause, weighed.which, setup_, place, point, candidate.staff);
        };
        if (candidate.from < 0) return now(candidate.point);
        const bool of_points = weighed.cause.kind == SuspectKind::MovedChangePoint ||
                               weighed.cause.kind == SuspectKind::WrongBenchmark;
        return of_points ? now(candidate.point) - now(candidate.from) : 0;
    }

    void consider(const Candidate& candidate, int effort) {
        if (std::isnan(candidate.staff)) return;
        const double known = evidence_.solution().variance_of(candidate.terms);
        if (std::isnan(known)) return;
        const std::vector<adjust::Part> parts = evidence_.solution().parts_of(candidate.terms);
        std::vector<Member> members;
        for (const Ready& each : ready_) {
            Member member = {each.weight, candidate.staff, known + candidate.own_variance};
            if (each.weighed != nullptr) {
                const double net = effect(candidate, *each.weighed) - product(parts, each.parts);
                member.mean += net * each.size;
                member.variance += net * net * each.sd * each.sd;
            }
            members.push_back(member);
        }
        if (!tells_apart(members)) return;
        const double worth = rounded_to(mutual_information(members), 6);
        if (best_ != nullptr && worth / effort <= best_->worth / best_->effort) return;
        best_ = std::make_unique<Deciding>();
        best_->setup = candidate.from < 0 ? setup_ : -1;
        best_->point = candidate.point;
        best_->from = candidate.from;
        best_->effort = effort;
        best_->worth = worth;
        for (std::size_t k = 0; k < members.size(); ++k) add_expected(ready_[k], members[k]);
    }

    bool tells_apart(const std::vector<Member>& members) const {
        const bool several =
            std::count_if(ready_.begin(), ready_.end(), [](const Ready& each) { return each.real; }) > 1;
        for (std::size_t k = 1; k < members.size(); ++k) {
            if (splits_ && several && !ready_[k].real) continue;
            const double apart = std::fabs(members[k].mean - members[0].mean);
            if (apart > told_apart * std::sqrt(members[k].variance + members[0].variance)) return true;
        }
        return false;
    }

    void add_expected(const Ready& ready, const Member& member) {
        Expected expected;
        expected.nothing_wrong = ready.weighed == nullptr;
        if (ready.weighed != nullptr)
            expected.who = {ready.weighed->cause.kind, about_of(causes_, ready.weighed->cause)};
        expected.staff = member.mean;
        expected.sd = std::sqrt(member.variance);
        best_->predicts.push_back(std::move(expected));
    }

    const Evidence& evidence_;
    const Causes& causes_;
    const Model& model_;
    Predictor predictor_;
    std::int32_t setup_;
    std::vector<Ready> ready_;
    bool splits_ = true;  // whether real explanations must differ
    std::unique_ptr<Deciding> best_;
};

}  // namespace

std::unique_ptr<Deciding> deciding_reading(const Evidence& evidence, const Causes& causes,
                                           const std::vector<Explanation>& explanations) {
    return Decider(evidence, causes, explanations).run();
}

std::unique_ptr<Deciding> reading_of(const Evidence& evidence, const Causes& causes,
                                     const std::vector<Explanation>& explanations, std::int32_t point) {
    return Decider(evidence, causes, explanations).only(point);
}

}  // namespace fallwright
