// line_trouble: what is wrong in a line, as findings with the cure. Inside design only.
#pragma once

#include <string>
#include <vector>

#include "design/design.h"

namespace fallwright {

// Two levels that ought to be one may differ by this much before it is said, metres: levels are written to
// the millimetre and gradients as 1 in a whole number (common practice, no source).
constexpr double worth_saying = 0.005;

// Says what it finds about one line.
class LineTrouble {
  public:
    LineTrouble(const Book& book, const LineEntry& line, Findings& to) : book_(book), line_(line), to_(to) {}

    void say(Code code, const std::string& what);
    // "24.000", in the book's unit.
    std::string number(double metres) const;
    std::string at(double ch) const { return "at chainage " + number(ch); }
    std::string name() const { return book_.name(line_.name); }

    // What the entry itself shows.
    void check_profile();
    void check_chambers();
    // What shows once it is built.
    void check_design(const Design& design, BuiltFlow flow);
    // Corners that hang under what is nowhere in the book.
    void say_unknown(const std::vector<NameId>& points);

  private:
    void check_beyond(double ch, const std::string& what);
    void check_step(const Chamber& chamber);
    void check_curves(const Profile& profile);
    void check_typed(const ProfileVertex& vertex, bool is_first, bool is_last);
    void check_flow(const Profile& profile, BuiltFlow flow);
    void check_pipes(const PipeRun& pipes);
    void check_holes(const PipeRun& pipes);
    void check_surfaces(const Design& design);

    const Book& book_;
    const LineEntry& line_;
    Findings& to_;
};

}  // namespace fallwright
