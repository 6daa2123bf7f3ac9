// desk: the one door. A request in, a response out; every shell uses it and computes nothing about levels
// itself.
//
// request   {"verb": text, "book": text of the whole book file, "options": {...}}
// response  the JSON of contract section 3 for that verb, or {"error": finding} where the request is not
// usable Pure: no clock, files, network, globals. Same request, same bytes, natively and in the browser.
#pragma once

#include <memory>
#include <string>
#include <string_view>

#include "base/result.h"
#include "book/book.h"

namespace fallwright::desk {

// The whole door in one call, for shells that hold the request as one document.
std::string answer(std::string_view request);

// The same in two steps, so that a book is read once: open() reads it, run() takes {"verb", "options"} only.
class OpenBook;
Result<std::shared_ptr<const OpenBook>> open(std::string book_text);
std::string run(const OpenBook& book, std::string_view request);
// The book that was opened, for those who hand it over in other formats; its text is forgotten.
std::shared_ptr<const Book> book_of(const OpenBook& book);

// The response {"error": finding} of a request that is not usable; for shells whose open() gave a finding.
std::string refuse(const Finding& finding);

}  // namespace fallwright::desk
