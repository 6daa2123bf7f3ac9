// words: findings and cautions as the terminal shows them; numbers and sentences are those of the record.
#pragma once

#include <string>
#include <vector>

#include "record/words.h"

namespace fallwright::cli {

using record::beside_cautions;
using record::closure_verdict;
using record::gradient;
using record::gradient_sd;
using record::laser_assumed;
using record::level;
using record::level_remark;
using record::limits_words;
using record::page_check;
using record::percent;
using record::relative_to;
using record::said;
using record::signed_small;
using record::small;
using record::small_unit;
using record::station_words;
using record::unit_text;
using record::urgency;
using record::verdict_sentence;

// Findings as sentences with the cure, errors first; "" where there is none. Alike ones are said once with
// their number.
std::string findings_text(const Findings& findings);
// Cautions under a heading of their own, each with what it is about and where it is from; "" where there is
// none.
std::string cautions_text(const std::vector<Caution>& cautions);
bool has_error(const Findings& findings);
// What --strict looks at: a misclosure, a station, a fall or a surface outside, or an error finding.
bool something_outside(const Evaluation& evaluation);

}  // namespace fallwright::cli
