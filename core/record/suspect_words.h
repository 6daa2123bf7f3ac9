// suspect_words: what a suspicion is about, in the words of the site.
#pragma once

#include <string>
#include <vector>

#include "evaluation/evaluation.h"

namespace fallwright::record {

// The book outlives it. What is asked of a cause is total: names that are not in the book stand as they are.
class SuspectWords {
  public:
    explicit SuspectWords(const Book& book) : book_(book) {}

    // A clause: "set-up 2 was knocked before reading r12 (R 80.000 finished)".
    std::string what(const Accused& who) const;
    // Where else the same may have happened: "before reading r11, r13".
    std::string elsewhere(const Accused& who, const std::vector<Accused>& alike) const;
    // A kind of slip, one of the six that are said of a book in which nothing shows: "a figure misread".
    std::string slip(SuspectKind kind) const;
    // "reading r7 (CP1)", "set-up 2, main axis".
    std::string where(const Accused& who) const;
    // Whether a reading is checked by no other.
    bool alone(const Accused& who, const Model& model) const;
    // The reading with that id; null where there is none.
    const Reading* reading_of(const std::string& id) const;

  private:
    std::string reading(const std::string& id) const;

    const Book& book_;
};

// Probable enough to be told to people: from 0.1 on.
bool is_said(const Suspect& suspect);

// "very likely (98 %): HIGH was taken for LOW at reading ...": the most probable suspect from 0.1 on, else
// "".
std::string suspect_line(const Evaluation& evaluation);

// Whether there is a reading that could be wrong: without one nobody is sure of anything.
bool anything_read(const Evaluation& evaluation);

// Of a book in which nothing shows: what would not have shown.
std::string nothing_noticed(const Evaluation& evaluation);

}  // namespace fallwright::record
