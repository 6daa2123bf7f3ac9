#include <cmath>

#include "desk/evaluation_out.h"
#include "desk/plan_answer.h"
#include "desk/write_json.h"
#include "plan/air.h"

namespace fallwright {

namespace {

class PlanWriter : EvaluationOut {
  public:
    PlanWriter(const PlanAnswer& answer, JsonOut& out)
        : EvaluationOut(*answer.evaluation, out), answer_(answer), plan_(answer.plan) {}

    void whole() {
        out_.begin_object().integer("version", format_version).text("unit", unit_word(book_.unit));
        out_.boolean("proposed", plan_.proposed);
        names("relative_to", answer_.relative_to);
        out_.number("confidence", answer_.confidence, probability_places);
        out_.key("plan");
        layout(plan_.layout, plan_.outlook, plan_.change_points);
        advice("alone", plan_.alone);
        advice("steps", plan_.steps);
        out_.key("better");
        if (plan_.steps.empty()) {
            out_.null();
        } else {
            layout(plan_.better, plan_.better_outlook, plan_.better_change_points);
        }
        out_.integer("tried", plan_.tried);
        out_.figures("warm_up", plan_.warm_up, significant_figures);
        length("beam_clearance", beam_clearance);
        write_findings(out_, answer_.findings);
        out_.end_object();
    }

  private:
    const std::string& name(NameId id) const { return plan_.names[id]; }

    void names(std::string_view key, const std::vector<NameId>& all) {
        out_.key(key).begin_array();
        for (const NameId id : all) out_.text(name(id));
        out_.end_array();
    }

    void name_or_null(std::string_view key, NameId id) {
        if (id == no_name) {
            out_.null(key);
        } else {
            out_.text(key, name(id));
        }
    }

    void place(std::string_view key, const Spot& spot) {
        if (!spot.known) {
            out_.null(key);
            return;
        }
        const Position at = position_of(book_, spot);
        out_.key(key).begin_object();
        if (at.kind == Position::Kind::Grid) {
            length("e", at.e);
            length("n", at.n);
        } else {
            out_.text("line", book_.names.text(at.line));
            length("ch", at.ch);
            length("off", at.off);
        }
        out_.end_object();
    }

    void layout(const Layout& layout, const Outlook& outlook, const std::vector<Spot>& change_points) {
        out_.begin_object();
        length("worst", outlook.worst);
        name_or_null("worst_point", outlook.worst_point);
        length("mean", outlook.mean);
        out_.number("effort", outlook.effort, 1);
        setups(layout, outlook);
        out_.key("change_points").begin_array();
        for (std::size_t i = 0; i < layout.change_points.size(); ++i) {
            out_.begin_object().text("name", name(layout.change_points[i]));
            place("place", change_points[i]);
            out_.end_object();
        }
        out_.end_array();
        readings(layout, outlook);
        stations(outlook);
        falls(outlook);
        out_.end_object();
    }

    void setups(const Layout& layout, const Outlook& outlook) {
        out_.key("setups").begin_array();
        for (std::size_t i = 0; i < outlook.setups.size(); ++i) {
            const Stand& stand = layout.stands[i];
            const SetupOutlook& setup = outlook.setups[i];
            out_.begin_object().text("name", name(stand.name));
            out_.boolean("proposed", stand.setup < 0 || stand.moved);
            place("place", stand.spot);
            out_.figures("bearing", stand.axis(), significant_figures);
            out_.boolean("half_round", stand.turned);
            out_.integer("readings", setup.readings);
            length("shortest", setup.shortest);
            length("longest", setup.longest);
            length("spread", setup.spread);
            length("hot_ground", setup.hot_ground);
            out_.end_object();
        }
        out_.end_array();
    }

    void readings(const Layout& layout, const Outlook& outlook) {
        out_.key("readings").begin_array();
        for (std::size_t i = 0; i < outlook.sights.size(); ++i) {
            const PlannedSight& planned = layout.sights[i];
            const SightOutlook& sight = outlook.sights[i];
            out_.begin_object();
            if (planned.given < 0) {
                out_.null("id");
            } else {
                out_.text("id", book_.id_of(planned.as.entry));
            }
            out_.text("setup", name(layout.stands[planned.stand].name)).text("point", name(planned.as.point));
            length("dist", sight.assumed_d ? NAN : sight.d);
            length("sd", sight.sd);
            out_.number("redundancy", sight.redundancy, probability_places);
            length("detectable", sight.detectable);
            cure(layout, sight);
            out_.end_object();
        }
        out_.end_array();
    }

    void cure(const Layout& layout, const SightOutlook& sight) {
        if (sight.cure.point == no_name) {
            out_.null("cure");
            return;
        }
        out_.key("cure").begin_object().text("setup", name(layout.stands[sight.cure.stand].name));
        out_.text("point", name(sight.cure.point)).boolean("again", sight.cure.again);
        length("detectable", sight.cure.detectable);
        out_.end_object();
    }

