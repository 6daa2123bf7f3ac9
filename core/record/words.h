// words: numbers, findings, verdicts as people read them, for all who put an evaluation into words: the
// record and the command line.
//
// Lengths to 1 mm (0.001 ft), uncertainties to 0.1 mm (thousandths of a foot with one decimal). "" where
// there is none (NaN). Everything takes metres and the book's unit. High and low, inside and outside are told
// by word. Pure.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "evaluation/evaluation.h"
#include "quantity/unit.h"
#include "verdict/verdict.h"

namespace fallwright::record {

// "47.305", "" where there is none.
std::string level(double metres, Unit unit);
std::string level(const std::optional<Decimal>& value, Unit unit);
// Millimetres (thousandths of a foot) with one decimal, without a sign: "1.4".
std::string small(double metres, Unit unit);
// The same with its sign: "+1.4", "-0.3".
std::string signed_small(double metres, Unit unit);
// "mm", or "ft/1000".
std::string small_unit(Unit unit);
std::string unit_text(Unit unit);
// "1 in 158.7 falling (-0.630 %)".
std::string gradient(double ratio);
// "-0.630", three decimals; "" where there is none.
std::string percent_figure(double ratio);
// "0.004 %".
std::string gradient_sd(double ratio);
// A probability with two figures or so: "70 %", "3.2 %", "99.6 %"; "under 0.1 %", "over 99.9 %" at the ends.
std::string percent(double probability);

// "1 set-up", "3 set-ups".
std::string counted(std::size_t count, std::string_view one, std::string_view many);
// The same with a capital letter, where a sentence begins.
std::string capital(std::string text);

// A finding with what it is about and the cure, without its severity.
std::string finding_sentence(const Finding& found);
// A caution with what it is about and where it is from.
std::string caution_sentence(const Caution& caution);
// Findings without the depth of trenches, which the cautions say.
Findings beside_cautions(const Findings& findings);

// "within", "outside", "too close to call", "untested".
std::string said(Verdict verdict);
// The order in which people should look: 0 outside, 1 too close to call, 2 within, 3 untested.
int urgency(Verdict verdict);
// "+-10.0", "-5.0 +10.0": the limits of a tolerance of levels, in small units.
std::string limits_words(const Tolerance& tolerance, Unit unit);
// "18.1 mm high, outside +-10.0 as measured; under 0.1 % sure it truly is within".
std::string verdict_sentence(double deviation, const Judgement& judged, const Tolerance& tolerance,
                             Unit unit);
// "30.000 laid", "40.000 L3.500 ground".
std::string station_words(const Book& book, const Station& station);
// What uncertainties are relative to: "BM1 and BM2 as given".
std::string relative_to(const Book& book);
// Whether some instrument's figures are the assumed ones.
bool laser_assumed(const Findings& findings);
// "check: back - fore 1.234, rise - fall 1.234, last - first 1.234: agrees".
std::string page_check(const Page& page, Unit unit);
// "within", "MORE THAN ALLOWED", "cannot be told".
std::string closure_verdict(const JudgedClosure& judged);
// What is to be said beside a level: "read once only", "not checked", "not determined", or nothing.
std::string level_remark(const PointLevel& found);

}  // namespace fallwright::record
