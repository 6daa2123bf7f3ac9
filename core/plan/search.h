// search: from a layout to a better one, step by step. Inside plan only.
//
//   value of a step = (gain at the worst station + mean gain) / effort it adds (one reading at least)
// The best step is taken until half the tolerance is left to the builder everywhere, or none gains least_gain
// any more, or the work is used up. A step never makes the worst station worse, nor lets a sight reach beyond
// the instrument's range; so what comes back is never worse than what came in.
#pragma once

#include "plan/moves.h"

namespace fallwright {

struct Found {
    Layout layout;
    Score score;
    std::vector<Advice> steps;
};

// Worst and mean together; less is not worth walking for: metres, and as a share of what they are.
constexpr double least_gain = 0.00005;
constexpr double least_share = 0.015;

class Search {
  public:
    // All outlive it. most: layouts to solve at most.
    Search(Grounds& grounds, Assessor& assessor, std::int64_t most, const PlanProgress& progress);

    Found better(const Layout& start);
    // The best of each kind of change by itself.
    std::vector<Advice> alone(const Layout& layout);
    std::int64_t left() const { return most_ - assessor_.solved(); }

  private:
    struct Try {
        Advice advice;
        Layout layout;
        Score score;
        double value = 0;
    };
    bool counts(const Move& move, const Score& score, const Score& before, std::int64_t out_of_range);
    Try tried(const Move& move, const Layout& before, const Score& score_before, const Score& score) const;
    std::int64_t out_of_range(const Layout& layout) const;
    void report(double worst) const;

    Grounds& grounds_;
    Assessor& assessor_;
    std::int64_t most_;
    const PlanProgress& progress_;
};

}  // namespace fallwright