    void stations(const Outlook& outlook) {
        out_.key("stations").begin_array();
        for (const StationOutlook& station : outlook.stations) {
            const bool on_line = station.line != no_name;
            out_.begin_object().text("point", name(station.point));
            name_or_null("line", station.line);
            length("ch", on_line ? station.ch : NAN);
            length("off", on_line ? station.off : NAN);
            name_or_null("what", station.what);
            length("sd", station.sd);
            length("below", station.goal.limits.below);
            length("above", station.goal.limits.above);
            const std::string_view proof = proof_word(station.can.proof);
            if (proof.empty()) {
                out_.null("proof");
            } else {
                out_.text("proof", proof);
            }
            length("margin", station.can.margin);
            length("guard", station.can.guard);
            out_.end_object();
        }
        out_.end_array();
    }

    void falls(const Outlook& outlook) {
        out_.key("falls").begin_array();
        for (const FallOutlook& fall : outlook.falls) {
            out_.begin_object().text("line", book_.names.text(book_.lines[fall.line].name));
            out_.text("what", name(fall.what));
            gradient("sd", fall.sd);
            out_.end_object();
        }
        out_.end_array();
    }

    void advice(std::string_view key, const std::vector<Advice>& all) {
        out_.key(key).begin_array();
        for (const Advice& one : all) {
            out_.begin_object().text("change", change_word(one.change));
            names("setups", one.setups);
            names("points", one.points);
            place("place", one.place);
            out_.number("effort", one.effort, 1);
            length("worst_gain", one.worst_gain);
            length("mean_gain", one.mean_gain);
            length("worst", one.worst);
            length("mean", one.mean);
            out_.end_object();
        }
        out_.end_array();
    }

    const PlanAnswer& answer_;
    const Plan& plan_;
};

class QuickWriter {
  public:
    QuickWriter(const QuickPlan& quick, JsonOut& out)
        : quick_(quick), out_(out), per_(quick.unit == Unit::Foot ? metres_per_foot : 1) {}

    void whole() {
        out_.begin_object().integer("version", format_version).text("unit", unit_word(quick_.unit));
        proof();
        length("longest_distance", longest_distance(quick_.kit, quick_.tolerance, quick_.k));
        length("longest_balanced_sight", longest_balanced_sight(quick_.kit, quick_.tolerance, quick_.k));
        if (std::isnan(quick_.tolerance)) {
            out_.null("readings_to_average");
        } else {
            out_.integer("readings_to_average", readings_to_average(quick_.kit, quick_.tolerance, quick_.k));
        }
        run();
        between();
        out_.figures("warm_up", quick_.warm_up, significant_figures);
        out_.end_object();
    }

  private:
    void length(std::string_view key, double metres) { out_.number(key, metres / per_, length_places); }

    void proof() {
        const Goal goal{{-quick_.tolerance, quick_.tolerance}, usual_confidence};
        length("largest_sd", std::isnan(quick_.tolerance) ? NAN : goal.largest_sd());
        length("half_sd", std::isnan(quick_.tolerance) ? NAN : goal.half_sd());
    }

    void run() {
        if (std::isnan(quick_.length)) {
            out_.null("run");
            return;
        }
        const BestRun run = best_run(quick_.kit, quick_.length);
        out_.key("run").begin_object().figures("best", run.best, significant_figures);
        length("best_sd", run.best_sd);
        length("best_bay", run.best > 0 ? quick_.length / run.best : NAN);
        length("best_sight", run.best > 0 ? quick_.length / run.best / 2 : NAN);
        out_.integer("setups", run.setups);
        length("sd", run.sd);
        out_.key("by_setups").begin_array();
        for (std::int64_t n = 1; n <= std::max(quick_.most_setups, run.setups + 2); ++n) {
            out_.begin_object().integer("setups", n);
            length("sd", run_sd(quick_.kit, quick_.length, static_cast<double>(n)));
            out_.end_object();
        }
        out_.end_array().end_object();
    }

    void between() {
        if (std::isnan(quick_.length) || std::isnan(quick_.at)) {
            out_.null("two_benchmarks");
            return;
        }
        const Between two = between_benchmarks(quick_.kit, quick_.length, quick_.at);
        out_.key("two_benchmarks").begin_object();
        length("one", two.one);
        length("free", two.free);
        length("both", two.both);
        out_.end_object();
    }

    const QuickPlan& quick_;
    JsonOut& out_;
    double per_;
};

}  // namespace

std::string plan_json(const PlanAnswer& answer) {
    JsonOut out;
    PlanWriter(answer, out).whole();
    return out.take();
}

std::string quick_plan_json(const QuickPlan& quick) {
    JsonOut out;
    QuickWriter(quick, out).whole();
    return out.take();
}

}  // namespace fallwright
