// design: what is wanted on each line of a book: levels of every surface, gradients, and where to look.
//
// A line's profile with its chambers and curves (vertices.h, profile.h), its surfaces above and below it
// (heights.h, pipe_run.h), crossfall, the way water runs (flow.h) and what other lines fix (joins). Nothing
// here is measured, and no level need be solved to build it: where a profile hangs under a point, its levels
// are sums over that point (design_level.h).
//
// Across the line a level rises by crossfall (across.h): one number rises to the right; a pair [left, right]
// rises outwards on each side, so a camber is a pair of negatives; several along the line run into each
// other; none: level across. It goes on beyond the edges, as formation does. Along the line there is no
// design beyond the ends of the profile: absent.
//
// A join fixes an end of the line: the other line's invert there, or its soffit less the own bore. One join
// is the downstream end's; of two, the second is the upstream end's. At a chamber or where pipes meet, the
// other line counts as it leaves. Joins that lead back to where they began are refused, all of that circle;
// the ends are then as the lines themselves say.
//
// All metres, ratios and chainages; offsets right positive. What is wrong in a line is a finding with the
// cure, that part has no design, the rest stands. Total over every book.
#pragma once

#include <vector>

#include "base/finding.h"
#include "book/book.h"
#include "design/across.h"
#include "design/flow.h"
#include "design/heights.h"
#include "design/pipe_run.h"
#include "design/profile.h"

namespace fallwright {

// A chainage that a table of the line should not pass over.
enum class OwnPointKind : std::uint8_t {
    ProfilePoint,
    CurveStart,
    CurveEnd,
    Summit,
    Low,
    Crossfall,  // where it turns, and where a side is level or both are one plane between (Across::turns)
    Chamber,
    PipeEnd
};
struct OwnPoint {
    double ch = 0;
    OwnPointKind kind = OwnPointKind::ProfilePoint;
};

// A stretch of the line's own surface that is one plane: one straight grade, one crossfall that stays, one
// direction in plan. With a camber there are two beside each other.
struct PlaneStretch {
    double from = 0, to = 0;               // chainages
    double level = 0;                      // at `from`, on the line
    double gradient = 0;                   // with chainage
    double crossfall = 0;                  // rising to the right
    bool to_left = true, to_right = true;  // the sides of the line it covers
};

// A stretch within the profile where a side of the line is twisted: its crossfall changes along it.
struct Twist {
    double from = 0, to = 0;  // chainages
    bool left = false;        // which side
};

class Design {
  public:
    // The line stands in the book, which outlives this. profile: with the joins of the line applied.
    Design(const Book& book, const LineEntry& line, BuiltFlow flow, Profile profile);

    const LineEntry& line() const { return *line_; }
    bool any() const { return profile_.any(); }  // whether any level is wanted
    const Profile& profile() const { return profile_; }
    const PipeRun& pipes() const { return pipes_; }
    const Heights& heights() const { return heights_; }

    // Which way water runs, where levels may be needed to tell.
    bool runs_with_chainage(const LevelOf& level_of) const;
    // The side of a chainage that a surface belongs to where the profile steps or pipes meet: the upstream
    // one for laid in, the downstream one for all else.
    Side side_of(const DesignSurface& surface) const;

    // Level of a surface; absent where it has none: an unknown `what`, beyond the ends, along a refused
    // curve, no pipe there with what it counts from. Without a side: side_of(surface).
    DesignLevel level(const DesignSurface& surface, double ch, double off = 0) const;
    DesignLevel level(const DesignSurface& surface, double ch, double off, Side side) const;
    // The same by name, for a single question.
    DesignLevel level(std::string_view what, double ch, double off = 0) const;
    // Of the profile; every surface of the line that keeps its height above it has the same.
    DesignLevel gradient(double ch, Side side) const { return profile_.gradient(ch, side); }
    DesignLevel curvature(double ch, Side side) const { return profile_.curvature(ch, side); }
    // Height of a surface above the profile on the line itself; NaN where it has none.
    double height(const DesignSurface& surface, double ch, Side side) const;
    // Rise from the line to an offset by crossfall; NaN where its chainages are out of order.
    double rise_across(double ch, double off) const { return across_.rise(ch, off); }
    const Across& across() const { return across_; }
    // Offsets of the edges, left and right; absent where not given or where the left one is not left of the
    // right one.
    std::array<Maybe, 2> edges() const;

    // By rising chainage; a chainage may stand more than once, with another kind. Within the ends only.
    // Summits and lows of curves that lean on points found need their levels; without, they are left out.
    std::vector<OwnPoint> own_points(const LevelOf& level_of) const;
    // By rising chainage, left before right. Stretches whose levels are not there are left out, and curves,
    // which are no planes. A level stretch without crossfall goes on round corners of the plan; corners under
    // 0.001 rad, far below what an axis can be aimed to, do not count.
    std::vector<PlaneStretch> planes(const LevelOf& level_of) const;
    // Sides the line does not have (edges) left out; left before right, by rising chainage.
    std::vector<Twist> twists() const;

  private:
    std::array<bool, 2> sides() const;  // whether it has a left and a right one

    const LineEntry* line_;
    BuiltFlow flow_;
    Profile profile_;
    PipeRun pipes_;
    Heights heights_;
    Across across_;
};

struct Designs {
    std::vector<Design> lines;  // by index in Book::lines
    Findings findings;
};

Designs design_lines(const Book& book);

// How far to take each reading down from where the staff stood to the invert (its `on`), metres by index in
// Book::readings: soffit bore, crown bore + wall, collar crown + its rise, invert and no `on` 0. Taken only
// where laid, laid in, laid out or invert is read, with a finding for others, as their designs count from
// where the staff stood. NaN, with a finding: no pipe there, or nothing known of it, so the reading speaks of
// no level that can be told.
struct TakenDown {
    std::vector<double> readings;
    Findings findings;
};
TakenDown take_down(const Book& book, const Designs& designs);

}  // namespace fallwright
