#include "shells/cli/people_drain.h"

#include <cmath>

#include "base/print.h"
#include "record/pipe_words.h"
#include "shells/cli/table.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

namespace {

using record::bore_text;
using record::fall_text;
using record::flow_text;
using record::velocity_text;

using drain::Cleansing;
using drain::CleansingVerdict;
using drain::Uniform;

constexpr int figures = 3;
constexpr double inch = metres_per_foot / 12;

std::string share(double depth, double bore) {
    return significant(depth / bore * 100, figures) + " %";
}

std::string friction_text(const drain::Friction& friction, Unit unit) {
    if (friction.law == drain::Friction::Law::Manning)
        return "Manning, n " + significant(friction.manning, 6);
    const double rough = unit == Unit::Foot ? friction.roughness / inch : friction.roughness * 1000;
    return "Colebrook-White, roughness " + significant(rough, 4) + (unit == Unit::Foot ? " in" : " mm") +
           ", water of " + significant(friction.viscosity * 1e6, 4) + "e-6 m2/s";
}

std::string head_text(const DrainAnswer& answer) {
    const drain::PipeQuestion& asked = answer.pipe.asked;
    const double percent = asked.fall * 100;
    std::string text = bore_text(asked.bore, answer.unit) + " bore, fall " + fall_text(asked.fall) + " (" +
                       significant(percent, 4) + " %)";
    if (answer.fall_from == FallFrom::Velocity) text += ", found for the velocity";
    if (answer.fall_from == FallFrom::Flow) text += ", found for the flow";
    return text + "\n  " + friction_text(asked.friction, answer.unit) + "\n";
}

std::string states_text(const DrainAnswer& answer) {
    const drain::PipeAnswer& pipe = answer.pipe;
    const double bore = pipe.asked.bore;
    Table table({{"", Align::Left}, {"depth"}, {"of bore"}, {"velocity"}, {"flow"}, {"Froude"}});
    const auto add = [&](const char* name, const Uniform& state) {
        const bool surface = std::isfinite(state.froude());
        table.add({name, bore_text(state.depth, answer.unit), share(state.depth, bore),
                   velocity_text(state.velocity, answer.unit), flow_text(state.flow, answer.unit),
                   surface ? significant(state.froude(), figures) : ""});
    };
    add("full", pipe.full);
    add("greatest flow", pipe.most);
    add("greatest velocity", pipe.fastest);
    if (pipe.part) add(std::isnan(pipe.asked.flow) ? "at the depth" : "at the flow", *pipe.part);
    if (pipe.upper) add("the same flow, deeper", *pipe.upper);
    if (pipe.critical)
        table.add({"critical", bore_text(pipe.critical->depth, answer.unit),
                   share(pipe.critical->depth, bore), velocity_text(pipe.critical->velocity, answer.unit),
                   std::isnan(pipe.critical->fall) ? "" : "at a fall of " + fall_text(pipe.critical->fall),
                   "1"});
    return table.text();
}

std::string capital(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

std::string wants_text(const CleansingVerdict& held, Unit unit) {
    const std::string fall =
        std::isnan(held.wants_fall) ? "no fall up to 1 in 1" : fall_text(held.wants_fall);
    if (!std::isnan(held.wants_velocity)) return velocity_text(held.wants_velocity, unit) + " (" + fall + ")";
    if (!std::isnan(held.wants_drag)) return significant(held.wants_drag, figures) + " N/m2 (" + fall + ")";
    return std::isnan(held.most_fall) ? fall : fall + " to " + fall_text(held.most_fall);
}

std::string has_text(const CleansingVerdict& held, double fall, Unit unit) {
    if (!std::isnan(held.has_velocity)) return velocity_text(held.has_velocity, unit);
    if (!std::isnan(held.has_drag)) return significant(held.has_drag, figures) + " N/m2";
    return fall_text(fall);
}

std::string verdict_text(const CleansingVerdict& held) {
    const std::string word = held.flatter ? "flatter" : held.steeper ? "steeper" : "met";
    const std::string on = held.closets > 0 ? " if it has " + drain::closets_words(held.closets) : "";
    return held.verdict == Cleansing::Hint ? word + on + ", a hint from memory" : word + on;
}

}  // namespace

std::string rules_text(const std::vector<CleansingVerdict>& rules, const drain::CleansingCase& pipe,
                       const preset::CleansingRule* held_to, Unit unit) {
    Table table({{"rule", Align::Left},
                 {"wants", Align::Left},
                 {"here", Align::Left},
                 {"", Align::Left},
                 {"met by", Align::Left}});
    std::string first, sentences, others;
    for (const CleansingVerdict& held : rules) {
        const bool chosen = held.rule == held_to;
        if (held.verdict == Cleansing::NotApplicable) {
            (chosen ? first : others) += "  - " + std::string(held.rule->title) + ": " + held.why + "\n";
            continue;
        }
        table.add({std::string(held.rule->title), wants_text(held, unit), has_text(held, pipe.fall, unit),
                   verdict_text(held), std::isnan(held.meets_from) ? "" : bore_text(held.meets_from, unit)});
        const std::string sentence = "  - " + capital(drain::cleansing_sentence(held, pipe, unit)) + "\n";
        if (chosen) {
            first = sentence;
        } else if (held.verdict == Cleansing::Flatter || held.verdict == Cleansing::Steeper) {
            sentences += sentence;
        }
    }
    std::string text = "Rules of self-cleansing, side by side; they do not agree, and none is a promise\n";
    if (!table.empty()) text += table.text();
    text += first + sentences;
    return others.empty() ? text : text + "Rules that do not apply\n" + others;
}

std::string drain_text(const DrainAnswer& answer) {
    const drain::PipeAnswer& pipe = answer.pipe;
    const double flow = pipe.part ? pipe.part->flow : pipe.asked.flow;
    const drain::CleansingCase held{pipe.asked.bore, pipe.asked.fall, pipe.asked.friction, flow,
                                    pipe.asked.closets};
    return head_text(answer) + states_text(answer) +
           rules_text(pipe.rules, held, answer.held_to, answer.unit) + findings_text(pipe.findings) +
           cautions_text(answer.cautions);
}

}  // namespace fallwright::cli
