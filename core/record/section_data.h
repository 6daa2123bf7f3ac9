// section_data: what a long section of one line has in its columns. Inside record only.
//
// Columns stand where the line has points of its own (design/design.h), where its ground was read and where
// anything laid was read, by chainage; where the invert steps at a chamber one for each side. For a run of
// drains they are the stations of the run (drain/run.h), with its cover and depth. Everything is taken from
// the evaluation as it is. Metres; NaN where there is none.
#pragma once

#include <string>
#include <vector>

#include "evaluation/evaluation.h"
#include "verdict/verdict.h"

namespace fallwright::record {

// A level found on a surface, against its design where it has one.
struct Found {
    double ch = 0, off = 0;
    double level = NAN, sd = NAN;
    double design = NAN, deviation = NAN;
    double off_fit = NAN;  // off the straight line through the surface
    Judgement judged;
    std::string point;

    bool any() const { return !std::isnan(level); }
};

// A surface read on the line (at one offset), by chainage.
struct FoundSurface {
    std::string what;
    double off = 0;
    std::vector<Found> found;
    const Tolerance* tolerance = nullptr;
    bool designed = false;  // some deviation is known
};

// Every surface but ground and pegs, offsets apart to three decimals, those on the line first, then in order
// of appearance.
std::vector<FoundSurface> found_surfaces(const Evaluation& evaluation, std::size_t line);

struct Column {
    double ch = 0;
    std::string side;  // "in" or "out" at a step
    double ground = NAN, design = NAN, depth = NAN, cover = NAN;
    std::vector<Found> found;  // by index in SectionData::surfaces
};

struct SectionData {
    const Book* book = nullptr;
    const Design* design = nullptr;
    const LineEntry* line = nullptr;
    std::string name, profile;          // of the line; "invert", "finished"
    std::vector<std::string> surfaces;  // as laid, those that have rows: three at most
    std::vector<Column> columns;
    std::vector<FoundSurface> found;  // on the line itself, as `surfaces`
    bool with_chainage = true;
    double fitted = NAN;  // gradient of the best straight line through the first surface
    LevelOf level_of;
};
SectionData section_data(const Evaluation& evaluation, std::size_t line);

}  // namespace fallwright::record
