// written: a small book for tests, read from the lines it would stand in. Inside book only.
#pragma once

#include <algorithm>
#include <memory>
#include <string>
#include <utility>

#include "book/book.h"

namespace fallwright {

class Written {
  public:
    // lines: those after the book's own, each ended by a line break.
    explicit Written(const std::string& lines, const std::string& first_line_has = "")
        : book_(std::move(*read_book(first_line(first_line_has) + lines))) {}

    static std::string first_line(const std::string& has = "") {
        return R"({"kind":"book","format":"fallwright","version":1)" + has + "}\n";
    }

    const Book* operator->() const { return book_.get(); }
    const Book& operator*() const { return *book_; }

    std::string name(NameId id) const { return book_->name(id); }
    // How often that is said, and the first such finding's message and first subject.
    std::ptrdiff_t count(Code code) const {
        return std::count_if(book_->findings.begin(), book_->findings.end(),
                             [code](const Finding& each) { return each.code == code; });
    }
    Finding said(Code code) const {
        for (const Finding& each : book_->findings) {
            if (each.code == code) return each;
        }
        return {};
    }

  private:
    std::unique_ptr<Book> book_;
};

}  // namespace fallwright
