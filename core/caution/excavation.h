// excavation: the limits a book chooses, and what its trenches are said against them. Inside caution only.
#pragma once

#include "caution/caution.h"
#include "setout/trench.h"

namespace fallwright {

// Limits as chosen: figures that the rule gives itself are in both, and have its source.
struct ChosenLimits {
    preset::ExcavationLimits limits;
    CautionsRule own;
    std::string own_source;
    std::vector<std::string> add;  // sentences of the job's own
    Findings findings;
};
ChosenLimits limits_of(const Book& book);

// "the trench is up to 1.643 +- 0.012 m deep at chainage 40.000, deeper than 1.200 m (rule of thumb, ...)
// from chainage 20.000 to 40.000"; empty where no depth is known.
std::string depth_words(const Book& book, const Trench& trench, const ChosenLimits& chosen);

// All cautions about the excavation of a line of pipes.
std::vector<Caution> excavation_cautions(const Book& book, const std::string& line, const Trench& trench,
                                         const ChosenLimits& chosen);

}  // namespace fallwright
