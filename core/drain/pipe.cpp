#include "drain/pipe.h"

#include <cmath>

#include "base/print.h"
#include "drain/rule_words.h"

namespace fallwright::drain {

namespace {

constexpr int figures = 3;

std::string pipe_words(const PipeQuestion& asked, Unit unit) {
    return "a " + bore_words(asked.bore, unit) + " pipe";
}

void tell(PipeAnswer& answer, Code code, std::string message) {
    answer.findings.push_back(finding(code, {}, std::move(message)));
}

void find_critical(PipeAnswer& answer, double flow) {
    const PipeQuestion& asked = answer.asked;
    Critical critical;
    critical.depth = critical_depth(asked.bore, flow);
    const Wetted wet = wetted(asked.bore, critical.depth);
    critical.velocity = wet.area > 0 ? flow / wet.area : 0;
    critical.fall = fall_of_velocity(asked.friction, wet.radius, critical.velocity);
    answer.critical = critical;
}

void overfull(PipeAnswer& answer, Unit unit) {
    const PipeQuestion& asked = answer.asked;
    answer.pressure_fall = fall_of_flow(asked.friction, asked.bore, asked.bore, asked.flow);
    if (!(asked.fall > 0)) return;
    std::string message = flow_words(asked.flow, unit) + " is more than " + pipe_words(asked, unit) + " at " +
                          fall_words(asked.fall) + " takes with a free surface, " +
                          flow_words(answer.most.flow, unit);
    if (!std::isnan(answer.pressure_fall))
        message += "; full it needs a pressure line of " + fall_words(answer.pressure_fall);
    tell(answer, Code::DrainOverfull, std::move(message));
}

void at_flow(PipeAnswer& answer, Unit unit) {
    const PipeQuestion& asked = answer.asked;
    const Branches found = depths_of_flow(asked.friction, asked.bore, asked.fall, asked.flow);
    if (std::isnan(found.lower.depth)) return overfull(answer, unit);
    answer.part = found.lower;
    if (std::isnan(found.upper.depth)) return;
    answer.upper = found.upper;
    tell(answer, Code::DrainTwoDepths,
         flow_words(asked.flow, unit) + " flows at two depths, " +
             significant(found.lower.depth / asked.bore * 100, figures) + " % and " +
             significant(found.upper.depth / asked.bore * 100, figures) + " % of the bore");
}

// Where the formula stands: the state asked for, else the full one.
void check_range(PipeAnswer& answer, Unit unit) {
    const PipeQuestion& asked = answer.asked;
    const Uniform& state = answer.part && answer.part->depth > 0 ? *answer.part : answer.full;
    if (asked.friction.law == Friction::Law::Manning) return;
    const double rough = asked.friction.roughness / (4 * state.wet.radius);
    if (rounded_to_figures(rough, significant_figures) > roughest)
        tell(answer, Code::DrainTooRough,
             "the roughness is " + significant(rough * 100, figures) +
                 " % of four times the hydraulic radius");
    const double reynolds = state.reynolds(asked.friction.viscosity);
    if (asked.fall > 0 && rounded_to_figures(reynolds, significant_figures) < least_reynolds)
        tell(answer, Code::DrainNotTurbulent,
             "the Reynolds number in " + pipe_words(asked, unit) + " is " + significant(reynolds, figures));
}

}  // namespace

PipeAnswer answer_pipe(const PipeQuestion& asked, Unit unit) {
    PipeAnswer answer;
    answer.asked = asked;
    answer.full = uniform_full(asked.friction, asked.bore, asked.fall);
    answer.most = greatest_flow(asked.friction, asked.bore, asked.fall);
    answer.fastest = greatest_velocity(asked.friction, asked.bore, asked.fall);
    if (!(asked.fall > 0))
        tell(answer, Code::DrainNoFall, pipe_words(asked, unit) + " that is " + fall_words(asked.fall));
    if (!std::isnan(asked.flow)) at_flow(answer, unit);
    if (!std::isnan(asked.depth) && asked.fall > 0)
        answer.part = uniform_at_depth(asked.friction, asked.bore, asked.fall, asked.depth);
    const double flow = std::isnan(asked.flow) && answer.part ? answer.part->flow : asked.flow;
    if (!std::isnan(flow)) find_critical(answer, flow);
    check_range(answer, unit);
    answer.rules = all_rules({asked.bore, asked.fall, asked.friction, flow, asked.closets}, unit);
    return answer;
}

}  // namespace fallwright::drain
