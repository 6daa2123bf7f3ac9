#include "dial/dial.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <tuple>
#include <utility>

#include "base/print.h"
#include "dial/setter.h"
#include "fall/falls.h"

namespace fallwright {

namespace {

class LineDialler {
  public:
    LineDialler(const DialBasis& basis, std::size_t line, std::size_t setup)
        : basis_(basis),
          index_(line),
          line_(basis.book.lines[line]),
          design_(basis.designs.lines[line]),
          setter_(basis, setup, dials_.findings) {}

    Dials run() {
        if (!setter_.can_tilt()) {
            setter_.say(Code::DialNoTilt, {name()}, "an optical level cannot be set to " + name());
            return std::move(dials_);
        }
        const std::vector<PlaneStretch> planes = design_.planes(levels_found(basis_.model));
        const std::vector<Twist> twists = design_.twists();
        if (planes.empty() && twists.empty())
            setter_.say(Code::DialNoDesign, {name()}, "line " + name() + " has no straight design to follow");
        for (const PlaneStretch& plane : planes) dial_stretch(plane);
        forgive_other_stretches();
        say_curves();
        say_twists(twists);
        say_camber(planes);
        return std::move(dials_);
    }

  private:
    void dial_stretch(const PlaneStretch& plane) {
        const PlanLine plan(line_, static_cast<std::int32_t>(index_));
        WantedPlane wanted;
        wanted.along = {plane.gradient, plane.crossfall};
        wanted.across_given = line_.crossfall.given();
        wanted.from = plan.at(plane.from, 0);
        wanted.to = plan.at(plane.to, 0);
        wanted.heading = way(wanted.from, wanted.to);
        wanted.about = {name()};
        wanted.name = name() + " from " + chainage(plane.from) + " to " + chainage(plane.to);
        const double sd = gradient_sd(plane);
        if (!worth_setting(plane.gradient, sd)) {
            setter_.say(Code::DialBaselineShort, {name()},
                        wanted.name + " falls as points found say, and they tell its gradient of " +
                            trimmed(plane.gradient * 100, 3) + " % only to " + trimmed(sd * 100, 3) + " %");
            return;
        }
        Dial dial;
        dial.line = line_.name;
        dial.from = plane.from;
        dial.to = plane.to;
        dial.side = !plane.to_left ? DialSide::Right : !plane.to_right ? DialSide::Left : DialSide::Both;
        if (!setter_.set(wanted, dial)) return;
        dial.grades_sd = spread(sd, dial, plane);
        dials_.dials.push_back(dial);
    }

    // A set-up that is set to one stretch of the line is not wrong for the others.
    void forgive_other_stretches() {
        const std::vector<Dial>& dials = dials_.dials;
        if (std::none_of(dials.begin(), dials.end(), [](const Dial& dial) { return dial.as_in_book; }))
            return;
        Findings& all = dials_.findings;
        all.erase(std::remove_if(all.begin(), all.end(),
                                 [](const Finding& each) { return each.code == Code::DialDiffers; }),
                  all.end());
    }

    // A profile that hangs under points found is as uncertain as they are.
    double gradient_sd(const PlaneStretch& plane) const {
        const DesignLevel gradient = design_.gradient((plane.from + plane.to) / 2, Side::After);
        std::vector<PointTerm> sum;
        for (const Hang& hang : gradient.hangs)
            sum.push_back({basis_.model.points.at(hang.point), hang.coefficient});
        return sum.empty() ? 0 : std::sqrt(basis_.model.variance_of(sum));
    }

    // In proportion to what each axis has of the line's gradient.
    static Axes spread(double sd, const Dial& dial, const PlaneStretch& plane) {
        if (sd == 0 || plane.gradient == 0) return {sd, 0};
        return {std::fabs(dial.grades.main / plane.gradient) * sd,
                std::fabs(dial.grades.cross / plane.gradient) * sd};
    }

    void say_curves() {
        std::string where;
        for (const ProfilePiece& piece : design_.profile().pieces()) {
            if (piece.curved)
                where += (where.empty() ? "" : ", ") + chainage(piece.from) + " to " + chainage(piece.to);
        }
        if (!where.empty())
            setter_.say(Code::DialTwoPlanes, {name()},
                        "line " + name() + " is curved from " + where + ": no plane follows it there");
    }

    void say_twists(const std::vector<Twist>& twists) {
        std::string where;
        for (const Twist& twist : twists) {
            where += where.empty() ? "" : ", ";
            where += twist.left ? "its left side from " : "its right side from ";
            where += chainage(twist.from) + " to " + chainage(twist.to);
        }
        if (!where.empty())
            setter_.say(Code::DialTwisted, {name()},
                        "line " + name() + " is twisted, " + where + ": no plane follows it there");
    }

    void say_camber(const std::vector<PlaneStretch>& planes) {
        bool left = false;
        bool right = false;
        for (const PlaneStretch& plane : planes) {
            left = left || !plane.to_right;
            right = right || !plane.to_left;
        }
        if (left && right)
            setter_.say(Code::DialTwoPlanes, {name()},
                        "line " + name() + " has a camber: its two sides are two planes, set one at a time");
    }

    static Heading way(const Spot& from, const Spot& to) {
        const double e = to.e - from.e;
        const double n = to.n - from.n;
        const double length = std::sqrt(e * e + n * n);
        return length > 0 ? Heading{true, e / length, n / length} : Heading{};
    }

    std::string name() const { return basis_.book.name(line_.name); }
    std::string chainage(double ch) const { return fixed(basis_.book.in_unit(ch), 3); }

    const DialBasis& basis_;
    std::size_t index_;
    const LineEntry& line_;
    const Design& design_;
    Dials dials_;
    DialSetter setter_;
};

}  // namespace

Dials dial_line(const DialBasis& basis, std::size_t line, std::size_t setup) {
    return LineDialler(basis, line, setup).run();
}

namespace {

// Of what a want names; nothing where it cannot be set.
Dials dial_want(const DialBasis& basis, const std::vector<DialSurface>& surfaces, std::int32_t line,
                NameId surface, std::size_t setup) {
    if (line >= 0) return dial_line(basis, static_cast<std::size_t>(line), setup);
    for (const DialSurface& each : surfaces) {
        if (each.name == surface) return dial_surface(basis, each, setup);
    }
    return {};
}

}  // namespace

Dials dial_wants(const DialBasis& basis, const std::vector<DialSurface>& surfaces) {
    Dials all;
    const ByName lines(basis.book.lines);
    const ByName setups(basis.book.setups);
    std::set<std::tuple<std::int32_t, NameId, std::int32_t>> done;
    for (const Want& want : basis.book.wants) {
        const std::int32_t line = want.line == no_name ? -1 : lines(want.line);
        const std::int32_t setup = want.setup == no_name ? -1 : setups(want.setup);
        if (setup < 0) continue;
        // Two tables of one line from one set-up (other surfaces, another interval) need one setting.
        if (!done.emplace(line, want.surface, setup).second) continue;
        const Dials one = dial_want(basis, surfaces, line, want.surface, static_cast<std::size_t>(setup));
        all.dials.insert(all.dials.end(), one.dials.begin(), one.dials.end());
        all.findings.insert(all.findings.end(), one.findings.begin(), one.findings.end());
    }
    return all;
}

}  // namespace fallwright
