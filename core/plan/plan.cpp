#include "plan/plan.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "base/stable_order.h"
#include "plan/air.h"
#include "plan/cures.h"
#include "plan/propose.h"
#include "plan/said.h"
#include "plan/search.h"

namespace fallwright {

namespace {

// Layouts a search may solve; fewer for long ones, so that it takes seconds.
constexpr std::int64_t most_solved = 3000;
constexpr std::int64_t most_sights_solved = 600000;
constexpr std::size_t refined_starts = 3;

class Planner {
  public:
    Planner(const PlanBasis& basis, const PlanWish& wish, const PlanProgress& progress)
        : basis_(basis), wish_(wish), progress_(progress), work_(basis) {}

    Plan run() {
        work_.use_instrument(instrument());
        plan_.layout = work_.as_planned();
        plan_.proposed = wish_.line != not_named && !plans_on_line();
        if (wish_.temperature_difference.has())
            plan_.warm_up = warm_up_minutes(wish_.temperature_difference.value);
        if (plan_.proposed) {
            propose();
        } else if (plan_.layout.sights.empty()) {
            plan_.findings.push_back(
                finding(Code::PlanNothing, {}, "the book plans no reading, and no line is named"));
        } else {
            judge_given();
        }
        finish();
        return std::move(plan_);
    }

  private:
    std::size_t instrument() {
        if (wish_.instrument != not_named) return wish_.instrument;
        return basis_.book.instruments.empty() ? not_named : 0;
    }

    bool plans_on_line() const {
        return std::any_of(plan_.layout.sights.begin(), plan_.layout.sights.end(),
                           [this](const PlannedSight& sight) {
                               return sight.as.line == basis_.book.lines[wish_.line].name;
                           });
    }

    static std::int64_t most_for(const Layout& layout) {
        const auto size = static_cast<std::int64_t>(layout.sights.size()) + 1;
        return std::clamp(most_sights_solved / size, std::int64_t{50}, most_solved);
    }

    void judge_given() {
        const std::vector<Spot> places =
            wish_.places.empty() ? places_of_layout(basis_, plan_.layout) : wish_.places;
        Grounds grounds = grounds_of(work_, wish_, places);
        Assessor assessor(work_, wish_, plan_.layout);
        if (assessor.stations().empty())
            plan_.findings.push_back(
                finding(Code::PlanNothing, {}, "nothing but benchmarks is planned to be read"));
        Search search(grounds, assessor, most_for(plan_.layout), progress_);
        judge(grounds, assessor, search);
        if (wish_.search) take(grounds, assessor, search.better(plan_.layout));
        plan_.tried = assessor.solved();
    }

    void judge(Grounds& grounds, Assessor& assessor, Search& search) {
        plan_.outlook = assessor.outlook(plan_.layout);
        listen(assessor);
        find_cures(grounds, assessor, plan_.layout, plan_.outlook);
        if (wish_.search) plan_.alone = search.alone(plan_.layout);
    }

    void take(Grounds& grounds, Assessor& assessor, Found found) {
        plan_.better = std::move(found.layout);
        plan_.steps = std::move(found.steps);
        plan_.better_outlook = assessor.outlook(plan_.better);
        find_cures(grounds, assessor, plan_.better, plan_.better_outlook);
    }

    // What the model has to say of a layout: what is assumed, what hangs nowhere.
    void listen(const Assessor& assessor) {
        const Model& model = *assessor.last().model;
        for (const Findings* part :
             {&assessor.last().where.findings, &model.sights.findings, &model.findings})
            plan_.findings.insert(plan_.findings.end(), part->begin(), part->end());
    }

    void propose() {
        std::vector<PlannedSight> stations = stations_of_line(work_, wish_, plan_.findings);
        const std::string line = basis_.book.name(basis_.book.lines[wish_.line].name);
        if (stations.empty()) {
            plan_.findings.push_back(
                finding(Code::PlanNoStations, {line},
                        "line " + line + " has neither a design nor a plan that stations could stand on"));
            return;
        }
        const std::vector<Spot> places =
            wish_.places.empty() ? places_beside(basis_, wish_, stations) : wish_.places;
        Grounds grounds = grounds_of(work_, wish_, places);
        const Layout plain = first_layout(grounds, stations, 1);
        if (plain.sights.empty()) {
            plan_.findings.push_back(
                finding(Code::PlanNoBenchmark, {line},
                        "no benchmark has a place on the grid or line that " + line + " lies on"));
            return;
        }
        Assessor assessor(work_, wish_, plain);
        Search search(grounds, assessor, most_for(plain), progress_);
        choose(grounds, assessor, search, stations);
        plan_.tried = assessor.solved();
    }

    struct Start {
        Layout layout;
        Score score;
    };

    // By the worst station, then the mean.
    static bool surer(const Score& a, const Score& b) {
        if (!a.known() || !b.known()) return a.known();
        return a.worst + a.mean < b.worst + b.mean;
    }

    void choose(Grounds& grounds, Assessor& assessor, Search& search,
                const std::vector<PlannedSight>& stations) {
        std::vector<Start> starts;
        for (std::size_t count = 1; count <= grounds.places.size(); ++count) {
            Layout layout = first_layout(grounds, stations, count);
            const Score score = assessor.score(layout);
            starts.push_back({std::move(layout), score});
        }
        sort_stably(starts, [](const Start& a, const Start& b) { return surer(a.score, b.score); });
        plan_.layout = starts.front().layout;
        if (starts.size() > refined_starts) starts.resize(refined_starts);
        if (!wish_.search) starts.resize(1);
        std::optional<Found> best;
        for (const Start& start : starts) {
            Found found = wish_.search ? search.better(start.layout) : Found{start.layout, start.score, {}};
            if (best && !preferred(found, *best, assessor.wanted_sd())) continue;
            best = std::move(found);
            plan_.layout = start.layout;
        }
        judge(grounds, assessor, search);
        if (wish_.search) take(grounds, assessor, std::move(*best));
    }

    // What is sure enough with less effort; else what is surer.
    static bool preferred(const Found& a, const Found& b, double wanted) {
        const bool enough_a = a.score.worst <= wanted;
        const bool enough_b = b.score.worst <= wanted;
        if (enough_a != enough_b) return enough_a;
        if (enough_a) return a.layout.effort() < b.layout.effort();
        return surer(a.score, b.score);
    }

    static std::vector<Spot> spots_of(const Layout& layout) {
        std::vector<Spot> spots;
        for (const NameId point : layout.change_points) spots.push_back(layout.change_point_spot(point));
        return spots;
    }

    void finish() {
        if (!plan_.outlook.stations.empty()) {
            work_.solve(plan_.layout);
            say_of_plan(work_.book(), plan_);
        }
        plan_.change_points = spots_of(plan_.layout);
        plan_.better_change_points = spots_of(plan_.better);
        const Names& names = work_.book().names;
        for (NameId name = 0; name < names.size(); ++name) plan_.names.emplace_back(names.text(name));
    }

    const PlanBasis& basis_;
    const PlanWish& wish_;
    const PlanProgress& progress_;
    Workbook work_;
    Plan plan_;
};

}  // namespace

Plan plan_work(const PlanBasis& basis, const PlanWish& wish, const PlanProgress& progress) {
    return Planner(basis, wish, progress).run();
}

}  // namespace fallwright
