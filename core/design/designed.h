// designed: a small book for tests, with the designs of its lines. Inside design only.
#pragma once

#include <algorithm>
#include <memory>
#include <string>
#include <string_view>
#include <utility>

#include "design/design.h"

namespace fallwright {

class Designed {
  public:
    // entries: lines of JSON after the book's own; a line that begins with a space goes on from the one
    // above.
    explicit Designed(const std::string& entries, const std::string& unit = "m")
        : book_(std::move(*read_book(R"({"kind":"book","format":"fallwright","version":1,"unit":")" + unit +
                                     "\"}\n" + unfolded(entries)))),
          designs_(design_lines(*book_)) {}

    const Book& book() const { return *book_; }
    const Designs& designs() const { return designs_; }
    const Design& line(std::size_t i = 0) const { return designs_.lines.at(i); }
    TakenDown taken_down() const { return take_down(*book_, designs_); }

    // In the book's unit; NaN where there is none. Levels found: none.
    double level(std::string_view what, double ch, double off = 0, std::size_t i = 0) const {
        const double m = book_->metres_per_unit();
        return line(i).level(what, ch * m, off * m).value(nothing) / m;
    }
    double level(std::string_view what, double ch, double off, Side side) const {
        const double m = book_->metres_per_unit();
        const DesignSurface surface = line().heights().find(what);
        return line().level(surface, ch * m, off * m, side).value(nothing) / m;
    }
    double gradient(double ch, Side side = Side::After) const {
        return line().gradient(ch * book_->metres_per_unit(), side).value(nothing);
    }

    // How often the design says that, and its first message.
    std::ptrdiff_t count(Code code) const {
        return std::count_if(designs_.findings.begin(), designs_.findings.end(),
                             [code](const Finding& each) { return each.code == code; });
    }
    std::string message(Code code) const {
        for (const Finding& each : designs_.findings) {
            if (each.code == code) return each.message;
        }
        return "";
    }

    static double nothing(NameId) { return NAN; }

  private:
    static std::string unfolded(const std::string& entries) {
        std::string lines;
        for (std::size_t i = 0; i < entries.size(); ++i) {
            const bool goes_on = entries[i] == '\n' && i + 1 < entries.size() && entries[i + 1] == ' ';
            if (!goes_on) lines += entries[i];
        }
        return lines;
    }

    std::unique_ptr<Book> book_;
    Designs designs_;
};

}  // namespace fallwright
