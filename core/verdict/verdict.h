// verdict: what was laid on a line, judged.
//
// At each station: the design of its surface, how far it lies off (measured less design, high positive), and
// by the line's tolerance whether it is within, with the probability that it truly is (within.h). A design
// that hangs under a measured point shares that point's errors. What is there to dig, what lies below it, and
// what lay there before the stretch was relaid.
//
// A tolerance of `laid` holds for laid in and laid out as well where these have none of their own: they are
// the same pipe's inverts at a chamber. The first tolerance of a surface stands. Limits from a preset that is
// from memory judge nothing: a finding says how many stations lie outside them, as a hint.
//
// Metres, ratios, chainages; NaN where there is none. Total over every book. Judging a station costs nothing
// where its line has neither design nor tolerance.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/finding.h"
#include "fall/falls.h"
#include "fall/ground_along.h"
#include "verdict/within.h"

namespace fallwright {

// A figure against its limits.
struct Judgement {
    Verdict verdict = Verdict::Untested;
    bool plain_within = false;  // as measured; only where tested
    double probability = 0;     // that it truly is within; only where tested
};

// By its limits, as probable as its sd says; plain as rounded for the result: to `places` in units of `unit`
// metres (1 for ratios). NaN: untested.
Judgement judge_figure(double x, double sd, const Limits& limits, double confidence, int places,
                       double unit = 1);

// A surface under (positive) or above what is there.
struct Below {
    std::string what;
    double depth = 0;
};

// An older surface at the same place, relaid since.
struct Earlier {
    NameId point = no_name;
    double level = 0, sd = 0, deviation = 0;
    std::uint32_t until = 0;  // index in Book::entries of the `relaid`
};

struct StationVerdict {
    double design = 0, deviation = 0;
    Judgement judged;
    double dig = 0;                // what is there less the design of dig_to, positive to dig
    std::string_view dig_to;       // empty where the line has no design there
    std::vector<Below> below;      // from the top down
    std::vector<Earlier> earlier;  // from the oldest
};

struct FallVerdict {
    double design = 0;  // between the same two points, positive the way the water runs
    Judgement judged;
    double backfall_probability =
        0;  // that it truly falls the other way; NaN where the design is level or absent
};

struct AllWithin {
    std::string_view what;
    double probability = 0;
};

class LineJudge {
  public:
    // All of them are of the same line and outlive this.
    LineJudge(const Book& book, const Design& design, const LineFalls& found, const Model& model);

    // One of found.stations.
    StationVerdict judge(const Station& station) const;
    // One of list_falls() of the same line. A design that hangs does not come into its uncertainty: falls are
    // judged by their own limits.
    FallVerdict judge(const FoundFall& fall) const;

    // For each tolerance of levels on the line, in order of first appearance, the joint probability that
    // every station it tests is truly within (joint.h). Tolerances that test no station are left out.
    std::vector<AllWithin> all_within() const;

    // That by which a surface of the line is judged; nullptr where there is none.
    const Tolerance* tolerance_of(std::string_view what) const;
    bool has_tolerances() const { return !tolerances_.empty(); }

  private:
    struct Deviation {
        double design = 0, value = 0;
        std::vector<PointTerm> sum;
    };
    bool idle() const { return !design_.any() && tolerances_.empty() && relaids_.empty(); }
    Deviation deviation_of(const Station& station, std::int32_t point) const;
    double sd_of(const Station& station, const Deviation& deviation) const;
    Judgement judge_level(const Station& station, const Deviation& deviation) const;
    double all_within(const Tolerance& tolerance) const;
    void look_down(const Station& station, StationVerdict& verdict) const;
    void look_back(const Station& station, StationVerdict& verdict) const;

    const Book& book_;
    const Design& design_;
    const LineFalls& found_;
    const Model& model_;
    GroundAlong ground_;
    LevelOf level_of_;
    double confidence_;
    std::vector<const Tolerance*> tolerances_;
    std::vector<std::uint32_t> relaids_;  // of this line, by time
};

// The rule `confidence` of the book; usual_confidence where there is none or it is not between 0.5 and 1.
double confidence_of(const Book& book);

// What a person should know: tolerances that judge nothing, stretches relaid and not read since, a confidence
// that is none. One of each kind for a line.
Findings verdict_findings(const Book& book, const Designs& designs, const std::vector<LineFalls>& found);
// What limits from memory would say of the levels: one finding for each such tolerance that has stations.
Findings verdict_hints(const Book& book, const Designs& designs, const std::vector<LineFalls>& found,
                       const Model& model);

}  // namespace fallwright
