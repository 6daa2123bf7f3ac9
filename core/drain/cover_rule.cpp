#include "drain/cover_rule.h"

#include <cmath>

#include "base/print.h"
#include "preset/cover.h"

namespace fallwright::drain {

namespace {

const Rule* rule_named(const Book& book, std::string_view name) {
    for (const Rule& rule : book.rules) {
        if (book.names.text(rule.name) == name) return &rule;
    }
    return nullptr;
}

}  // namespace

const Rule* rule_for(const Book& book, std::string_view name, const LineEntry& line) {
    std::string of_line(name);
    of_line += ' ';
    of_line += book.names.text(line.name);
    const Rule* own = rule_named(book, of_line);
    return own != nullptr ? own : rule_named(book, name);
}

CoverRule cover_rule(const Book& book, const LineEntry& line, Findings& findings) {
    const Rule* rule = rule_for(book, "cover", line);
    if (rule == nullptr) return {};
    const std::string name = book.name(rule->name);
    if (rule->pipelay.least.has()) return {name, rule->pipelay.least.value, {}};
    if (rule->preset == no_name) return {};
    const std::string preset = book.name(rule->preset);
    const preset::CoverPreset* found = preset::find_cover(preset);
    if (found == nullptr) {
        findings.push_back(finding(Code::UnknownPreset, {book.id_of(rule->entry)},
                                   "cover preset " + preset + " is not known; cover is not judged"));
        return {};
    }
    return {preset, found->least, found->source};
}

Judgement judge_cover(const CoverRule& rule, double cover, double sd, double confidence, const Book& book) {
    Judgement judged;
    if (std::isnan(rule.least) || std::isnan(cover) || std::isnan(sd)) return judged;
    const auto shown = [&book](double metres) { return rounded_to(book.in_unit(metres), length_places); };
    judged.plain_within = shown(cover) >= shown(rule.least);
    const Limits limits = {rule.least, Limits().above};
    judged.probability = sd == 0 ? (judged.plain_within ? 1 : 0) : probability_within(cover, sd, limits);
    judged.verdict = verdict_of(judged.probability, confidence);
    return judged;
}

}  // namespace fallwright::drain
