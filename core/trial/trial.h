// trial: checks of instruments on site. Which error each one finds, how well, what it cannot see, and what
// later readings may take from it.
//
// Row of a shot, s = +1 upright, -1 inverted, u and v along and right of the main axis:
//   s r = c + tilt_main u + tilt_cross v + (cone or collimation) d + (1-k) d^2/2R - h(peg) + setting tilt +
//   e
// c: one for each station, where the tripod stands; where the body is not turned (no facing) one for each
// levelling-up. A setting tilt for each levelling-up. e ~ N(0, reading_sd^2 + (sd_per_m d)^2). Stations and
// pegs are names of the check's own, no points of the book. The errors tested (tilt and cone of a laser,
// collimation of an optical level) have no prior, so what comes out is what the shots say. What the shots do
// not determine, by the null vectors of the rows, the check is blind to; so is one that leaves an error
// uncertain by more than any instrument is out (0.5 mm/m).
//
// Shots have no time; their order in the entry is the order in which they were read. Pegs of shots without
// facing stand in one line with the instrument, which therefore sees no tilt.
//
// Metres, length per length, one standard deviation. NaN where there is none. Total: any book gives an
// answer; what is wrong is a finding.
#pragma once

#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/finding.h"
#include "book/book.h"
#include "effect/checked.h"
#include "where/where.h"

namespace fallwright {

// One shot that could be used, after all errors seen are taken off.
struct ShotFit {
    std::size_t shot = 0;  // index in Trial::shots
    double value = 0;      // as booked: negative where inverted
    double dist = 0;
    double corrected = 0;  // what an instrument without the errors seen would have read on a level surface
    double residual = 0;   // booked - computed
    double sd = 0;         // stated
    double redundancy = 0, w = 0;  // w: NaN where nothing checks the shot
};

// How much the shots scatter, against what is stated for one reading (after the pattern of ISO 17123-2 and
// -6).
struct Scatter {
    std::int64_t dof = 0;
    double chi2 = 0;
    double stated = 0;  // root mean square of the shots
    double found = 0;   // NaN at dof 0
    double limit = 0;   // found may be as much by chance in 19 of 20 checks; NaN at dof 0
};

struct TrialOutcome {
    std::size_t trial = 0;       // index in Book::trials
    std::size_t instrument = 0;  // index in Book::instruments
    std::int32_t stretch = 0;    // how often the instrument was adjusted before
    // In the order of instrument_effects().
    std::array<bool, tested_errors> tested{}, seen{};
    ErrorVector value{}, sd{};  // NaN where not seen
    ErrorMatrix covariance{};   // of what is seen
    // 30 (|cone or collimation| + hypot(tilt)) of what is seen; NaN where nothing is.
    double at_30_m = 0, at_30_m_sd = 0;
    std::optional<bool> passes;  // at_30_m <= limit; none where nothing is seen
    double longest_sight = 0;    // of the book's readings in this stretch; NaN without one
    double at_longest = 0, at_longest_sd = 0;
    std::optional<bool> matters;  // at the longest sight, for the tightest tolerance; none without both
    std::vector<ShotFit> shots;
    Scatter scatter;
    double drift = 0, drift_sd = 0;  // from each shot to the next; NaN where the shots cannot show one
    bool drifts = false;             // the shots agree far better with it
    bool moved = false;              // the tripod was moved between named turns
    bool consistent = true;          // an inconsistent check is no prior of anything
    // What it says of the errors together, for joining: inverse covariance, and that times the value.
    ErrorMatrix information{};
    ErrorVector pull{};
};

// What is asked of the instruments in this book.
struct Job {
    // By instrument and stretch, of those that read: metres; 0 where no distance is known.
    std::map<std::pair<std::size_t, std::int32_t>, double> longest_sights;
    double tolerance = NAN;  // tightest of the levels in the book, metres; NaN without one
};

Job job_of(const Book& book, const Where& where);

struct Trials {
    std::vector<TrialOutcome> outcomes;  // in the order of Book::trials
    CheckedInstruments checked;          // joined with the entries: the priors of readings
    Job job;
    Findings findings;
};

Trials check_instruments(const Book& book, const Where& where);

// "collimation", "cone", "tilt", or "tilt main" and "tilt cross" where only one of them is meant: of those
// `which` says.
std::vector<std::string> error_names(const std::array<bool, tested_errors>& tested,
                                     const std::array<bool, tested_errors>& which);

}  // namespace fallwright
