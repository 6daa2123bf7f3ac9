#include "drain/job.h"

#include <string>
#include <utility>

namespace fallwright::drain {

namespace {

using preset::CleansingBy;
using preset::CleansingRule;

void add_own(Job& job, const Book& book, const HydraulicsRule& said, std::string_view name,
             std::string_view title, CleansingBy by, Maybe figure) {
    if (!figure.has()) return;
    CleansingRule rule;
    rule.name = name;
    rule.title = title;
    rule.by = by;
    rule.figure = figure.value;
    rule.unit = book.unit;
    rule.source.text = said.source == no_name ? "rule hydraulics of the book" : book.names.text(said.source);
    rule.source.provenance = preset::Provenance::Published;
    job.own.push_back(rule);
}

void take_friction(Job& job, const HydraulicsRule& said) {
    const double viscosity = said.viscosity.or_else(viscosity_of_water);
    job.friction = said.manning.has()
                       ? Friction::by_manning(said.manning.value)
                       : Friction::colebrook_white(said.roughness.or_else(assumed_roughness), viscosity);
    job.friction.viscosity = viscosity;
    job.friction_assumed = !said.manning.has() && !said.roughness.has();
}

void take_flow(Job& job, const HydraulicsRule& said, const std::string& id) {
    job.flow = said.flow.value;
    if (said.closets.has()) job.closets = static_cast<int>(said.closets.value);
    if (said.flow.has() || !said.dwellings.has()) return;
    job.flow = preset::foul_flow(said.dwellings.value);
    if (std::isnan(job.flow))
        job.findings.push_back(
            finding(Code::DrainNoFlow, {id}, "the table of peak flows goes from 1 to 30 dwellings"));
}

void take_preset(Job& job, const std::string& name) {
    job.held_to = preset::find_cleansing(name);
    if (job.held_to == nullptr) {
        job.findings.push_back(finding(Code::UnknownPreset, {name},
                                       "rule hydraulics: there is no rule of self-cleansing named " + name));
    } else if (job.held_to->source.provenance == preset::Provenance::FromMemory) {
        job.findings.push_back(
            finding(Code::PresetFromMemory, {name}, "preset " + name + " is from memory, not confirmed"));
    }
}

}  // namespace

Job job_of(const Book& book) {
    Job job;
    for (const Rule& rule : book.rules) {
        if (book.name(rule.name) != "hydraulics") continue;
        const HydraulicsRule& said = rule.hydraulics;
        take_friction(job, said);
        take_flow(job, said, book.id_of(rule.entry));
        add_own(job, book, said, "own-fall", "the job's own fall", CleansingBy::Fall, said.fall);
        add_own(job, book, said, "own-velocity", "the job's own velocity", CleansingBy::Velocity,
                said.velocity);
        add_own(job, book, said, "own-drag", "the job's own drag", CleansingBy::Drag, said.drag);
        if (rule.preset != no_name) take_preset(job, std::string(book.name(rule.preset)));
        break;
    }
    return job;
}

Friction friction_of(const Job& job, const Pipe& pipe) {
    return pipe.roughness.has() ? Friction::colebrook_white(pipe.roughness.value, job.friction.viscosity)
                                : job.friction;
}

std::vector<CleansingVerdict> rules_of(const Job& job, const CleansingCase& pipe, Unit unit) {
    std::vector<CleansingVerdict> all;
    for (const CleansingRule& rule : job.own) all.push_back(hold_against(rule, pipe, unit));
    if (job.held_to != nullptr) all.push_back(hold_against(*job.held_to, pipe, unit));
    for (CleansingVerdict& each : all_rules(pipe, unit)) {
        if (each.rule != job.held_to) all.push_back(std::move(each));
    }
    return all;
}

}  // namespace fallwright::drain
