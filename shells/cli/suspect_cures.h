// suspect_cures: what to do about a suspicion, as the commands that put the book right.
#pragma once

#include <string>

#include "record/suspect_words.h"

namespace fallwright::cli {

class SuspectCures {
  public:
    explicit SuspectCures(const Book& book) : book_(book), words_(book) {}

    // How to put the book right, as a command where one entry does it. path: of the book.
    std::string cure(const Suspect& suspect, const std::string& path) const;

  private:
    std::string amend(const std::string& path, const std::string& of, const std::string& set) const;
    static const char* field_of(const Reading& reading);
    std::string read_again(const Reading& reading, const Suspect& suspect, const std::string& path) const;
    std::string cure_of_reading(const Suspect& suspect, const std::string& path) const;
    std::string cure_of_setup(const Suspect& suspect, const std::string& path) const;

    const Book& book_;
    record::SuspectWords words_;
};

}  // namespace fallwright::cli
