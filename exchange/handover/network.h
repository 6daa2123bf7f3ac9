// network: a line's pipes and chambers as nodes and what runs between them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "exchange/handover/handover.h"

namespace fallwright::handover {

struct Node {
    double ch = 0;
    const Chamber* chamber = nullptr;  // nullptr: pipes meet without one
    std::string name;
    double e = 0, n = 0;
};

// A stretch of pipe between two nodes next to each other, lower chainage first.
struct Stretch {
    std::size_t from = 0, to = 0;  // nodes
    const Pipe* pipe = nullptr;
    double from_level = 0, to_level = 0;  // inverts
    std::string name;
};

struct Network {
    std::vector<Node> nodes;
    std::vector<Stretch> stretches;
};

// Pipes are parted at the chambers within them. Nothing where the line has no plan, no pipes, or an invert is
// not known.
std::optional<Network> network_of(const Line& line);

// Where a chainage of the plan lies; beyond its ends the end segments go on. At least two corners.
EastNorth along(const Line& line, double ch);

// The level of a profile, NaN beyond its ends; on the side of higher chainage, or lower.
double profile_level(const Line& line, double ch, bool after);

}  // namespace fallwright::handover
