// drain_book_request: what a request for the drains of a book asks. Inside desk only.
//
// Everything is read before anything is computed, so that a slip in any option is said at once: the fault of
// the options. Metres.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "desk/options.h"
#include "drain/follow_line.h"
#include "drain/run.h"
#include "drain/trench.h"

namespace fallwright {

class DrainBookRequest {
  public:
    DrainBookRequest(const Book& book, desk::Options& options);

    // Index of the line named; no_line: every run.
    static constexpr std::size_t no_line = SIZE_MAX;
    std::size_t line();
    // The runs to show: that line, or every line for use as a drain.
    std::vector<std::size_t> lines(std::size_t line, bool follow);
    drain::RunWish run_wish();
    // Asked for; else nothing.
    std::optional<drain::CoverRule> cover();
    // Over what the book says.
    void trench(drain::TrenchRule& rule);
    // fall_from: the rule that the least fall is by; left empty where it is as given.
    drain::FollowWish follow(std::size_t line, const drain::RunWish& run, const drain::CoverRule& cover,
                             const drain::TrenchRule& trench, std::string& fall_from);

  private:
    void refuse(const char* about, std::string message, std::string cure);
    std::optional<double> not_below_0(const char* name);
    void spoil(drain::TrenchRule& rule);
    void take_pipe(drain::FollowWish& wish);
    void take_falls(drain::FollowWish& wish, const drain::RunWish& run, std::string& fall_from);
    void by_rule(drain::FollowWish& wish, const drain::RunWish& run, std::string& fall_from);
    void take_grades(drain::FollowWish& wish);
    void take_direction(drain::FollowWish& wish);

    const Book& book_;
    desk::Options& options_;
};

}  // namespace fallwright
