// words: numbers and findings as people read them. Lengths to 1 mm (0.001 ft), uncertainties to 0.1 mm.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/decimal.h"
#include "base/finding.h"
#include "caution/caution.h"
#include "quantity/unit.h"

namespace fallwright::cli {

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
// "0.004 %".
std::string gradient_sd(double ratio);
// A probability with two figures or so: "70 %", "3.2 %", "99.6 %"; "under 0.1 %", "over 99.9 %" at the ends.
std::string percent(double probability);

// Findings as sentences with the cure, errors first; "" where there is none. Alike ones are said once with
// their number.
std::string findings_text(const Findings& findings);
// Cautions under a heading of their own, each with what it is about and where it is from; "" where there is
// none.
std::string cautions_text(const std::vector<Caution>& cautions);
// Findings without the depth of trenches, which the cautions say.
Findings beside_cautions(const Findings& findings);
bool has_error(const Findings& findings);

}  // namespace fallwright::cli
