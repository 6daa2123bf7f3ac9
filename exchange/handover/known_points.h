// known_points: what a book says already of the points that come to it. Inside handover only.
#pragma once

#include <cstdint>
#include <string>
#include <unordered_map>

#include "book/book.h"
#include "exchange/handover/handover.h"

namespace fallwright::handover {

// Places and levels closer than this are the same: files keep a tenth of a millimetre or better.
constexpr double same_length = 0.0001;

// Nothing, the same, or something else.
enum class Said : std::uint8_t { Nothing, Same, Other };

class KnownPoints {
  public:
    // nullptr: nothing is known.
    explicit KnownPoints(const Book* book);

    // Whether the book speaks of the point at all: reads it, places it, gives it a level.
    bool speaks_of(const std::string& name) const { return points_.count(name) > 0; }
    Said place(const Point& point) const;
    // Of its benchmarks.
    Said level(const Point& point) const;

  private:
    struct Known {
        bool placed = false, on_grid = false;
        double e = unknown, n = unknown, level = unknown;
    };
    std::unordered_map<std::string, Known> points_;
};

}  // namespace fallwright::handover
