#include "shells/cli/people_surfaces.h"

#include <cmath>

#include "base/print.h"
#include "dial/card.h"
#include "shells/cli/table.h"
#include "shells/cli/words.h"
#include "verdict/verdict.h"

namespace fallwright::cli {

namespace {

using ground::BestPlane;
using ground::BookSpot;
using ground::Flatness;
using ground::SurfacePond;
using ground::SurfaceVolume;
using ground::SurveyedSurface;

constexpr std::size_t most_points_in_a_table = 60;
constexpr double cubic_feet_per_yard = 27;
constexpr int bearing_places = 1, coordinate_places = 2, volume_places = 1, water_places = 3;

class SurfaceText {
  public:
    SurfaceText(const Evaluation& evaluation, const SurveyedSurface& surface)
        : evaluation_(evaluation),
          book_(*evaluation.book),
          unit_(book_.unit),
          surface_(surface),
          spots_(surface.ready.inner) {}

    std::string text() const {
        std::string all = "\nSurface " + book_.name(surface_.ready.entry->name) + ": ";
        if (!surface_.made) return all + "cannot be made, see below\n";
        all += std::to_string(spots_.size()) + " points, " + area(surface_.area) + " in plan";
        if (surface_.lowest >= 0)
            all += "; lowest " + at(surface_.lowest) + ", highest " + at(surface_.highest);
        all += "\n";
        return all + plane() + dials() + volumes() + ponds() + flatness() + contours() + points() + levels();
    }

  private:
    std::string mm() const { return " " + small_unit(unit_); }
    std::string name(std::int32_t spot) const {
        return book_.name(spots_[static_cast<std::size_t>(spot)].name);
    }
    std::string at(std::int32_t spot) const {
        return name(spot) + " " + level(spots_[static_cast<std::size_t>(spot)].level, unit_);
    }
    std::string area(double square_metres) const {
        const double unit = book_.metres_per_unit();
        return fixed(square_metres / (unit * unit), 1) + (unit_ == Unit::Foot ? " sq ft" : " m2");
    }
    // Cubic metres, or cubic yards in a book in feet.
    std::string volume(double cubic_metres) const {
        const double unit = book_.metres_per_unit();
        const double scale = unit_ == Unit::Foot ? unit * unit * unit * cubic_feet_per_yard : 1;
        return std::isnan(cubic_metres) ? "" : fixed(cubic_metres / scale, volume_places);
    }
    // Of water: cubic metres to the litre, cubic feet.
    std::string water(double cubic_metres) const {
        const double unit = book_.metres_per_unit();
        const int places = unit_ == Unit::Foot ? volume_places : water_places;
        return fixed(cubic_metres / (unit * unit * unit), places);
    }
    std::string volume_unit() const { return unit_ == Unit::Foot ? "cu yd" : "m3"; }

    std::string plane() const {
        if (!surface_.plane) return "  its points lie on one line: no plane fits them\n";
        const BestPlane& plane = *surface_.plane;
        std::string text = "  the plane that fits best: ";
        if (std::isnan(plane.falls_to)) {
            text += "level";
        } else {
            text += gradient(-plane.steepest) + " ± " + gradient_sd(plane.steepest_sd) + " towards " +
                    fixed(plane.falls_to, bearing_places) + "°";
        }
        text += "; " + level(plane.level, unit_) + " ± " + small(plane.level_sd, unit_) + mm() +
                " in the middle\n    how even: " + small(plane.rms, unit_) + mm() + " off it (rms), " +
                name(plane.highest.spot) + " " + signed_small(plane.highest.off, unit_) + " ± " +
                small(plane.highest.sd, unit_) + mm() + ", " + name(plane.lowest.spot) + " " +
                signed_small(plane.lowest.off, unit_) + " ± " + small(plane.lowest.sd, unit_) + mm() + "\n";
        return text + "    for a main axis at " +
               fixed(bearing_of(plane.heading.e, plane.heading.n), bearing_places) + "°: main (X) " +
               gradient(plane.along.main) + ", cross (Y) " + gradient(plane.along.cross) + "\n";
    }

