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
struct Maybe {
    double value = std::numeric_limits<double>::quiet_NaN();

    bool has() const { return !std::isnan(value); }
    double or_else(double other) const { return has() ? value : other; }
};

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
    std::uint32_t line = 0;
    NameId id = no_name;
    NameId by = no_name;
    Instant at = before_all;
    std::size_t offset = 0;  // of the line in Book::text
    std::uint32_t length = 0;
};

struct Benchmark {
    std::uint32_t entry = 0;
    NameId point = no_name;
    Decimal level;
    double sd = 0;  // 0: held fixed
    NameId source = no_name;
};

enum class InstrumentType : std::uint8_t { RotatingLaser, OpticalLevel, PipeLaser };

struct Keypad {
    bool main_plus_rises = true, cross_plus_rises = true;
    bool cross_right = true;
    bool permille = false;
    bool nested = false;
};

struct Instrument {
    std::uint32_t entry = 0;
    NameId name = no_name;
    InstrumentType type = InstrumentType::RotatingLaser;
    Maybe reading_sd, sd_per_m;
    std::array<double, 2> tilt{0, 0};  // main, cross
    Maybe tilt_sd, setting_tilt_sd;
    double cone = 0, collimation = 0;
    Maybe cone_sd, collimation_sd, aim_sd, grade_sd;
    double grade_gain_sd = 0, grade_step = 0;
    std::array<Maybe, 2> grade_limit;  // main, cross
    Maybe range;
    Keypad keypad;
};

struct Joint {
    double at = 0, step_sd = 0;
};

struct Staff {
    std::uint32_t entry = 0;
    NameId name = no_name;
    Maybe length, least_step;
    double zero = 0, zero_sd = 0, scale = 0, scale_sd = 0;
    std::vector<Joint> joints;
};

struct Receiver {
    std::uint32_t entry = 0;
    NameId name = no_name;
    Maybe window, dead_band;
};

// Where something is, as written: on the grid, along a line, or at a named point.
struct Position {
    enum class Kind : std::uint8_t { None, Grid, OnLine, AtPoint } kind = Kind::None;
    double e = 0, n = 0;
    NameId line = no_name;
    double ch = 0, off = 0;  // off: right positive
    NameId point = no_name;
};

struct PlaceEntry {
    std::uint32_t entry = 0;
    NameId point = no_name;
    Position position;
};

enum class LineUse : std::uint8_t { Drain, Road, Kerb, Slab, Other };
enum class Flow : std::uint8_t { Default, With, Against };

struct ProfilePoint {
    double ch = 0;
    Maybe level, gradient;  // gradient: from the point before
    NameId under = no_name;
    double by = 0;
    double curve = 0;
};

struct Crossfall {
    bool given = false;
    bool sides = false;  // left and right rise outwards; else one number rises to the right
    double left = 0, right = 0;
};

struct Pipe {
    double from = 0, to = 0;
    Maybe bore, wall, bedding, roughness, collar;
};

struct Chamber {
    NameId name = no_name;
    double ch = 0;
    Maybe in, out, cover, size;
};

struct Join {
    NameId line = no_name;
    double ch = 0;
    bool by_soffit = false;
};

struct Layer {
    NameId what = no_name;
    double thickness = 0;
};

struct WhatHeight {
    NameId what = no_name;
    double height = 0;
};

struct LineEntry {
    std::uint32_t entry = 0;
    NameId name = no_name;
    LineUse use = LineUse::Other;
    double start = 0;
    std::vector<std::array<double, 2>> plan;  // e, n
    std::vector<ProfilePoint> profile;
    Flow flow = Flow::Default;
    Crossfall crossfall;
    std::array<Maybe, 2> edges;
    std::vector<Pipe> pipes;
    std::vector<Chamber> chambers;
    std::vector<Join> joins;
    std::vector<double> outlets;
    std::vector<Layer> layers;
    std::vector<WhatHeight> whats;
};

// One axis of a light plane: dialled (0 when not given), or matched to something (null in the book).
struct Axis {
    bool matched = false;
    double dialled = 0;
};

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
    double head_sd = 0.001;
    std::array<Maybe, 2> shown;
    Maybe clamp;
    NameId staff = no_name;
    NameId receiver = no_name;
};

enum class Sight : std::uint8_t { Default, Back, Inter, Fore };
enum class On : std::uint8_t { Nothing, Invert, Soffit, Crown, Collar };
enum class Form : std::uint8_t { None, Staff, Mark, Clamp, ThreeWires };
enum class Deviation : std::uint8_t { High, Low, Offset };

// The value of a reading as booked. Staff: a. Mark: a is the mark, b what the receiver shows. Clamp: b only.
// ThreeWires: a, b, c are top, middle, bottom. Figures are 0 or more; `inverted` holds what the book says by
// sign or by the field.
struct Figure {
    Form form = Form::None;
    Deviation deviation = Deviation::Offset;
    bool inverted = false;
    Decimal a, b, c;
};

struct Reading {
    std::uint32_t entry = 0;
    NameId setup = no_name;      // as written, or the last one in time order
    std::int32_t setup_at = -1;  // its index in Book::setups
    NameId point = no_name;
    NameId line = no_name;
    NameId what = no_name;
    NameId staff = no_name;
    NameId receiver = no_name;
    Sight sight = Sight::Default;
    On on = On::Nothing;
    bool planned = false;
    bool older = false;  // of a surface that was relaid since
    Figure figure;
    double ch = 0, off = 0;
    Maybe dist, dist_sd, along, across, sd;
    Maybe least_step;  // read to; else the staff's
    double shoe = 0;
};

struct Step {
    std::uint32_t entry = 0;
    NameId from = no_name, to = no_name;
    double rise = 0;
    double sd = 0.002;
};

struct WhatEntry {
    std::uint32_t entry = 0;
    NameId name = no_name;
    Maybe foot_sd;
};

struct Tolerance {
    std::uint32_t entry = 0;
    NameId line = no_name, what = no_name;
    Maybe below, above, fall_min, fall_max;
    NameId source = no_name;
};

struct Shot {
    NameId station = no_name, peg = no_name, turn = no_name;
    Maybe dist, facing;
    Figure figure;
};

struct Trial {
    std::uint32_t entry = 0;
    NameId name = no_name, instrument = no_name;
    std::vector<Shot> shots;
    double limit = 0.0015;
};

struct SurfaceEntry {
    std::uint32_t entry = 0;
    NameId name = no_name, what = no_name;
    std::vector<NameId> points;
    std::vector<std::vector<NameId>> breaklines;
    std::vector<std::array<double, 2>> inside;
};

struct Want {
    std::uint32_t entry = 0;
    NameId line = no_name, surface = no_name, setup = no_name;
    Maybe every;
    std::vector<NameId> whats;
};

struct Rule {
    std::uint32_t entry = 0;
    NameId name = no_name, preset = no_name;
    NameId by = no_name;  // misclosure: sets, km or model
    Maybe a, d, p, sd, k;  // misclosure a; assumed-sight d; confidence p; expectation sd; refraction k
};

struct Relaid {
    std::uint32_t entry = 0;
    NameId line = no_name, what = no_name, why = no_name;
    Maybe from, to;
};

struct Adjusted {
    std::uint32_t entry = 0;
    NameId instrument = no_name, why = no_name;
};

struct Remark {
    std::uint32_t entry = 0;
    NameId text = no_name;
};

}  // namespace fallwright
