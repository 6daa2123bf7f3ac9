// dips: inverts found by dip against the design there. Inside drain only.
#pragma once

#include <optional>
#include <vector>

#include "drain/run_levels.h"

namespace fallwright::drain {

// Of the line itself and of the lines it joins, by chainage.
std::vector<Dip> find_dips(const SetoutBasis& basis, const RunLevels& levels);

// An invert dipped on the line at a chainage; the first, where there are several.
struct InvertFound {
    NameId point = no_name;
    double level = NAN;
};
std::optional<InvertFound> invert_found(const SetoutBasis& basis, const RunLevels& levels, double ch);

// The chainage of the end that a join of the line fixes: the first the downstream end, the second the
// upstream one. NaN where the line has no design.
double joining_end(const RunLevels& levels, const Join& join);

}  // namespace fallwright::drain
