// evenness: how even a surface lies along a line and across it, against a straightedge, its design, a car.
//
// Taken of roads, kerbs and slabs, of every surface but ground and peg that was read at three places or more
// in one row: along the line at one offset, or across it at one chainage (with a camber each side for
// itself). Between readings a surface is straight; nothing is known of it there.
//
//   off the straight   levels about their own best straight line: rms, and the largest with its sd
//   off the design     levels about the design: mean, rms about 0, and the largest
//   chords             each reading above (+) or below (-) the straight between its two neighbours
//   straightedge       the gap under a straightedge of length L laid anywhere: it rests on the two high spots
//                      among the readings under it (straightedge.h)
//   spots              the gap by the distance of the high spots, and the same for a point off the middle of
//                      two others equally far (DIN 18202's grid rule); design taken off, so that curves count
//                      for nothing
//   irregularities     how many places are off by a size or more under the straightedge, in the worst stretch
//                      of a length; surely: each by the confidence of the book, possibly: not surely less
//   roughness          index of the reference car (quarter_car.h), roads only, along the line
//
// Limits come from the book's tolerance of the surface; without one the figures stand and nothing is judged.
// Every sd is that of the figure from the joint covariance of its levels, so that what they share costs
// nothing. The largest of many gaps is more often too large than too small, by the noise of its readings.
//
// The index of a road says something only where it was read closely: every 0.25 m (0.5 m at most), at an even
// interval, over 11 m at least. Where it was not it is refused, with the reason. `noise` is the index that a
// perfectly even road would show to these readings: read with a laser of 1.2 mm it is that of a good road.
//
// Metres, ratios, chainages; NaN where there is none. Total over every book. A line of another use costs
// nothing.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "design/design.h"
#include "fall/fit.h"
#include "verdict/verdict.h"

namespace fallwright {

// Levels about a line; worst: the largest of them, high positive.
struct OffLine {
    double mean = NAN, rms = NAN;
    double worst = NAN, worst_sd = NAN, worst_at = NAN;
};

// Positions are chainages of a row along the line, offsets of one across.
struct Chord {
    double at = 0, base = 0;  // base: distance of the two neighbours
    double mid = 0, sd = 0;   // above the straight between them
    double design = NAN;      // the same of the design
};

// A stretch of successive readings that are not within the limit, shown by its worst one; or the worst of
// all.
struct Gap {
    double first = 0, last = 0;  // positions of the stretch
    double at = 0;
    std::array<double, 2> rests{NAN, NAN};  // the high spots
    double gap = 0, sd = 0;                 // below the straight between them; negative: above it
    double design = NAN;                    // of that, what the design itself has there
    double limit = NAN;
    Judgement judged;
};

struct GapCheck {
    bool any = false;
    double over = NAN;        // length of the straightedge
    Gap worst;                // only where any
    std::vector<Gap> places;  // that are not within, by position
    std::string refused;      // why there is none
};

struct IrregularityCheck {
    double size = 0, length = 0, most = 0;
    int count = 0, surely = 0, possibly = 0;
    Verdict verdict = Verdict::Untested;
};

struct Roughness {
    double from = 0, to = 0, spacing = 0;
    double index = 0, sd = 0;             // ratios: 0.001 is 1 m/km
    double noise = 0, without_noise = 0;  // sqrt(index^2 - noise^2); NaN where noise is all there is
    double level_sd = 0;                  // of a level, what is its own
    int staff_class = 0;                  // 1, 2; 0: none
    std::array<double, 2> asks{};         // for class 1 and 2: resolution of the staff, from memory
};

struct EvenRow {
    NameId what = no_name;
    bool along = true;
    double at = 0;  // offset of a row along, chainage of one across
    double from = 0, to = 0;
    std::size_t stations = 0;
    double spacing = 0;  // the largest
    OffLine off_straight, off_design;
    std::vector<Chord> chords;
    GapCheck straightedge, spots;
    std::vector<IrregularityCheck> irregularities;
    std::vector<Roughness> roughness;  // of each stretch that allows it
    std::string roughness_refused;     // why there is none, or none of a part
};

// A cross-section as laid: all readings of a surface at one chainage, from left to right.
struct SectionPoint {
    const Station* station = nullptr;
    StationVerdict verdict;
};
// Between two neighbours of a section, rising to the right.
struct SectionSlope {
    double from = 0, to = 0;  // offsets
    double gradient = 0, sd = 0, design = NAN;
};
struct Section {
    double ch = 0;
    NameId what = no_name;
    std::vector<SectionPoint> points;  // two or more
    std::vector<SectionSlope> slopes;
};

// All of them are of the same line; the book, the design, `found` and the model outlive the answer.
struct EvennessBasis {
    const Book& book;
    const Design& design;
    const LineFalls& found;
    const Model& model;
};

// Whether evenness is taken of the line at all.
bool asks_evenness(const LineEntry& line);

// By surface in order of first appearance: rows along by rising offset, then rows across by rising chainage.
std::vector<EvenRow> evenness_of(const EvennessBasis& basis);
// Whether a gap, a spot or a count of some row is outside its limit.
bool uneven(const EvennessBasis& basis);
// By rising chainage, surfaces in order of first appearance. judge: of that line.
std::vector<Section> sections_of(const EvennessBasis& basis, const LineJudge& judge);

}  // namespace fallwright
