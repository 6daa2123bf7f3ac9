// surfaces: every measured surface of a book, and what is asked of it.
//
//   surface_of_book.h  its spots             sheet.h, volume_grid.h   triangles, or cells of a grid
//   best_plane.h       the plane that fits   volumes.h, balance.h     what is to be dug and filled
//   flatness.h         held to tables        standing_water.h         where water would stand
//   contours.h         lines of one level
//   grid_levels.h      levels at a grid, where a `want` of the surface has an interval
//
// Each surface entry gives one, in the order of the book; one that cannot be made has no spots to speak of
// and a finding. A book without surfaces costs nothing. Metres; total over every book.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "ground/best_plane.h"
#include "ground/flatness.h"
#include "ground/grid_levels.h"
#include "ground/standing_water.h"
#include "ground/volumes.h"

namespace fallwright::ground {

// Metres; higher ground to the left (contours.h).
struct SurfaceContour {
    double level = 0;
    bool closed = false;
    std::vector<EastNorth> at;
};

struct SurveyedSurface {
    ReadySurface ready;
    bool made = false;                       // there are triangles; nothing below is told without them
    double area = 0;                         // plan
    std::int32_t lowest = -1, highest = -1;  // spots inside the outline; the first of several, -1: none
    std::optional<BestPlane> plane;
    std::vector<SurfaceVolume> volumes;  // one for each target that can be told
    StandingWater water;
    std::vector<Flatness> flatness;
    std::vector<SurfaceContour> contours;
    std::vector<GridLevel> levels;  // of the first want with an interval
};

// Moving it keeps what its parts point to: entries of the book, presets.
struct Surveys {
    std::vector<SurveyedSurface> surfaces;
    std::vector<const preset::FlatnessPreset*> presets;  // used, each once
    Findings findings;
};

// All outlive what is returned.
Surveys survey_surfaces(const Book& book, const Where& where, const Model& model);

}  // namespace fallwright::ground