    std::string dials() const {
        std::string text;
        for (const Dial& dial : evaluation_.dials.dials) {
            if (dial.surface != surface_.ready.entry->name) continue;
            const Setup& setup = book_.setups[dial.setup];
            const Instrument& machine = book_.instruments[static_cast<std::size_t>(setup.instrument_at)];
            text += "    set on the laser in " + book_.name(setup.name) + ": main (X) " +
                    keyed_text(machine, dial.keyed.main) + ", cross (Y) " +
                    keyed_text(machine, dial.keyed.cross);
            if (dial.proof)
                text += "; proof " + book_.name(dial.proof->point) + " " + level(dial.proof->staff, unit_);
            text += "\n";
        }
        return text;
    }

    std::string target(const SurfaceVolume& volume) const {
        const SurfaceTarget& target = *volume.target;
        std::string text = target.name != no_name      ? book_.name(target.name)
                           : target.surface != no_name ? book_.name(target.surface)
                           : target.sloped             ? "plane"
                                                       : "level " + level(target.level.value, unit_);
        if (target.by != 0 && target.name == no_name) text += " less " + level(target.by, unit_);
        return text;
    }

    std::string volumes() const {
        if (surface_.volumes.empty()) return "";
        Table table({{"to", Align::Left},
                     {"cut"},
                     {"±"},
                     {"fill"},
                     {"±"},
                     {"net"},
                     {"±"},
                     {"left over"},
                     {"nothing left over", Align::Left},
                     {"± " + small_unit(unit_)}});
        for (const SurfaceVolume& found : surface_.volumes) {
            table.add({target(found), volume(found.work.cut), volume(found.cut_sd), volume(found.work.fill),
                       volume(found.fill_sd), volume(found.work.net()), volume(found.net_sd),
                       volume(found.surplus), balance(found), small(found.raised_sd, unit_)});
        }
        return "  What is to be dug and filled, " + volume_unit() + "\n" + indented(table.text()) + loose() +
               "    How the ground runs between the points is in no ±.\n";
    }

    std::string balance(const SurfaceVolume& found) const {
        if (std::isnan(found.raised)) return "";
        if (found.target->level.has())
            return "level " + level(found.target->level.value + found.raised, unit_);
        return level(std::fabs(found.raised), unit_) + (found.raised < 0 ? " lower" : " higher");
    }

    std::string loose() const {
        const SurfaceEntry& entry = *surface_.ready.entry;
        std::string text;
        for (const SurfaceVolume& found : surface_.volumes) {
            if (entry.strip > 0)
                text += "    " + target(found) + ": " + volume(found.strip) + " " + volume_unit() +
                        " stripped first, " + level(entry.strip, unit_) + " deep all over\n";
            if (entry.bulking > 0)
                text += "    " + target(found) + ": what is cut is " + volume(found.loose) + " " +
                        volume_unit() + " loose\n";
        }
        return text;
    }

    std::string ponds() const {
        if (!surface_.water.drains) return "";
        if (surface_.water.ponds.empty()) return "  No hollow that the points show would hold water.\n";
        const double confidence = confidence_of(book_);
        Table table({{"lowest at", Align::Left},
                     {"deep, " + small_unit(unit_)},
                     {"±"},
                     {"sure"},
                     {"over"},
                     {unit_ == Unit::Foot ? "holds, cu ft" : "holds, m3"},
                     {"spills at", Align::Left},
                     {"level"},
                     {"", Align::Left}});
        for (const SurfacePond& pond : surface_.water.ponds) {
            const bool told = rounded_to(pond.probability, probability_places) >= confidence;
            table.add({corner(pond.low), small(pond.depth, unit_), small(pond.depth_sd, unit_),
                       percent(pond.probability), area(pond.area), water(pond.volume), corner(pond.sill),
                       level(pond.sill.level, unit_), told ? "" : "too close to call"});
        }
        std::string text = "  Where water will stand\n" + indented(table.text());
        if (surface_.water.more > 0)
            text += "    and " + std::to_string(surface_.water.more) + " more, less deep\n";
        return text;
    }

    std::string corner(const ground::WaterCorner& corner) const {
        if (corner.name != no_name) return book_.name(corner.name);
        return fixed(book_.in_unit(corner.e), coordinate_places) + ", " +
               fixed(book_.in_unit(corner.n), coordinate_places);
    }

