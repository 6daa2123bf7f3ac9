#include "drain/rules.h"

#include <algorithm>
#include <cmath>

#include "base/print.h"
#include "drain/root.h"
#include "drain/rule_words.h"

namespace fallwright::drain {

namespace {

using preset::CleansingAt;
using preset::CleansingBy;
using preset::CleansingRow;
using preset::CleansingRule;

constexpr double litre = 0.001;

// By how much a bore misses a range of sizes, as a share; 0 inside.
double missing(double bore, double from, double to) {
    if (bore < from) return from / bore - 1;
    return bore > to ? bore / to - 1 : 0;
}

bool flow_in(const CleansingRow& row, double flow) {
    return flow > row.flow_from && flow <= row.flow_to;
}

bool goes_by_flow(const CleansingRow& row) {
    return row.flow_from > 0 || std::isfinite(row.flow_to);
}

// The rows for a bore: those of the size that is nearest.
std::vector<const CleansingRow*> rows_for(const CleansingRule& rule, double bore) {
    std::vector<const CleansingRow*> near;
    double least = bore_margin;
    for (const CleansingRow& row : rule.rows) {
        const double miss = missing(bore, row.bore_from, row.bore_to);
        if (miss > least) continue;
        if (miss < least) near.clear();
        least = miss;
        near.push_back(&row);
    }
    return near;
}

// Of two ranges that meet at a bore the first stands.
void keep_first_size(std::vector<const CleansingRow*>& rows) {
    if (rows.empty()) return;
    const CleansingRow& first = *rows.front();
    std::erase_if(rows, [&](const CleansingRow* row) {
        return row->bore_from != first.bore_from || row->bore_to != first.bore_to;
    });
}

// How water flows at a fall: free where it can, else full.
Uniform flowing(const CleansingCase& pipe, double fall, double flow) {
    if (std::isnan(flow)) return uniform_full(pipe.friction, pipe.bore, fall);
    const Uniform free = depths_of_flow(pipe.friction, pipe.bore, fall, flow).lower;
    if (!std::isnan(free.depth)) return free;
    Uniform full = uniform_full(pipe.friction, pipe.bore, fall);
    full.velocity = fall > 0 ? flow / full.wet.area : 0;
    full.flow = flow;
    return full;
}

// The least fall at which the pipe takes the flow and `size` reaches what is wanted; size grows with the
// fall.
template <class Size>
double fall_reaching(const CleansingCase& pipe, double flow, double wanted, Size size) {
    const double carrying = std::isnan(flow) ? 1e-12 : fall_carrying(pipe.friction, pipe.bore, flow);
    if (std::isnan(carrying) || size(flowing(pipe, steepest, flow), steepest) < wanted) return NAN;
    const auto spare = [&](double fall) { return size(flowing(pipe, fall, flow), fall) - wanted; };
    return spare(carrying) >= 0 ? carrying : root_between(spare, carrying, steepest);
}

class Holding {
  public:
    Holding(const CleansingRule& rule, const CleansingCase& pipe, Unit unit)
        : rule_(rule), pipe_(pipe), unit_(unit) {
        to_.rule = &rule;
        to_.provenance = rule.source.provenance;
    }

    CleansingVerdict held() {
        if (!find_wants()) return to_;
        const double fall = rounded_to(pipe_.fall, gradient_places);
        to_.flatter = !(fall >= rounded_to(to_.wants_fall, gradient_places));
        to_.steeper = fall > rounded_to(to_.most_fall, gradient_places);
        to_.verdict = to_.provenance == preset::Provenance::FromMemory ? Cleansing::Hint
                      : to_.flatter                                    ? Cleansing::Flatter
                      : to_.steeper                                    ? Cleansing::Steeper
                                                                       : Cleansing::Met;
        return to_;
    }

  private:
    bool find_wants() {
        switch (rule_.by) {
            case CleansingBy::Fall:
                return fall_of_table();
            case CleansingBy::FallOfBore:
                return fall_of_bore();
            case CleansingBy::Velocity:
                return velocity_wanted();
            case CleansingBy::Drag:
                return drag_wanted();
            default:
                return fall_of_flow();
        }
    }

    bool not_applicable(std::string why) {
        to_.why = std::move(why);
        return false;
    }

    bool needs_flow() {
        return std::isnan(pipe_.flow) ? not_applicable("it goes by the flow: give the peak flow") : true;
    }

    bool other_bore() { return not_applicable("it names no pipe of " + bore_words(pipe_.bore, unit_)); }

