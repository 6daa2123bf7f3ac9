// join: two books of one job, kept by two crews or on two devices, as one.
//
// Entries are merged by id; the same id with the same content is one entry. An entry without id gets one made
// from its content and the count of equal ones above it, so that two copies of one book join to that book. #N
// in `of` becomes the id of that entry. A reading that leans on the last set-up gets that set-up's name,
// because the other crew's set-ups come between. Something named in both books (instrument, set-up, ...) with
// one content stays once; with two contents it is a conflict, and nothing is joined. Unit, datum and
// curvature must be the same; the first book's title stays. Lines that cannot be read are kept as they are,
// but for those that were struck; #N that led to nothing leads to nothing.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace fallwright {

// One book to be joined: how it is called in findings, and its bytes.
struct BookText {
    std::string name;
    std::string text;
};

// The joined book's bytes. Findings: NotABook, JoinConflict. At least one book.
Result<std::string> join_books(const std::vector<BookText>& books);

}  // namespace fallwright
