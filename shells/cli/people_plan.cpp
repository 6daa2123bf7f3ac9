#include "shells/cli/people_plan.h"

#include <cmath>

#include "base/print.h"
#include "plan/air.h"
#include "shells/cli/plan_words.h"
#include "shells/cli/table.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

namespace {

class PlanText {
  public:
    explicit PlanText(const PlanAnswer& answer)
        : answer_(answer), plan_(answer.plan), book_(*answer.evaluation->book), unit_(book_.unit) {}

    std::string text() const {
        if (plan_.outlook.stations.empty()) return "";
        return heading() + setups(plan_.layout, plan_.outlook, plan_.change_points) + alone() + steps() +
               stations() + unguarded() + weather();
    }

  private:
    const std::string& name(NameId id) const { return plan_.names[id]; }
    std::string mm(double metres) const { return small(metres, unit_) + " " + small_unit(unit_); }

    std::string heading() const {
        std::string text = plan_.proposed ? "A layout proposed" : "The layout as planned";
        text += ", lengths in " + unit_text(unit_) + ". ± is one standard deviation";
        if (!answer_.relative_to.empty())
            text += ", relative to " + names_words(answer_, answer_.relative_to) + " as given";
        return text + ".\n" + sure(plan_.outlook);
    }

    std::string sure(const Outlook& outlook) const {
        if (std::isnan(outlook.worst)) return "How sure cannot be told: some stations hang on nothing\n";
        const StationOutlook& worst = worst_of(outlook);
        std::string text = "Worst at " + name(worst.point) + ": ± " + mm(worst.sd) + "; on average ± " +
                           mm(outlook.mean) + "\n";
        return text + proof(worst);
    }

    static const StationOutlook& worst_of(const Outlook& outlook) {
        for (const StationOutlook& station : outlook.stations) {
            if (station.point == outlook.worst_point) return station;
        }
        return outlook.stations.front();
    }

    std::string proof(const StationOutlook& station) const {
        const Goal& goal = station.goal;
        switch (station.can.proof) {
            case Proof::NoTolerance:
                break;
            case Proof::OneSided:
                return "Built " + mm(station.can.guard) + " inside its limit it can be proved\n";
            case Proof::Nothing:
                return "Its tolerance of ± " + mm(goal.half_width()) +
                       " cannot be proved, however well it is built: ± " + mm(goal.largest_sd()) +
                       " would be the most\n";
            case Proof::Narrow:
                return "Its tolerance of ± " + mm(goal.half_width()) +
                       " can be proved only where it is built within " + mm(station.can.margin) +
                       "; with ± " + mm(goal.half_sd()) + " half of it would be left to the builder\n";
            case Proof::Half:
                return "Its tolerance of ± " + mm(goal.half_width()) +
                       " can be proved where it is built within " + mm(station.can.margin) +
                       ": more than half is left to the builder\n";
        }
        return "";
    }

    std::string setups(const Layout& layout, const Outlook& outlook,
                       const std::vector<Spot>& change_points) const {
        Table table({{"set-up", Align::Left},
                     {"stands at", Align::Left},
                     {"main axis"},
                     {"", Align::Left},
                     {"readings"},
                     {"sights from"},
                     {"to"},
                     {"hot ground, " + small_unit(unit_)}});
        for (std::size_t i = 0; i < outlook.setups.size(); ++i) {
            const Stand& stand = layout.stands[i];
            const SetupOutlook& setup = outlook.setups[i];
            const double axis = stand.axis();
            table.add({name(stand.name), place_words(answer_, stand.spot),
                       std::isnan(axis) ? "" : fixed(axis, 0) + "°", stand.turned ? "half round" : "",
                       std::to_string(setup.readings), metres(setup.shortest), metres(setup.longest),
                       small(setup.hot_ground, unit_)});
        }
        std::string text = "\n" + table.text();
        for (std::size_t i = 0; i < layout.change_points.size(); ++i)
            text += "  " + name(layout.change_points[i]) + ": a firm point at " +
                    place_words(answer_, change_points[i]) + "\n";
        return text;
    }

    std::string metres(double length) const {
        return std::isnan(length) ? "" : fixed(book_.in_unit(length), 1);
    }

    Table advice_table() const {
        return Table({{""},
                      {"gain at the worst, " + small_unit(unit_)},
                      {"on average"},
                      {"effort"},
                      {"then the worst ±"},
                      {"what", Align::Left}});
    }