    std::string flatness() const {
        if (surface_.flatness.empty()) return "";
        Table table({{"table", Align::Left},
                     {"", Align::Left},
                     {"looked at"},
                     {"outside"},
                     {"worst, " + small_unit(unit_)},
                     {"±"},
                     {"of"},
                     {"over"},
                     {"at", Align::Left},
                     {"", Align::Left}});
        for (const Flatness& found : surface_.flatness) table.add(flatness_row(found));
        return "  How flat\n" + indented(table.text());
    }

    std::vector<std::string> flatness_row(const Flatness& found) const {
        const std::string preset(found.preset->name);
        const std::string rule(preset::flatness_rule_word(found.criterion->rule));
        if (found.checks == 0) return {preset, rule, "0", "", "", "", "", "", "", "cannot be told"};
        std::string where;
        for (const std::int32_t spot : found.worst.spots) {
            if (spot >= 0) where += (where.empty() ? "" : ", ") + name(spot);
        }
        return {preset,
                rule,
                std::to_string(found.checks),
                std::to_string(found.outside),
                signed_small(found.worst.value, unit_),
                small(found.worst.sd, unit_),
                small(found.worst.limit, unit_),
                level(found.worst.base, unit_),
                where,
                judged(found)};
    }

    static std::string judged(const Flatness& found) {
        const std::string plain = found.plain_within ? "within" : "outside";
        if (found.verdict == Verdict::Untested) return plain + " as measured; from memory, no verdict";
        if (found.verdict == Verdict::Undecided)
            return "too close to call: " + plain + " as measured, " + percent(found.probability) +
                   " sure all within";
        return std::string(verdict_word(found.verdict)) + ", " + percent(found.probability) +
               " sure all within";
    }

    // What to draw goes to a file; here only that there is something.
    std::string contours() const {
        if (surface_.contours.empty()) return "";
        return "  Contours: " + std::to_string(surface_.contours.size()) + " lines from " +
               level(surface_.contours.front().level, unit_) + " to " +
               level(surface_.contours.back().level, unit_) + "\n";
    }

    std::string points() const {
        if (spots_.size() > most_points_in_a_table || !surface_.plane) return "";
        std::vector<Table::Column> columns = {
            {"point", Align::Left}, {"level"}, {"± " + small_unit(unit_)}, {"off the plane," + mm()}};
        for (const SurfaceVolume& found : surface_.volumes) {
            columns.push_back({"to " + target(found)});
            columns.push_back({"", Align::Left});
        }
        Table table(columns);
        for (std::size_t i = 0; i < spots_.size(); ++i) {
            const double sd = evaluation_.model->levels[static_cast<std::size_t>(spots_[i].point)].sd;
            std::vector<std::string> cells = {book_.name(spots_[i].name), level(spots_[i].level, unit_),
                                              small(sd, unit_), signed_small(surface_.plane->off[i], unit_)};
            for (const SurfaceVolume& found : surface_.volumes) {
                const double dig = rounded_to(book_.in_unit(found.digs[i].dig), 3);
                cells.push_back(level(std::fabs(found.digs[i].dig), unit_));
                cells.emplace_back(dig > 0 ? "dig" : dig < 0 ? "fill" : std::isnan(dig) ? "" : "on");
            }
            table.add(cells);
        }
        return "  Point by point\n" + indented(table.text());
    }

    std::string levels() const {
        if (surface_.levels.empty()) return "";
        Table table({{"east"}, {"north"}, {"level"}, {"± " + small_unit(unit_)}});
        for (const ground::GridLevel& corner : surface_.levels)
            table.add({fixed(book_.in_unit(corner.e), coordinate_places),
                       fixed(book_.in_unit(corner.n), coordinate_places), level(corner.level, unit_),
                       small(corner.sd, unit_)});
        return "  Levels on a grid\n" + indented(table.text());
    }

    static std::string indented(const std::string& lines) {
        std::string text = "  ";
        for (const char c : lines) {
            text += c;
            if (c == '\n') text += "  ";
        }
        text.resize(text.size() - 2);
        return text;
    }

    const Evaluation& evaluation_;
    const Book& book_;
    Unit unit_;
    const SurveyedSurface& surface_;
    const std::vector<BookSpot>& spots_;
};

}  // namespace

std::string surfaces_text(const Evaluation& evaluation) {
    std::string text;
    for (const SurveyedSurface& surface : evaluation.surveys.surfaces)
        text += SurfaceText(evaluation, surface).text();
    return text;
}

}  // namespace fallwright::cli
