// cover_rule: the least cover that a line's pipes are to have, and whether they have it.
//
// Rule `cover LINE` of the book, else `cover`: a preset (preset/cover.h) or a `least` of the job's own, which
// wins. Without one nothing is judged. Cover is judged like any other level: by the probability that it truly
// is at least that (verdict/within.h). Metres.
#pragma once

#include <string>
#include <string_view>

#include "base/finding.h"
#include "book/book.h"
#include "preset/preset.h"
#include "verdict/verdict.h"

namespace fallwright::drain {

struct CoverRule {
    std::string name;       // of the preset, or of the rule; empty: no rule
    double least = NAN;     // NaN: no rule
    preset::Source source;  // of the preset; text empty where there is none
};

// The rule of that name for that line, else for the book; nullptr where there is none.
const Rule* rule_for(const Book& book, std::string_view name, const LineEntry& line);

// Unknown presets and those from memory are findings.
CoverRule cover_rule(const Book& book, const LineEntry& line, Findings& findings);

// Untested where there is no rule or no cover.
Judgement judge_cover(const CoverRule& rule, double cover, double sd, double confidence, const Book& book);

}  // namespace fallwright::drain
