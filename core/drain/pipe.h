// pipe: everything asked of one pipe at one fall: full, at its greatest, at a flow or a depth, critical; what
// the rules of self-cleansing say.
//
// Either a flow or a depth may be given, not both. A flow has two depths between the full and the greatest
// one: `part` is the lower, `upper` the other. A flow above the greatest, or any flow without fall, has no
// part; pressure_fall is then the fall of the pressure line under which the pipe would carry it full. Without
// a flow and a depth there is no part, and nothing critical. The critical state is that of the flow (given,
// or that of the depth), its fall the one at which the water would run at critical depth. Metres, seconds,
// ratios; NaN: not told. Findings: no fall, overfull, two depths, outside the law's range. Pure.
#pragma once

#include <optional>
#include <vector>

#include "base/finding.h"
#include "drain/rules.h"

namespace fallwright::drain {

struct PipeQuestion {
    double bore = 0, fall = 0;
    Friction friction;
    double flow = NAN, depth = NAN;  // one of them, or none
    int closets = -1;                // for the rules; negative: not told
};

struct Critical {
    double depth = NAN, velocity = NAN, fall = NAN;
};

struct PipeAnswer {
    PipeQuestion asked;
    Uniform full, most, fastest;  // most: the greatest flow; fastest: the greatest velocity
    std::optional<Uniform> part, upper;
    std::optional<Critical> critical;
    double pressure_fall = NAN;
    std::vector<CleansingVerdict> rules;
    Findings findings;
};

// bore above 0, fall finite, flow and depth 0 or more, depth up to the bore. `unit` of sentences.
PipeAnswer answer_pipe(const PipeQuestion& asked, Unit unit);

}  // namespace fallwright::drain