    // The row that speaks of this pipe, or null with the reason.
    const CleansingRow* row() {
        std::vector<const CleansingRow*> rows = rows_for(rule_, pipe_.bore);
        keep_first_size(rows);
        if (rows.empty()) {
            other_bore();
            return nullptr;
        }
        const bool by_flow =
            std::any_of(rows.begin(), rows.end(), [](const auto* each) { return goes_by_flow(*each); });
        if (by_flow && std::isnan(pipe_.flow)) {
            not_applicable("it goes by the flow: " + rows_words(rows) + "; give the peak flow");
            return nullptr;
        }
        for (const CleansingRow* each : rows) {
            if (by_flow && !flow_in(*each, pipe_.flow)) continue;
            if (pipe_.closets >= 0 && pipe_.closets < each->closets) {
                not_applicable("it asks for at least " + closets_words(each->closets));
                return nullptr;
            }
            to_.closets = pipe_.closets < 0 ? each->closets : 0;
            to_.provenance = std::max(to_.provenance, each->provenance);
            return each;
        }
        not_applicable("it names no pipe of " + bore_words(pipe_.bore, unit_) +
                       " at this flow: " + rows_words(rows));
        return nullptr;
    }

    bool fall_of_table() {
        if (rule_.rows.empty()) {
            to_.wants_fall = rule_.figure;
            return true;
        }
        const CleansingRow* found = row();
        if (found == nullptr) return false;
        to_.wants_fall = found->wants;
        to_.most_fall = found->steepest;
        return true;
    }

    bool fall_of_bore() {
        if (missing(pipe_.bore, rule_.bore_from, rule_.bore_to) > bore_margin) return other_bore();
        to_.wants_fall = rule_.figure * litre / pipe_.bore;
        return true;
    }

    bool velocity_wanted() {
        double flow = rule_.at == CleansingAt::FullBore ? NAN : pipe_.flow;
        if (rule_.at == CleansingAt::ThirdOfFlow) {
            if (!needs_flow()) return false;
            flow /= 3;
        }
        to_.wants_velocity = rule_.figure;
        if (!rule_.rows.empty()) {
            const CleansingRow* found = row();
            if (found == nullptr) return false;
            to_.wants_velocity = found->wants;
        }
        to_.has_velocity = flowing(pipe_, pipe_.fall, flow).velocity;
        to_.wants_fall = fall_reaching(pipe_, flow, to_.wants_velocity,
                                       [](const Uniform& at, double) { return at.velocity; });
        return true;
    }

    bool drag_wanted() {
        if (!needs_flow()) return false;
        const auto drag = [](const Uniform& at, double fall) { return at.shear(fall); };
        to_.wants_drag = rule_.figure;
        to_.has_drag = std::max(0.0, drag(flowing(pipe_, pipe_.fall, pipe_.flow), pipe_.fall));
        to_.wants_fall = fall_reaching(pipe_, pipe_.flow, rule_.figure, drag);
        return true;
    }

    bool fall_of_flow() {
        if (!needs_flow()) return false;
        const double litres = std::max(pipe_.flow, rule_.least_flow) / litre;
        to_.wants_fall = rule_.figure * std::pow(litres, -6.0 / 13);
        return true;
    }

    const CleansingRule& rule_;
    const CleansingCase& pipe_;
    Unit unit_;
    CleansingVerdict to_;
};

bool by_bore(const CleansingRule& rule) {
    return rule.by == CleansingBy::Fall || rule.by == CleansingBy::FallOfBore;
}

}  // namespace

std::string_view cleansing_word(Cleansing verdict) {
    switch (verdict) {
        case Cleansing::Met:
            return "met";
        case Cleansing::Flatter:
            return "flatter";
        case Cleansing::Steeper:
            return "steeper";
        case Cleansing::Hint:
            return "hint";
        default:
            return "not-applicable";
    }
}

CleansingVerdict hold_against(const CleansingRule& rule, const CleansingCase& pipe, Unit unit) {
    CleansingVerdict verdict = Holding(rule, pipe, unit).held();
    if (verdict.verdict == Cleansing::NotApplicable || !verdict.flatter || !by_bore(rule)) return verdict;
    for (const double bore : preset::usual_bores(unit)) {
        if (bore <= pipe.bore * (1 + bore_margin)) continue;
        CleansingCase wider = pipe;
        wider.bore = bore;
        const CleansingVerdict then = Holding(rule, wider, unit).held();
        if (then.verdict == Cleansing::NotApplicable || then.flatter) continue;
        verdict.meets_from = bore;
        break;
    }
    return verdict;
}

std::vector<CleansingVerdict> all_rules(const CleansingCase& pipe, Unit unit) {
    std::vector<CleansingVerdict> all;
    all.reserve(preset::cleansing_rules().size());
    for (const CleansingRule& rule : preset::cleansing_rules()) all.push_back(hold_against(rule, pipe, unit));
    return all;
}

}  // namespace fallwright::drain
