// Does an answer meet an expectation?
#pragma once

#include <string>

#include "case_file.h"

namespace fallwright::cases {

struct Outcome {
    bool passed = false;
    std::string got;         // what stands in the answer
    std::string difference;  // figures only
    int digits = -1;         // figures only: how many agree
};

// `before` is the answer to the run before, null if there is none.
Outcome check(const Expectation& expectation, const Json& answer, const Json& before);

}  // namespace fallwright::cases
