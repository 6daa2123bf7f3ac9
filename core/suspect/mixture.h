// mixture: how much one reading tells about which of several explanations holds.
//
// Each explanation k has a weight and expects the reading z to be normal. The mutual information between k
// and z, in nats, is the entropy of the mixture less the mean entropy of its members; 0: they all expect the
// same, ln(number) at most. Every stretch that members' six standard deviations cover without a gap is summed
// in 240 steps: about 1e-6 for the widths that occur here.
//
// Inside suspect only.
#pragma once

#include <vector>

namespace fallwright {

struct Member {
    double weight;  // all add up to 1
    double mean, variance;
};

double mutual_information(const std::vector<Member>& members);

}  // namespace fallwright
