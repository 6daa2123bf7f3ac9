// figures_of: a drawing of the book by its name, for whoever wants one alone.
//
// Names: long-section, cross-sections, deviations, trench, plan, network, surface, rod, pegs. Those of a line
// take the line's name, `surface` a measured surface's; without one they draw every line or surface there is.
// Fails (bad-request) on a name that is no drawing, a line or surface that is not in the book, and where the
// book has nothing for that drawing: the finding says what is missing. What a drawing shows: drawings.h.
#pragma once

#include <string_view>
#include <vector>

#include "base/result.h"
#include "record/drawings.h"

namespace fallwright::record {

// One row of the catalogue of drawings.
struct FigureKind {
    std::string_view name;
    enum class Of : std::uint8_t { Book, Line, Surface } of;
    std::string_view needs;  // what the book must have: "a line with levels"
};
const std::vector<FigureKind>& figure_kinds();

// subject: a line's or a surface's name, "" for all of them; not looked at where the drawing is of the book.
Result<std::vector<sheet::Figure>> figures_of(const Evaluation& evaluation, std::string_view name,
                                              std::string_view subject, Room room);

}  // namespace fallwright::record