    void add(Table& table, const std::string& number, const Advice& advice) const {
        table.add({number, small(advice.worst_gain, unit_), small(advice.mean_gain, unit_),
                   (advice.effort > 0 ? "+" : "") + trimmed(advice.effort, 1), small(advice.worst, unit_),
                   advice_words(answer_, advice)});
    }

    std::string alone() const {
        if (plan_.alone.empty()) return "";
        Table table = advice_table();
        for (const Advice& advice : plan_.alone) add(table, "", advice);
        return "\nWhat would help, each by itself (effort: a reading 1, a set-up 5)\n" + table.text();
    }

    std::string steps() const {
        if (plan_.steps.empty())
            return plan_.tried > 1 ? "\nNo step was found that is worth its effort\n" : "";
        Table table = advice_table();
        int number = 0;
        for (const Advice& advice : plan_.steps) add(table, std::to_string(++number), advice);
        return "\nStep by step, the most for the effort first (" + std::to_string(plan_.tried) +
               " layouts tried)\n" + table.text() + "\nAfter all steps\n" + sure(plan_.better_outlook) +
               setups(plan_.better, plan_.better_outlook, plan_.better_change_points);
    }

    std::string tolerance(const Goal& goal) const {
        if (!goal.any()) return "";
        const auto side = [&](double limit) { return std::isinf(limit) ? "" : signed_small(limit, unit_); };
        if (goal.limits.above == -goal.limits.below) return "±" + small(goal.limits.above, unit_);
        return side(goal.limits.below) + " " + side(goal.limits.above);
    }

    std::string stations() const {
        const std::string unit = small_unit(unit_);
        Table table({{"station", Align::Left},
                     {"± " + unit},
                     {"tolerance"},
                     {"proved within"},
                     {"after the steps ±"},
                     {"proved within"}});
        const bool bettered = !plan_.steps.empty();
        for (std::size_t i = 0; i < plan_.outlook.stations.size(); ++i) {
            const StationOutlook& now = plan_.outlook.stations[i];
            std::vector<std::string> row = {
                name(now.point), small(now.sd, unit_), tolerance(now.goal), within(now), "", ""};
            if (bettered) {
                const StationOutlook& then = plan_.better_outlook.stations[i];
                row[4] = small(then.sd, unit_);
                row[5] = within(then);
            }
            table.add(row);
        }
        std::string text = "\n" + table.text();
        for (const FallOutlook& fall : plan_.outlook.falls) {
            if (!std::isnan(fall.sd))
                text += "  the fall through all " + name(fall.what) + " of " +
                        book_.name(book_.lines[fall.line].name) + ": ± " + gradient_sd(fall.sd) + "\n";
        }
        return text;
    }

    std::string within(const StationOutlook& station) const {
        switch (station.can.proof) {
            case Proof::Nothing:
                return "nothing";
            case Proof::OneSided:
                return small(station.can.guard, unit_) + " inside";
            default:
                return small(station.can.margin, unit_);
        }
    }

    // One further reading may guard many.
    std::string unguarded() const {
        const bool bettered = !plan_.steps.empty();
        const Layout& layout = bettered ? plan_.better : plan_.layout;
        const Outlook& outlook = bettered ? plan_.better_outlook : plan_.outlook;
        std::size_t open = 0, alone = 0;
        double largest = 0;
        std::vector<std::pair<std::string, std::size_t>> groups;
        for (std::size_t i = 0; i < outlook.sights.size(); ++i) {
            const SightOutlook& sight = outlook.sights[i];
            if (!std::isnan(sight.detectable)) largest = std::fmax(largest, sight.detectable);
            if (sight.cure.point == no_name) continue;
            ++open;
            const bool own = sight.cure.again && sight.cure.point == layout.sights[i].as.point &&
                             sight.cure.stand == layout.sights[i].stand;
            alone += own ? 1 : 0;
            if (!own)
                count(groups, name(sight.cure.point) + " from " + name(layout.stands[sight.cure.stand].name));
        }
        std::string text = "\n";
        if (largest > 0)
            text += "A slip of " + mm(largest) + " shows in every reading that something checks.\n";
        if (open == 0) return text;
        text += "A slip in " + std::to_string(open) + " of " + std::to_string(outlook.sights.size()) +
                " readings would show nowhere" + (bettered ? ", after all steps too" : "") + ".\n";
        for (const auto& [which, guards] : groups)
            text += "  one reading of " + which + " would guard " + std::to_string(guards) + " of them\n";
        if (alone > 0) text += "  " + std::to_string(alone) + " need a second reading of their own\n";
        return text;
    }

