// cross_data: what cross sections of one line have in their columns. Inside record only.
//
// A section stands at each chainage where two places or more across the line were read; where there is none,
// and the line has a crossfall, at the line's own points. Columns by offset, left to right: edges, the line
// itself, whatever was read. Everything is taken from the evaluation as it is. Metres; NaN where there is
// none.
#pragma once

#include <string>
#include <vector>

#include "record/section_data.h"

namespace fallwright::record {

struct CrossColumn {
    double off = 0;
    double ground = NAN, design = NAN;  // design: of the profile's own surface
    std::vector<Found> found;           // by index in CrossData::surfaces
};

struct CrossSection {
    double ch = 0;
    std::vector<CrossColumn> columns;
};

struct CrossData {
    std::string name, profile;
    std::vector<std::string> surfaces;
    std::vector<CrossSection> sections;  // by chainage
};
CrossData cross_data(const Evaluation& evaluation, std::size_t line);

}  // namespace fallwright::record
