// falls: the fall along what was laid, as it was found, from span to span.
//
// The difference of two levels over the distance between them, points at offset 0 of one surface in order of
// chainage; positive the way the water runs (design/flow.h). The sd comes from the joint covariance, so what
// two points share costs nothing.
//
//   neighbour   successive readings of the surface
//   pipe        first and last reading in from..to of a pipe; laid in at its upstream end and laid out at its
//               downstream end are the other pipe's
//   chambers    laid out of a chamber to laid in of the next one downstream
//   line        first and last reading
//
// On a line with chambers laid, laid in and laid out are one surface, "laid": the water runs along all three.
// Between laid in and laid out of one chamber there is a step and no fall. Where a chamber has one invert and
// only one of the two was read, it serves as both.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "design/design.h"
#include "fall/fit.h"

namespace fallwright {

enum class Span : std::uint8_t { Neighbour, Pipe, Chambers, Line };
// As in results: "neighbour", "pipe", "chambers", "line".
std::string_view span_word(Span span);

struct FoundFall {
    double from = 0, to = 0;  // chainages, metres, from < to
    std::string_view what;
    Span span = Span::Neighbour;
    double gradient = 0, sd = 0;
    const Station* start = nullptr;  // at from
    const Station* end = nullptr;
};

// A surface as the water meets it: stations on the line that have a level, by rising chainage; two at a
// chamber stand as they do along the line, so that from one end to the other is the way the water runs or
// against it.
struct LaidSurface {
    std::string_view what;
    std::vector<const Station*> stations;
};

// In order of first appearance. `found` and the book outlive them.
std::vector<LaidSurface> laid_surfaces(const Book& book, const Design& design, const LineFalls& found,
                                       const Model& model);

// The level found at a point by its name; the model outlives it.
LevelOf levels_found(const Model& model);

// Per surface: neighbours, pipes, chambers, then the whole line. Fewer than two chainages: none.
std::vector<FoundFall> list_falls(const Book& book, const Design& design, const LineFalls& found,
                                  const Model& model);
// Whether `fall`, from one reading to the next, is in `all` as a pipe too: one read at its two ends only is
// said once.
bool said_as_pipe(const FoundFall& fall, const std::vector<FoundFall>& all);

}  // namespace fallwright
