#include "suspect/suspect.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/print.h"
#include "base/stable_order.h"
#include "suspect/deciding.h"
#include "suspect/doubts.h"
#include "suspect/groups.h"
#include "suspect/ranking.h"
#include "suspect/words.h"

namespace fallwright {

namespace {

constexpr double enough_of_all = 0.95, least_shown = 0.01;
constexpr double least_weight = 0.02;  // of an explanation, where the reading that decides is sought
constexpr std::size_t most_explanations = 8, most_of_group = 3;
constexpr double detectable_factor = 4.13;  // 0.1 % significance, 80 % power

class Finder {
  public:
    Finder(const Book& book, const Where& where, const Figures& figures, const Designs& designs,
           const Model& model)
        : book_(book),
          model_(model),
          evidence_(book, designs, model),
          bare_(book, Designs{}, model),
          causes_(book, where, figures, designs, model, evidence_) {}

    Suspects run() {
        ranking_ = rank_causes(evidence_, causes_, priors_of(book_));
        Suspects found;
        found.none = ranking_.probability(ranking_.none);
        const std::vector<Group> groups = listed(found.none);
        for (const Group& group : groups) found.list.push_back(suspect_of(group));
        settle(groups, found);
        note_unseen(found);
        found.before_lifting = before_lifting(causes_);
        found.findings = doubts_of(causes_, evidence_);
        return found;
    }

  private:
    std::vector<Group> listed(double none) const {
        std::vector<Group> groups = group_alike(evidence_, causes_, ranking_);
        double sum = 0;
        std::size_t count = 0;
        while (count < groups.size() && sum < enough_of_all * (1 - none) &&
               rounded_to(groups[count].probability, probability_places) >= least_shown)
            sum += groups[count++].probability;
        groups.resize(count);
        return groups;
    }

    Accused accused(const Cause& cause) const { return {cause.kind, about_of(causes_, cause)}; }

    Suspect suspect_of(const Group& group) const {
        const Weighed& leader = ranking_.best[group.members.front()];
        Suspect suspect;
        suspect.who = accused(leader.cause);
        suspect.size = leader.size;
        suspect.size_sd = leader.sd;
        suspect.size_is_length = size_is_length(leader.cause.kind);
        suspect.probability = group.probability;
        if (leader.with) {
            suspect.with.push_back(accused(*leader.with));
            suspect.with_size = leader.with_size;
            suspect.with_sd = leader.with_sd;
        }
        add_alike(group, suspect);
        judge(leader, suspect);
        return suspect;
    }

    void add_alike(const Group& group, Suspect& suspect) const {
        std::set<std::pair<SuspectKind, std::vector<std::string>>> seen = {
            {suspect.who.kind, suspect.who.about}};
        for (const std::size_t member : group.members) {
            const Accused who = accused(ranking_.best[member].cause);
            if (seen.emplace(who.kind, who.about).second) suspect.alike.push_back(who);
        }
    }

    // By the model without any design: a cause's own part of the misclosure.
    double remains(const Weighed& weighed, double before) const {
        Shifts shifts = causes_.column(weighed.cause, weighed.which);
        const auto rows = static_cast<std::uint32_t>(model_.problem.rows());
        shifts.erase(std::remove_if(shifts.begin(), shifts.end(),
                                    [rows](const Shift& shift) { return shift.row >= rows; }),
                     shifts.end());
        const Pull found = bare_.measure(shifts).found;
        if (found.information == 0) return before;
        const bool free = weighed.sd > 0 || std::isnan(weighed.size);
        const double size = free ? found.pull / found.information : weighed.size;
        return before - 2 * size * found.pull + size * size * found.information;
    }

