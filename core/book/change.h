// change: an amendment or a strike, with its reason and what stood before.
//
// Nothing is ever removed from a book, so whoever hands it over can show what was put right and why. Values
// are JSON as written; "" stands for a field that was not there, or is removed.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "book/book.h"

namespace fallwright {

struct BookChange {
    struct Field {
        std::string name, before, after;
    };
    std::uint32_t entry = 0;  // the amend or strike, index in Book::entries
    std::uint32_t of = 0;     // what it is about
    bool strike = false;
    bool undone = false;        // itself struck later
    bool applied = false;       // an amend that was not has a finding that says why
    std::string why;            // as written
    std::vector<Field> fields;  // what an amend sets, or what stood in a struck entry; by name
    std::string before;         // of a strike: the line as it stood
};

// Every amend and strike that names an entry, by line, also those that were taken back. The book still has
// its text (Book::text); it is read once more where there is any.
std::vector<BookChange> changes_of(const Book& book);

}  // namespace fallwright
