// Entries of a book as typed values: what was written, nothing derived.
//
// Lengths are metres (a book in feet is converted on reading), bearings degrees clockwise from grid north,
// tilt, cone, collimation and gradients length per length, uncertainties one standard deviation. What is not
// given is absent. Every struct begins with `entry`, its index in Book::entries.
#pragma once

#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <vector>

#include "base/decimal.h"
#include "book/names.h"
#include "book/time.h"

namespace fallwright {

// A number that may be absent.
// Absent is NaN inside, so arithmetic with an absent number stays absent.
struct Maybe {
    double value = std::numeric_limits<double>::quiet_NaN();

    bool has() const { return !std::isnan(value); }
    double or_else(double other) const { return has() ? value : other; }
};

// The kinds of contract section 1. Book is the first line; Unknown is kept and reported, never used.
enum class Kind : std::uint8_t {
    Book,
    Benchmark,
    Instrument,
    Staff,
    Receiver,
    Line,
    Place,
    Setup,
    Reading,
    Step,
    What,
    Tolerance,
    Trial,
    Surface,
    Want,
    Rule,
    Relaid,
    Adjusted,
    Amend,
    Strike,
    Remark,
    Unknown
};

// What every line has in common. `at` is its own time or that of the nearest entry above that has one.
struct Entry {
    Kind kind = Kind::Unknown;
    bool refused = false;  // not readable, or struck, or left out with a finding
    bool struck = false;
    std::uint32_t line = 0;  // in the file, from 1
    NameId id = no_name;
    NameId by = no_name;  // who
    Instant at = before_all;
    std::size_t offset = 0;  // of the line in Book::text
    std::uint32_t length = 0;
};

// A point whose level is given. One that is held fixed has no uncertainty of its own: results are then
// relative to it as given. A weighted one is an observation like any reading, so a second reading of it can
// show that it is off.
struct Benchmark {
    std::uint32_t entry = 0;
    NameId point = no_name;
    Decimal level;            // exact to 1e-7 m
    double sd = 0;            // 0: held fixed
    NameId source = no_name;  // where the level is from
};

// A pipe laser counts as a rotating laser in everything.
// Decides which defaults hold.
enum class InstrumentType : std::uint8_t { RotatingLaser, OpticalLevel, PipeLaser };

// How the machine itself writes a grade: the sign of rising, which side cross counts to, the unit, and
// whether the second axis tilts about the already tilted first one. Only what is shown to people and read off
// the machine is turned by it.
struct Keypad {
    bool main_plus_rises = true, cross_plus_rises = true;
    bool cross_right = true;
    bool permille = false;
    bool nested = false;
};

// Error figures of an instrument. Absent: the default of its type, said to be assumed. 0: that effect is
// switched off.
//   reading_sd, sd_per_m   of one reading: hypot(reading_sd, sd_per_m d); metres, and metres per metre of
//   sight tilt, tilt_sd          the body's lasting tilt, main and cross, rise per length, and how well it is
//   known setting_tilt_sd        what levelling up leaves, anew at each set-up cone, collimation      the
//   light or line of sight rises by as much per metre, all round aim_sd                 degrees; grade_sd,
//   grade_gain_sd: of a dialled gradient, absolute and in proportion grade_step, _limit     least step and
//   largest gradient of the keypad; range: metres
struct Instrument {
    std::uint32_t entry = 0;
    NameId name = no_name;
    InstrumentType type = InstrumentType::RotatingLaser;
    Maybe reading_sd, sd_per_m;
    std::array<double, 2> tilt{0, 0};  // main, cross
    Maybe tilt_sd, setting_tilt_sd;
    double cone = 0, collimation = 0;  // known by a check
    Maybe cone_sd, collimation_sd, aim_sd, grade_sd;
    double grade_gain_sd = 0, grade_step = 0;
    std::array<Maybe, 2> grade_limit;  // main, cross
    Maybe range;
    Keypad keypad;  // how the machine writes its grades
};

// A joint of a staff: figures above `at` are shifted by an unknown step of that sd.
struct Joint {
    double at = 0, step_sd = 0;
};

// zero: figures too large by as much; scale: too large by scale x figure; both known, with how well.
// least_step: `to`.
struct Staff {
    std::uint32_t entry = 0;
    NameId name = no_name;
    Maybe length, least_step;
    double zero = 0, zero_sd = 0, scale = 0, scale_sd = 0;
    std::vector<Joint> joints;
};

// window: half the range of the receiver's figures. dead_band changes no uncertainty.
struct Receiver {
    std::uint32_t entry = 0;
    NameId name = no_name;
    Maybe window, dead_band;
};

// Where something is, as written: on the grid, along a line, or at a named point.
// A set-up may stand at a point; a point may not.
struct Position {
    enum class Kind : std::uint8_t { None, Grid, OnLine, AtPoint } kind = Kind::None;
    double e = 0, n = 0;
    NameId line = no_name;
    double ch = 0, off = 0;  // off: right positive
    NameId point = no_name;
};

// Where a point is: on the grid, or along a line.
struct PlaceEntry {
    std::uint32_t entry = 0;
    NameId point = no_name;
    Position position;
};

// One axis of a light plane: dialled (0 when not given), or matched to something (null in the book).
struct Axis {
    bool matched = false;
    double dialled = 0;
};

// A set-up: one levelling-up of an instrument, or with `head` the same tripod with only the plane changed.
//   position       of the instrument; absent: u, v count from the first point read that has a place
//   bearing        degrees clockwise from grid north, or towards a point or line: the main axis
//   shown          what the instrument displays after a match; an observation of the gradient before tilt
//   clamp          the mark the receiver stays at, metres
struct Setup {
    std::uint32_t entry = 0;
    NameId name = no_name;
    NameId instrument = no_name;
    std::int32_t instrument_at = -1;  // index in Book::instruments
    std::int32_t head_at = -1;        // index in Book::setups, -1: no shared head
    Position position;
    std::array<Axis, 2> plane;  // main, cross; rise along main and to the right
    Maybe bearing;
    NameId towards = no_name;
    NameId head = no_name;
    double head_sd = 0.001;      // how far the head may have moved, metres
    std::array<Maybe, 2> shown;  // main, cross
    Maybe clamp;
    NameId staff = no_name;
    NameId receiver = no_name;
};

// As written. Default: the page takes it as back for a point already known and read first in the set-up,
// else inter.
enum class Sight : std::uint8_t { Default, Back, Inter, Fore };
// What of a pipe the staff stood on; levels are taken down to the invert.
enum class On : std::uint8_t { Nothing, Invert, Soffit, Crown, Collar };
// How a figure was got.
enum class Form : std::uint8_t { None, Staff, Mark, Clamp, ThreeWires };
// What the receiver shows: it stands above the light, below it, or an offset along the staff.
enum class Deviation : std::uint8_t { High, Low, Offset };

// The value of a reading as booked. Staff: a. Mark: a is the mark, b what the receiver shows. Clamp: b only.
// ThreeWires: a, b, c are top, middle, bottom. Figures are 0 or more; `inverted` holds what the book says by
// sign or by the field.
// Whether such a figure can be on the staff is judged later (staff/plausibility.h).
struct Figure {
    Form form = Form::None;
    Deviation deviation = Deviation::Offset;
    bool inverted = false;
    Decimal a, b, c;
};

// One reading, or a planned one without a figure. A point read on a line has line, ch, off (right positive)
// and what; its `point` is then the name made of these. along, across: u and v, they win over places. shoe
// adds to the figure.
struct Reading {
    std::uint32_t entry = 0;
    NameId setup = no_name;      // as written, or the last one in time order
    bool setup_is_last = false;  // not named: the last one
    std::int32_t setup_at = -1;  // its index in Book::setups
    NameId point = no_name;
    NameId line = no_name;
    NameId what = no_name;
    NameId staff = no_name;
    NameId receiver = no_name;
    Sight sight = Sight::Default;
    On on = On::Nothing;
    bool planned = false;  // no figure yet: for planning only
    bool older = false;    // of a surface that was relaid since
    Figure figure;
    double ch = 0, off = 0;  // where it is on a line
    Maybe dist, dist_sd, along, across, sd;
    Maybe least_step;  // read to; else the staff's
    double shoe = 0;   // metres under the staff's foot
};

// A difference of level carried by tape or spirit level.
struct Step {
    std::uint32_t entry = 0;
    NameId from = no_name, to = no_name;
    double rise = 0;  // from `from` to `to`, metres
    double sd = 0.002;
};

// How well the staff's foot finds such a surface, one standard deviation.
struct WhatEntry {
    std::uint32_t entry = 0;
    NameId name = no_name;
    Maybe foot_sd;
};

// One reading of an instrument check. facing: degrees clockwise from the main axis to the staff; absent: body
// not turned.
struct Shot {
    // All three are plain names of the check's own, no points of the book.
    NameId station = no_name, peg = no_name, turn = no_name;  // turn: which levelling-up
    Maybe dist, facing;
    Figure figure;
};

// An instrument check on site; limit: largest error allowed at 30 m, metres.
struct Trial {
    std::uint32_t entry = 0;
    NameId name = no_name, instrument = no_name;
    std::vector<Shot> shots;
    double limit = 0.0015;
};

// How likely a kind of blunder is beforehand (rule suspect-priors).
struct RulePrior {
    NameId kind = no_name;
    double p = 0;
};

// What the job says of its drains (rule hydraulics): friction of pipes that give no roughness of their own,
// the peak flow, and the figures it is held to besides or instead of a preset.
struct HydraulicsRule {
    Maybe roughness, manning;        // metres; s/m^(1/3): one of them
    Maybe viscosity;                 // m2/s
    Maybe flow, dwellings, closets;  // m3/s, or counts
    Maybe fall, velocity, drag;      // least: without a sign, m/s, N/m2
    NameId source = no_name;         // where they are from
};

// Local limits beside the general cautions (rule cautions), and sentences of the job's own.
struct CautionsRule {
    Maybe depth, egress, spoil;  // metres
    NameId source = no_name;
    std::vector<NameId> add;
};

// Cover, trench and spoil of pipes (rules cover, trench, spoil; followed by a line's name: of that line).
struct PipelayRule {
    Maybe least;                    // cover: over the crown, metres
    Maybe width, batter, surround;  // trench: at its bottom, sides out per depth, over the crown
    Maybe bulking, load;            // spoil: loose over in place less 1; m3 of one lorry
};

// How the book's grid becomes longitude and latitude (rule projection): a transverse Mercator projection of
// an ellipsoid, and where the ellipsoid's centre and axes lie from those of WGS 84. Metres, degrees.
struct ProjectionRule {
    NameId ellipsoid = no_name;              // named in preset/ellipsoids.h, or by its two figures
    Maybe a, inverse_flattening;             // of the ellipsoid
    Maybe latitude, longitude;               // natural origin, on that ellipsoid
    double scale = 1;                        // on the central meridian
    double false_east = 0, false_north = 0;  // coordinates of the natural origin
    bool shifted = false;                    // shift, turn and ppm are stated
    std::array<double, 3> shift{}, turn{};   // to WGS 84: metres; arc-seconds, of the position vector
    double ppm = 0;                          // scale of the shift less 1, parts in a million

    bool given() const { return longitude.has(); }
};

// A rule of the job: which preset, or which values. Only the values of the rules this version uses are read.
struct Rule {
    std::uint32_t entry = 0;
    NameId name = no_name, preset = no_name;
    NameId by = no_name;   // misclosure: sets, km or model
    Maybe a, d, p, sd, k;  // misclosure a; assumed-sight d; confidence p; expectation sd; refraction k
    std::vector<RulePrior> priors;  // suspect-priors
    HydraulicsRule hydraulics;
    CautionsRule cautions;
    PipelayRule pipelay;
    ProjectionRule projection;
};

// The instrument was adjusted: checks and readings before no longer speak for it.
struct Adjusted {
    std::uint32_t entry = 0;
    NameId instrument = no_name, why = no_name;
};

// An amendment taken over from a suspicion: flagged until that point is read again (`settle` of the amend).
struct OnSuspicion {
    std::uint32_t entry = 0;  // of the amend
    NameId point = no_name;
};

// A person's words; they change nothing.
struct Remark {
    std::uint32_t entry = 0;
    NameId text = no_name;
};

}  // namespace fallwright