    void judge(const Weighed& leader, Suspect& suspect) const {
        suspect.before = model_.summary.chi2;
        suspect.after = remains(leader, suspect.before);
        suspect.limit = model_.summary.dof > 0 ? model_.summary.chi2_high : NAN;
        suspect.what = sentence_of(causes_, leader.cause, leader.size, leader.sd, leader.which);
        if (leader.with)
            suspect.what +=
                "; and " + sentence_of(causes_, *leader.with, leader.with_size, leader.with_sd, 0);
        suspect.why = suspect.what;
        if (std::isnan(suspect.limit)) return;
        suspect.why += ": misfit " + significant(suspect.before, 3);
        if (!leader.with) suspect.why += " before, " + significant(suspect.after, 3) + " after";
        suspect.why += ", " + significant(suspect.limit, 3) + " is usual";
    }

    static Explanation explanation(const Weighed* weighed, double probability) {
        const bool real = rounded_to(probability, probability_places) >= least_shown;
        return {weighed, std::max(probability, least_weight), real};
    }

    // The explanations that a reading should tell apart: of each group its leader and what is alike to it but
    // of another kind; every one of them counts for something, or the most probable would need no proof.
    std::vector<Explanation> explanations(const std::vector<Group>& groups, double none) const {
        std::vector<Explanation> all;
        for (const Group& group : groups) {
            std::set<SuspectKind> kinds;
            for (const std::size_t member : group.members) {
                const Weighed& weighed = ranking_.best[member];
                if (all.size() == most_explanations || kinds.size() == most_of_group) break;
                if (weighed.with || !kinds.insert(weighed.cause.kind).second) continue;
                all.push_back(explanation(&weighed, ranking_.probability(weighed.weight)));
            }
        }
        all.push_back(explanation(nullptr, none));
        sort_stably(all, [](const Explanation& a, const Explanation& b) {
            return rounded_to(a.weight, 9) > rounded_to(b.weight, 9);
        });
        double sum = 0;
        for (const Explanation& each : all) sum += each.weight;
        for (Explanation& each : all) each.weight /= sum;
        return all;
    }

    void settle(const std::vector<Group>& groups, Suspects& found) const {
        if (groups.empty()) return;
        const std::unique_ptr<Deciding> reading =
            deciding_reading(evidence_, causes_, explanations(groups, found.none));
        for (std::size_t i = 0; i < groups.size(); ++i) {
            if (reading != nullptr) found.list[i].settle_by = std::make_unique<Deciding>(*reading);
            if (reading == nullptr || reading->confirms_only)
                found.list[i].redo = redo(ranking_.best[groups[i].members.front()]);
        }
    }

    std::string redo(const Weighed& leader) const {
        std::string text = redo_of(causes_, leader.cause);
        if (!leader.with) return text;
        const std::string other = redo_of(causes_, *leader.with);
        return other == text ? text : text + "; and " + other;
    }

    void note_unseen(Suspects& found) const {
        for (std::size_t row = 0; row < model_.sights.rows.size(); ++row)
            found.lone_sights += model_.fit(row).redundancy > 0 ? 0 : 1;
        constexpr std::array<SuspectKind, 6> kinds = {
            SuspectKind::Misread, SuspectKind::WrongBenchmark, SuspectKind::MovedChangePoint,
            SuspectKind::Knocked, SuspectKind::GradeLeftIn,    SuspectKind::StaffSection};
        for (const SuspectKind kind : kinds) {
            const LeastSeen& least = ranking_.least[static_cast<std::size_t>(kind)];
            if (!least.any) continue;
            const double size =
                least.information > 0 ? detectable_factor / std::sqrt(least.information) : NAN;
            found.unseen.push_back({accused(least.cause), size, size_is_length(kind)});
        }
    }

    const Book& book_;
    const Model& model_;
    Evidence evidence_;
    Evidence bare_;  // without designs
    Causes causes_;
    Ranking ranking_;
};

}  // namespace

Suspects find_suspects(const Book& book, const Where& where, const Figures& figures, const Designs& designs,
                       const Model& model) {
    return Finder(book, where, figures, designs, model).run();
}

std::string_view likely_word(double probability) {
    constexpr double very_likely = 0.8, likely = 0.4, possible = 0.1;
    const double p = rounded_to(probability, probability_places);
    return p >= very_likely ? "very likely" : p >= likely ? "likely" : p >= possible ? "possible" : "";
}

}  // namespace fallwright
