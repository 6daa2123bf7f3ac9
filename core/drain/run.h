// run: a run of drains, as designed and as laid, against the ground there is.
//
// For a line with pipes: each pipe with its fall as designed and as laid, and at both of its ends the invert
// wanted, the one found, and what the staff must read there from the set-up that stands; chambers with their
// drops and bores; joins; inverts found by dip against the design; and along the line invert, soffit, crown,
// trench bottom, cover and depth.
//
//   pipe ends    upper and lower the way the water runs. Pipes are laid with the socket up the run, so the
//   lower
//                end is the spigot (common practice, no source)
//   fall         (upper - lower) / length, as designed between the ends, as laid between the first and the
//   last
//                reading in the pipe (fall/falls.h), with its sd and the probability that it truly falls back
//   flat         successive readings whose fall is not surely one: it falls back as measured, or the
//   probability
//                that it truly does is over 1 - confidence. Where water stands: verdict/ponds.h
//   stations     the line's own points (design/design.h), where the ground was read and where the pipe was
//   read:
//                between them cover runs straight on straight grades, so its least value is at one of them
//   cover        a chamber's lid, else the ground, less the crown; as laid less the crown of the pipe as
//   found.
//                Negative: the pipe stands out of the ground
//   depth        from the higher of the ground on the line and at its edges down to the trench bottom
//   drop         of a chamber: in - out; of a join: own invert - the other line's
//   water        what a pipe of that kind carries full bore at its designed fall (hydraulics.h), and what the
//                rules of self-cleansing want of it (rules.h); the fall as laid is judged by those the job is
//                held to, its own and the preset it names, unless that is from memory: by the probability
//                that it is met
//   dip          an invert read on the line as `invert` (by staff, or by a step from the cover), or where it
//                joins on the other line, against the design there; they disagree over 1.96 sd of the
//                difference
//
// Each sd is one standard deviation by the joint covariance of all that is in it: ground read from the light
// that found the invert a design hangs under costs less than both apart. Metres, ratios; NaN where there is
// none. Total over every book; a line without pipes and chambers is no run.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "drain/cover_rule.h"
#include "drain/job.h"
#include "fall/falls.h"
#include "setout/setout.h"

namespace fallwright::drain {

struct PipeEnd {
    double ch = NAN;
    std::string_view what;  // laid, at a chamber whose inverts differ laid in or laid out
    double design = NAN;
    double laid = NAN, laid_sd = NAN, deviation = NAN;
    double staff = NAN, staff_sd = NAN;  // to be read on the invert, with the noise of that reading
};

struct RunPipe {
    const Pipe* pipe = nullptr;
    PipeEnd upper, lower;
    double fall = NAN;
    double laid_fall = NAN, laid_fall_sd = NAN;
    double backfall = NAN;        // the probability that it truly falls back; NaN as of falls
    std::size_t kind = SIZE_MAX;  // index in Run::kinds; none where the bore is not known
    Judgement met;                // whether the fall as laid is one that the rules held to want
};

// Pipes of one bore, friction and designed fall.
struct PipeKind {
    CleansingCase asked;
    Uniform full;
    std::optional<Uniform>
        part;  // at the job's flow, the lower depth; none without one, or where it runs overfull
    std::vector<CleansingVerdict> rules;  // held to first; all others only where asked for
    Limits held;                          // of the fall, by the rules held to; open where none speaks of it
};

struct FlatSpot {
    double from = 0, to = 0;
    double fall = 0, fall_sd = 0, design = 0;
    double backfall = 0;
};

struct RunChamber {
    const Chamber* chamber = nullptr;
    double in = NAN, out = NAN, drop = NAN;
    double laid_in = NAN, laid_in_sd = NAN, laid_out = NAN, laid_out_sd = NAN;
    double laid_drop = NAN, laid_drop_sd = NAN;
    double bore_in = NAN, bore_out = NAN, soffit_drop = NAN;  // soffit in - soffit out
    double depth = NAN;                                       // lid - lower invert
};

struct RunJoin {
    const Join* join = nullptr;
    double ch = NAN;  // of the own end
    double invert = NAN, other_invert = NAN, other_soffit = NAN, drop = NAN;
};

struct Dip {
    NameId point = no_name;
    double ch = 0;  // on this line
    double level = 0, sd = 0;
    double design = NAN, difference = NAN, difference_sd = NAN;  // difference: dip - design
    bool agrees = true;
};

struct RunStation {
    double ch = 0;
    std::string_view what;  // as of a pipe end
    double invert = NAN, soffit = NAN, crown = NAN, bottom = NAN;
    double design_sd = NAN;  // of all four
    double ground = NAN, ground_sd = NAN;
    double cover = NAN, cover_sd = NAN;
    double depth = NAN, depth_sd = NAN;
    double laid = NAN, laid_sd = NAN, laid_cover = NAN, laid_cover_sd = NAN;
    Judgement least, laid_least;  // whether cover is at least what the rule asks for
};

struct Run {
    std::size_t line = 0, setup = no_setup;
    bool with_chainage = true;
    CoverRule cover_rule;
    std::vector<RunPipe> pipes;        // by chainage
    std::vector<PipeKind> kinds;       // in order of first appearance
    std::vector<FlatSpot> flats;       // by chainage
    std::vector<RunChamber> chambers;  // by chainage
    std::vector<RunJoin> joins;        // as written
    std::vector<Dip> dips;             // by chainage
    std::vector<RunStation> stations;  // by chainage, laid in before laid out
};

struct Runs {
    std::shared_ptr<const Job> job;  // verdicts of rules point into it
    std::vector<Run> runs;  // of every line for use as a drain that has pipes or chambers, in their order
    Findings findings;
};

// setup: whose light the staff readings are from; no_setup: none.
struct RunWish {
    std::size_t setup = no_setup;
    bool staff_asked = false;  // where no staff reading can be told, the reason is a finding
    bool all_rules = false;    // of self-cleansing, not only those the job is held to
    const preset::CleansingRule* held_to = nullptr;  // instead of the book's
};

// A line to look at, whatever its use.
struct RunOrder {
    std::size_t line = 0;
    CoverRule cover;
};

// Of every line for use as a drain that has pipes or chambers, with the book's rules of cover.
Runs drain_runs(const SetoutBasis& basis, const RunWish& wish);
// Of those lines.
Runs drain_runs(const SetoutBasis& basis, const std::vector<RunOrder>& orders, const RunWish& wish);

// Whether the line is a run of drains.
bool is_run(const LineEntry& line);
// The set-up that stands: the last one of the book by time; no_setup where it has none.
std::size_t standing_setup(const Book& book);

}  // namespace fallwright::drain
