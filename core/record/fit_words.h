// fit_words: the fall that is there, in sentences.
#pragma once

#include <string>
#include <vector>

#include "evaluation/evaluation.h"

namespace fallwright::record {

// The stations a fit went through, by chainage; they belong to the line.
std::vector<const Station*> fitted(const LineFalls& line, const Fit& fit);

// "1 in 160 falling (-0.625 %) +- 0.003 %, from 0.000 to 96.000, 12 points".
std::string fit_words(const LineFalls& line, const Fit& fit, Unit unit);
// "2.1 mm off the best line (rms), at most 4.0 mm high at 36.000"; "" for two points, which lie on it.
std::string fit_evenness(const LineFalls& line, const Fit& fit, Unit unit);

}  // namespace fallwright::record
