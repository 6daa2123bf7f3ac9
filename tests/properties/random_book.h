// random_book: books as a site might keep them, made from a seed, as lines of JSON that a property can turn,
// shift, mix and damage before they are read.
//
// The readings come from one invented site: points with heights, a bent drain line with a plan, a kerb
// without one, a soffit overhead; they are right to a few millimetres. Whatever the seed, the book has no
// error of form.
#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "properties/draw.h"

namespace fallwright::properties {

using Json = nlohmann::json;

struct RandomBook {
    std::vector<Json> lines;  // the first is the book's own

    std::string text() const;
};

// What a property needs of its books. Everything else is drawn.
struct Wishes {
    bool told = false;       // every entry says its id, its time and, where it has one, its set-up
    bool level = false;      // only level planes
    bool redundant = true;   // false: each point hangs on one sight, one benchmark, no steps
    bool all_sds = false;    // every uncertainty is given, every reading has a surface of known foot_sd
    bool plain = false;      // no curvature, no known tilt, cone or collimation, no staff errors
    bool one_datum = false;  // benchmarks, one of them fixed
    bool on_grid = false;    // no line without a plan, towards no line
};

// 1 to most_setups set-ups.
RandomBook random_book(std::uint64_t seed, std::size_t most_setups, const Wishes& wishes);

// The same book with a chance of being any: what rc::gen draws.
RandomBook any_book(const Wishes& wishes);

}  // namespace fallwright::properties