    static void count(std::vector<std::pair<std::string, std::size_t>>& groups, const std::string& which) {
        for (auto& [known, guards] : groups) {
            if (known != which) continue;
            ++guards;
            return;
        }
        groups.emplace_back(which, 1);
    }

    std::string weather() const {
        std::string text =
            "Keep the light " + metres(beam_clearance) + " " + unit_text(unit_) +
            " clear of the ground; over hot ground long sights read too much by the figure above.\n";
        if (!std::isnan(plan_.warm_up))
            text = "Let the instrument stand for " + trimmed(plan_.warm_up, 0) +
                   " minutes before the first reading: two for each degree.\n" + text;
        return text;
    }

    const PlanAnswer& answer_;
    const Plan& plan_;
    const Book& book_;
    Unit unit_;
};

class QuickText {
  public:
    explicit QuickText(const QuickPlan& quick) : quick_(quick) {}

    std::string text() const { return tolerance() + run() + between() + warm_up(); }

  private:
    std::string mm(double metres) const { return small(metres, quick_.unit) + " " + small_unit(quick_.unit); }
    std::string far(double metres) const {
        return fixed(quick_.unit == Unit::Foot ? metres / metres_per_foot : metres, 1) + " " +
               unit_text(quick_.unit);
    }

    std::string tolerance() const {
        if (std::isnan(quick_.tolerance)) return "";
        const Goal goal{{-quick_.tolerance, quick_.tolerance}, usual_confidence};
        std::string text = "± " + mm(quick_.tolerance) + " can be proved only if a level is sure to ± " +
                           mm(goal.largest_sd()) +
                           " (one standard deviation); to leave half to the builder, to ± " +
                           mm(goal.half_sd()) + ".\n";
        const double distance = longest_distance(quick_.kit, quick_.tolerance, quick_.k);
        const std::string wish =
            "± " + mm(quick_.tolerance) + " at " + trimmed(quick_.k, 2) + " standard deviations";
        if (std::isnan(distance)) {
            const std::int64_t readings = readings_to_average(quick_.kit, quick_.tolerance, quick_.k);
            text += wish + " is not met at any distance: " +
                    (readings > 0 ? "average " + std::to_string(readings) +
                                        " readings of each point, or take an instrument that reads closer"
                                  : std::string("the benchmark alone costs more")) +
                    ".\n";
        } else if (std::isfinite(distance)) {
            text += wish + ": a point may lie up to " + far(distance) +
                    " from its benchmark, wherever the laser stands.\n";
        }
        const double sight = longest_balanced_sight(quick_.kit, quick_.tolerance, quick_.k);
        if (std::isfinite(sight))
            text += wish + " between two points: equal sights up to " + far(sight) + ".\n";
        return text;
    }

    std::string run() const {
        if (std::isnan(quick_.length)) return "";
        const BestRun best = best_run(quick_.kit, quick_.length);
        std::string text = "Over " + far(quick_.length) + " " + std::to_string(best.setups) +
                           " set-ups are best, sights of " +
                           far(quick_.length / (2 * static_cast<double>(best.setups))) + ": ± " +
                           mm(best.sd) + " at the end.\n";
        Table table({{"set-ups"}, {"± " + small_unit(quick_.unit)}});
        for (std::int64_t n = 1; n <= std::max(quick_.most_setups, best.setups + 2); ++n)
            table.add({std::to_string(n),
                       small(run_sd(quick_.kit, quick_.length, static_cast<double>(n)), quick_.unit)});
        return text + table.text();
    }

    std::string between() const {
        if (std::isnan(quick_.length) || std::isnan(quick_.at)) return "";
        const Between two = between_benchmarks(quick_.kit, quick_.length, quick_.at);
        return "A point " + far(quick_.at) + " from its benchmark: ± " + mm(two.one) +
               "; with a second one " + far(quick_.length) + " from the first, read in the same set-up, ± " +
               mm(two.both) + ".\n";
    }

    std::string warm_up() const {
        if (std::isnan(quick_.warm_up)) return "";
        return "Let the instrument stand for " + trimmed(quick_.warm_up, 0) +
               " minutes: two for each degree.\n";
    }

    const QuickPlan& quick_;
};

}  // namespace

std::string plan_text(const PlanAnswer& answer) {
    const std::string findings = findings_text(answer.findings);
    return PlanText(answer).text() + (findings.empty() ? "" : "\nTo look at\n" + findings);
}

std::string quick_plan_text(const QuickPlan& quick) {
    const std::string text = QuickText(quick).text();
    return text.empty() ? "Say what is wanted: --tolerance, --length, --at or --temperature-difference.\n"
                        : text;
}

}  // namespace fallwright::cli
