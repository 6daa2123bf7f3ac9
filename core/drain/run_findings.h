// run_findings: what a person must be told of a run. Inside drain only.
//
// In the words of design.md section 7: what the figure is, what the rule asks for and where it is from; never
// "unsafe", never a judgement of support by depth alone.
#pragma once

#include "drain/run.h"

namespace fallwright::drain {

Findings run_findings(const Book& book, const Job& job, const Run& run);

// "Sewers for Adoption ..., 2018"; empty where a rule is the job's own.
std::string source_words(const preset::Source& source);

}  // namespace fallwright::drain
