// proof: the point and the staff reading that show that a plane was set as wanted. Inside dial only.
#pragma once

#include <optional>

#include "dial/dial.h"

namespace fallwright {

// main: the axis as set or advised. Absent where the set-up has no place, where nothing is read on its
// tripod, or where no placed point of known level is in the light.
std::optional<DialProof> find_proof(const DialBasis& basis, const Dial& dial, const Heading& main,
                                    const Spot& from, const Spot& to);

}  // namespace fallwright
