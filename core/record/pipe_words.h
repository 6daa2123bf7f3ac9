// pipe_words: figures of pipes as people read them. Three figures; inches and gallons in books in feet.
#pragma once

#include <string>
#include <vector>

#include "drain/run.h"
#include "drain/trench.h"
#include "quantity/unit.h"

namespace fallwright::record {

// "225 mm", "8 in"; "" where there is none.
std::string bore_text(double metres, Unit unit);
// Of m/s: "0.954 m/s", "3.13 ft/s".
std::string velocity_text(double metres, Unit unit);
// Of m3/s: "37.9 l/s"; in feet gallons a minute and cubic feet a second.
std::string flow_text(double cubic_metres, Unit unit);
// "1 in 150", "level"; "1 in -900" the wrong way; "" where there is none.
std::string fall_text(double fall);
// Of m3: "12.3 m3", "16.1 yd3"; "" where there is none.
std::string volume_text(double cubic_metres, Unit unit);

// Whether the cover is enough, the fall one that the rules want; "" where untested.
std::string cover_words(const Judgement& judged);
std::string rules_met_words(const Judgement& judged);
// "at 12.0 l/s it runs 120 mm deep, 53 % of the bore, at 0.9 m/s"; "" where the job gives no flow.
std::string at_flow_words(const drain::PipeKind& kind, Unit unit);
// "cover wanted: 0.900, rule cover-drive (...)"; "" without a rule.
std::string cover_rule_words(const drain::CoverRule& rule, Unit unit);
// Which width and sides a trench is reckoned with, and where they are from.
std::string trench_rule_words(const drain::TrenchRule& rule, Unit unit);
// What is left over and what is loose, a line each.
std::vector<std::string> spoil_words(const drain::Trench& trench, Unit unit);

}  // namespace fallwright::record
