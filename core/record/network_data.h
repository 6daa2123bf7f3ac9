// network_data: what was tied to what, cut into bands that fit on paper. Inside record only.
//
// Set-ups stand in the order of their first reading, a few in each band, with the points read from them; a
// point that is read in several bands stands in each of them. Of a set-up with many points that are read from
// nowhere else, these are counted instead of shown: they tie nothing. Residuals and redundancies are the
// model's.
#pragma once

#include <string>
#include <vector>

#include "evaluation/evaluation.h"

namespace fallwright::record {

struct NetNode {
    std::string name, more;  // more: "9 points read once"
    bool benchmark = false;
    double wanted = 0;  // points: the mean place of what they are tied to, among the set-ups of the band
};

// From a set-up (index in NetBand::setups) to a point; of a step from a point to a point.
struct NetEdge {
    std::size_t from = 0, to = 0;
    bool step = false;
    double residual = NAN;  // metres; of several readings the largest
    bool checked = false;   // something else tells the same
    bool large = false;     // over 2.5 of its own standard deviations
    std::string about;
};

struct NetClosure {
    std::size_t from = 0, to = 0;  // points of the band; both 0 where it is in no single band
    std::string words;
};

struct NetBand {
    std::vector<NetNode> setups, points;
    std::vector<NetEdge> edges;
    std::vector<NetClosure> closures;
};

struct Net {
    std::vector<NetBand> bands;
    std::vector<std::string> closures;  // all of them, a sentence each
    bool residuals = true;              // false: too many to be looked up
};
Net net_of(const Evaluation& evaluation);

constexpr std::size_t most_band_setups = 6, most_band_points = 36, most_read_once = 8;

}  // namespace fallwright::record
