// words: how findings speak of a check.
//
// Inside trial only.
#pragma once

#include <string>
#include <vector>

#include "trial/trial.h"

namespace fallwright {

// Measuring may use up half a tolerance at 95 %, so one sd a third of it: practitioners' advice.
constexpr double share_of_tolerance = 3.3;

// A length as it stands in answers, in the book's unit.
double as_printed(const Book& book, double metres);

class CheckWords {
  public:
    CheckWords(const Book& book, const TrialOutcome& outcome) : book_(book), outcome_(outcome) {}

    std::vector<std::string> about() const;
    std::string check() const;       // "check two pegs"
    std::string instrument() const;  // its name
    std::string shot(const ShotFit& fit) const;
    std::string length(double metres) const { return length_text(book_, metres); }
    // "0.049 mm/m", with its sign.
    static std::string ratio(double ratio);
    static std::string error(std::size_t which);
    // "1.2 mm", or in feet "0.004 ft".
    static std::string length_text(const Book& book, double metres);

  private:
    const Book& book_;
    const TrialOutcome& outcome_;
};

}  // namespace fallwright
