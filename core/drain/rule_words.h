// rule_words: bores, falls and rows of a rule as people say them. Inside drain only.
#pragma once

#include <string>
#include <vector>

#include "preset/self_cleansing.h"

namespace fallwright::drain {

// "150 mm", "6 in".
std::string bore_words(double bore, Unit unit);
// "2.5 l/s", "0.0883 ft3/s".
std::string flow_words(double flow, Unit unit);
// "1 in 80 (1.25 %)", "level", "running backwards at 1 in 80 (1.25 %)".
std::string fall_words(double fall);
// What each row wants and for which flow: "1 in 40 up to 1 l/s, 1 in 80 above it with 1 WC".
std::string rows_words(const std::vector<const preset::CleansingRow*>& rows);

}  // namespace fallwright::drain
