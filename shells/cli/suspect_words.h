// suspect_words: what a suspicion is about and what to do about it, in the words of the site.
#pragma once

#include <string>
#include <vector>

#include "book/book.h"
#include "suspect/suspect.h"

namespace fallwright::cli {

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
    // How to put the book right, as a command where one entry does it.
    std::string cure(const Suspect& suspect, const std::string& path) const;

  private:
    const Reading* reading_of(const std::string& id) const;
    std::string reading(const std::string& id) const;
    std::string amend(const std::string& path, const std::string& of, const std::string& set) const;
    static const char* field_of(const Reading& reading);
    std::string read_again(const Reading& reading, const Suspect& suspect, const std::string& path) const;
    std::string cure_of_reading(const Suspect& suspect, const std::string& path) const;
    std::string cure_of_setup(const Suspect& suspect, const std::string& path) const;

    const Book& book_;
};

}  // namespace fallwright::cli
