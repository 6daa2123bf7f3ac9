#include "plan/said.h"

#include <algorithm>
#include <map>
#include <utility>

#include "base/print.h"
#include "plan/air.h"

namespace fallwright {

namespace {

class Sayer {
  public:
    Sayer(const Book& book, Plan& plan) : book_(book), plan_(plan) {}

    void run() {
        say_proofs();
        say_range();
        say_staff();
        say_unguarded();
    }

  private:
    std::string small(double metres) const {
        constexpr double thousand = 1000;
        return fixed(book_.in_unit(metres) * thousand, 1) + (book_.unit == Unit::Foot ? " ft/1000" : " mm");
    }
    std::string length(double metres) const {
        return fixed(book_.in_unit(metres), 1) + (book_.unit == Unit::Foot ? " ft" : " m");
    }

    // The stations of one surface whose tolerance cannot be proved, or only narrowly.
    struct Surface {
        std::size_t stations = 0, nothing = 0, narrow = 0;
        double worst = 0, then = 0;  // sd now, and after all steps
        Goal goal;
    };

    void say_proofs() {
        std::map<std::pair<NameId, NameId>, Surface> surfaces;
        for (std::size_t i = 0; i < plan_.outlook.stations.size(); ++i) {
            const StationOutlook& station = plan_.outlook.stations[i];
            Surface& surface = surfaces[{station.line, station.what}];
            ++surface.stations;
            surface.nothing += station.can.proof == Proof::Nothing ? 1 : 0;
            surface.narrow += station.can.proof == Proof::Narrow ? 1 : 0;
            surface.worst = std::fmax(surface.worst, station.sd);
            surface.goal = station.goal;
            if (!plan_.steps.empty())
                surface.then = std::fmax(surface.then, plan_.better_outlook.stations[i].sd);
        }
        for (const auto& [which, surface] : surfaces) say_proof(which.first, which.second, surface);
    }

    void say_proof(NameId line, NameId what, const Surface& surface) {
        if (surface.nothing + surface.narrow == 0) return;
        const bool nothing = surface.nothing > 0;
        const double wanted = nothing ? surface.goal.largest_sd() : surface.goal.half_sd();
        const std::string name =
            line == no_name ? std::string("what is planned") : book_.name(what) + " of " + book_.name(line);
        std::string message = "a tolerance of +- " + small(surface.goal.half_width()) + " on " + name +
                              (nothing ? " cannot be proved" : " leaves less than half to the builder") +
                              " at " + std::to_string(nothing ? surface.nothing : surface.narrow) + " of " +
                              std::to_string(surface.stations) + " stations: their sd is up to " +
                              small(surface.worst) + ", " + small(wanted) + " would be the most";
        const Code code = nothing ? Code::PlanNotProvable : Code::PlanNarrow;
        std::vector<std::string> about = {book_.name(line == no_name ? plan_.outlook.worst_point : line)};
        plan_.findings.push_back(finding(code, std::move(about), std::move(message), cure(surface, wanted)));
    }

    std::string cure(const Surface& surface, double wanted) const {
        const std::string closer =
            "an instrument with a smaller error, a benchmark nearer by, or each point read more often";
        if (plan_.steps.empty()) return closer;
        const std::string brings = "take the steps of the plan, which bring it to " + small(surface.then);
        return surface.then <= wanted ? brings : brings + "; for the rest " + closer;
    }

    const Setup& setup_of(std::size_t reading) const {
        return book_.setups[static_cast<std::size_t>(book_.readings[reading].setup_at)];
    }

    void say_range() {
        std::map<NameId, double> far;  // by set-up
        for (std::size_t i = 0; i < plan_.layout.sights.size(); ++i) {
            const SightOutlook& sight = plan_.outlook.sights[i];
            const std::size_t reading = book_.readings.size() - plan_.layout.sights.size() + i;
            const Setup& setup = setup_of(reading);
            const Maybe& range = book_.instruments[static_cast<std::size_t>(setup.instrument_at)].range;
            if (range.has() && !sight.assumed_d && sight.d > range.value)
                far[setup.name] = std::fmax(far[setup.name], sight.d);
        }
        for (const auto& [setup, d] : far) {
            plan_.findings.push_back(finding(Code::PlanOutOfRange, {book_.name(setup)},
                                             "sights of set-up " + book_.name(setup) + " are up to " +
                                                 length(d) + " long, more than its instrument reaches"));
        }
    }

    double longest_staff() const {
        constexpr double usual = 5;
        double longest = NAN;
        for (const Staff& staff : book_.staffs) longest = std::fmax(longest, staff.length.value);
        return std::isnan(longest) ? usual : longest;
    }

    // A level light meets an upright staff only within its length, and should stay clear of the ground.
    void say_staff() {
        const double staff = longest_staff();
        for (std::size_t i = 0; i < plan_.outlook.setups.size(); ++i) {
            const SetupOutlook& setup = plan_.outlook.setups[i];
            if (!(setup.spread > staff - beam_clearance)) continue;
            const std::string name = book_.name(plan_.layout.stands[i].name);
            plan_.findings.push_back(finding(Code::PlanBeyondStaff, {name},
                                             "what set-up " + name + " is to read differs in level by " +
                                                 length(setup.spread) + ", more than a staff of " +
                                                 length(staff) + " shows clear of the ground"));
        }
    }

    void say_unguarded() {
        std::vector<std::string> about;
        std::size_t open = 0;
        for (std::size_t i = 0; i < plan_.outlook.sights.size(); ++i) {
            if (plan_.outlook.sights[i].cure.point == no_name) continue;
            ++open;
            const PlannedSight& sight = plan_.layout.sights[i];
            if (sight.given >= 0) about.push_back(book_.id_of(sight.as.entry));
        }
        if (open == 0) return;
        plan_.findings.push_back(finding(Code::PlanUnguarded, std::move(about),
                                         "a slip in " + std::to_string(open) + " of " +
                                             std::to_string(plan_.outlook.sights.size()) +
                                             " planned readings would show nowhere"));
    }

    const Book& book_;
    Plan& plan_;
};

}  // namespace

void say_of_plan(const Book& book, Plan& plan) {
    Sayer(book, plan).run();
}

}  // namespace fallwright
