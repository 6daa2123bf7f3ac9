// plan: how sure the levels will be before anyone goes out, and what would make them surer.
//
// A layout is what the book plans (readings with planned true), together with what is read already; where
// nothing is planned, one is proposed along a line from its benchmarks. It is solved as if it were read (no
// arithmetic of its own: the model's rows, priors and effects), which tells
//
//   at every station        the sd of its level, whether its tolerance can be proved, and how much of it is
//   left
//                           to the builder (goal.h)
//   of every planned reading  redundancy and the least slip that would show, 4.13 sd / sqrt(redundancy);
//   where
//                           nothing would show one, the cheapest further reading that changes that
//   of every change         what it gains in millimetres, at the worst station and on average, for what
//   effort
//
// Stations: the points planned on lines; where none is, every point planned that is no benchmark. Levels are
// relative to the benchmarks as given. `worst` weighs stations by their tolerances (a station with twice the
// tightest counts half); where all have the same or none, it is the largest sd.
//
// The search takes the best step by gain for effort, as long as it gains; it never takes one that makes the
// worst station worse. It is deterministic: its bound is a count, not a clock. Metres, one standard
// deviation.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "base/finding.h"
#include "design/design.h"
#include "effect/checked.h"
#include "fall/fit.h"
#include "model/model.h"
#include "plan/goal.h"
#include "plan/layout.h"
#include "staff/figures.h"

namespace fallwright {

// Of an evaluation of the book, which outlives the call.
struct PlanBasis {
    const Book& book;
    const Designs& designs;
    const Figures& figures;
    const Where& where;
    const Model& model;
    const std::vector<LineFalls>& found;
    const CheckedInstruments& checked;
};

constexpr std::size_t not_named = SIZE_MAX;

// What is asked. Everything may be left out but, where nothing is planned, the line.
struct PlanWish {
    std::size_t line = not_named;        // index in Book::lines
    std::size_t instrument = not_named;  // index in Book::instruments: of proposed set-ups; else the first
    Maybe every;                         // metres between stations; else 10 m
    std::string what;          // surface of the stations; else the first with a tolerance, else the one read
    Maybe tolerance;           // T of +-T; else the book's
    std::vector<Spot> places;  // where the instrument may stand; none: beside the line
    Maybe temperature_difference;  // degrees between where the instrument was and the air
    bool search = true;
};

// Places the search may try, stations of one plan.
constexpr std::size_t most_places = 8;
constexpr std::size_t most_planned_stations = 2000;

struct StationOutlook {
    NameId point = no_name;
    NameId line = no_name, what = no_name;  // no_name: not on a line
    double ch = 0, off = 0;
    double sd = NAN;
    Goal goal;
    Provable can;
};

// What can be done about a reading whose slip nothing would show: one more reading.
struct Cure {
    std::size_t stand = 0;  // in Layout::stands
    NameId point = no_name;
    bool again = false;  // the same reading once more
    double detectable = NAN;
};

struct SightOutlook {
    double d = NAN;
    bool assumed_d = false;
    double sd = 0, redundancy = 0;
    double detectable = NAN;  // NaN: no slip would show
    Cure cure;                // where detectable is NaN; stand and point of the reading that helps most
};

struct SetupOutlook {
    std::int64_t readings = 0;
    double shortest = NAN, longest = NAN;  // sights
    // Between the lowest and the highest level it reads, as known or wanted; of a level plane only.
    double spread = NAN;
    double hot_ground = NAN;  // what air over hot ground does between the two, metres (air.h)
};

struct FallOutlook {
    std::size_t line = 0;
    NameId what = no_name;
    double sd = NAN;  // of the gradient fitted through all its stations
};

// A layout as it will come out.
struct Outlook {
    std::vector<StationOutlook> stations;
    std::vector<SightOutlook> sights;  // per sight of the layout
    std::vector<SetupOutlook> setups;  // per stand
    std::vector<FallOutlook> falls;
    double worst = NAN, mean = NAN;
    NameId worst_point = no_name;
    double effort = 0;
};

// A change of a layout, and what comes of it.
enum class Change : std::uint8_t {
    ReadAgain,     // a point once more from the same set-up
    ReadAllAgain,  // every station once more
    HalfRound,     // turn the body half round in these set-ups
    Benchmark,     // read a further benchmark
    OtherSetup,    // read stations from a second set-up too
    ChangePoint,   // one more point between two set-ups
    MoveSetup,
    AddSetup,
    RemoveSetup
};
// As in results: "read-again", "half-round", ...
std::string_view change_word(Change change);

struct Advice {
    Change change = Change::ReadAgain;
    std::vector<NameId> setups, points;
    Spot place;         // where a set-up comes to stand
    double effort = 0;  // more than before; negative: less
    double worst_gain = 0, mean_gain = 0;
    double worst = NAN, mean = NAN;  // after it
};

struct Plan {
    bool proposed = false;  // nothing was planned: the layout is the program's
    Layout layout;          // as planned, or the plainest one proposed
    Outlook outlook;
    std::vector<Advice> alone;  // the best of each kind of change by itself, by worst gain
    std::vector<Advice> steps;  // one after the other, as the search took them
    Layout better;              // after all steps
    Outlook better_outlook;
    std::int64_t tried = 0;                                 // layouts solved
    double warm_up = NAN;                                   // minutes
    std::vector<Spot> change_points, better_change_points;  // places of Layout::change_points
    std::vector<std::string> names;  // by NameId: those of the book and those made for the plan
    Findings findings;
};

// What is done of what there is to do at most, and the worst sd so far.
using PlanProgress = std::function<void(std::int64_t done, std::int64_t most, double worst)>;

// Total: any book gives a plan; what is wrong or cannot be told is a finding.
Plan plan_work(const PlanBasis& basis, const PlanWish& wish, const PlanProgress& progress = {});

}  // namespace fallwright
