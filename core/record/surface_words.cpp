#include "record/surface_words.h"

#include <cmath>

#include "base/print.h"
#include "dial/card.h"
#include "record/words.h"
#include "verdict/verdict.h"

namespace fallwright::record {

namespace {

using ground::BestPlane;
using ground::BookSpot;
using ground::Flatness;
using ground::SurfacePond;
using ground::SurfaceVolume;
using ground::SurveyedSurface;

constexpr double cubic_feet_per_yard = 27;
constexpr int bearing_places = 1, coordinate_places = 2, volume_places = 1, water_places = 3;

class SurfaceTale {
  public:
    SurfaceTale(const Evaluation& evaluation, const SurveyedSurface& surface, std::size_t most_points)
        : evaluation_(evaluation),
          book_(*evaluation.book),
          unit_(book_.unit),
          surface_(surface),
          spots_(surface.ready.inner),
          most_points_(most_points) {}

    std::vector<Told> tell() {
        std::string head = "Surface " + book_.name(surface_.ready.entry->name) + ": ";
        if (!surface_.made) {
            tale_.say(0, head + "cannot be made, see below");
            return std::move(tale_).take();
        }
        head += counted(spots_.size(), "point", "points") + ", " + area(surface_.area) + " in plan";
        if (surface_.lowest >= 0)
            head += "; lowest " + at(surface_.lowest) + ", highest " + at(surface_.highest);
        tale_.say(0, head);
        plane();
        dials();
        volumes();
        ponds();
        flatness();
        contours();
        points();
        levels();
        return std::move(tale_).take();
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

    void plane() {
        if (!surface_.plane) return tale_.say(1, "its points lie on one line: no plane fits them");
        const BestPlane& plane = *surface_.plane;
        std::string text = "the plane that fits best: ";
        if (std::isnan(plane.falls_to)) {
            text += "level";
        } else {
            text += gradient(-plane.steepest) + " \u00b1 " + gradient_sd(plane.steepest_sd) + " towards " +
                    fixed(plane.falls_to, bearing_places) + "\u00b0";
        }
        tale_.say(1, text + "; " + level(plane.level, unit_) + " \u00b1 " + small(plane.level_sd, unit_) +
                         mm() + " in the middle");
        tale_.say(2, "how even: " + small(plane.rms, unit_) + mm() + " off it (rms), " +
                         name(plane.highest.spot) + " " + signed_small(plane.highest.off, unit_) +
                         " \u00b1 " + small(plane.highest.sd, unit_) + mm() + ", " + name(plane.lowest.spot) +
                         " " + signed_small(plane.lowest.off, unit_) + " \u00b1 " +
                         small(plane.lowest.sd, unit_) + mm());
        tale_.say(2, "for a main axis at " +
                         fixed(bearing_of(plane.heading.e, plane.heading.n), bearing_places) +
                         "\u00b0: main (X) " + gradient(plane.along.main) + ", cross (Y) " +
                         gradient(plane.along.cross));
    }

    void dials() {
        for (const Dial& dial : evaluation_.dials.dials) {
            if (dial.surface != surface_.ready.entry->name) continue;
            const Setup& setup = book_.setups[dial.setup];
            const Instrument& machine = book_.instruments[static_cast<std::size_t>(setup.instrument_at)];
            std::string text = "set on the laser in " + book_.name(setup.name) + ": main (X) " +
                               keyed_text(machine, dial.keyed.main) + ", cross (Y) " +
                               keyed_text(machine, dial.keyed.cross);
            if (dial.proof)
                text += "; proof " + book_.name(dial.proof->point) + " " + level(dial.proof->staff, unit_);
            tale_.say(2, std::move(text));
        }
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

    void volumes() {
        if (surface_.volumes.empty()) return;
        Rows rows("", {words_column("to"), figure_column("cut"), figure_column("\u00b1"),
                       figure_column("fill"), figure_column("\u00b1"), figure_column("net"),
                       figure_column("\u00b1"), figure_column("left over"), words_column("nothing left over"),
                       figure_column("\u00b1 " + small_unit(unit_))});
        for (const SurfaceVolume& found : surface_.volumes) {
            rows.add({target(found), volume(found.work.cut), volume(found.cut_sd), volume(found.work.fill),
                      volume(found.fill_sd), volume(found.work.net()), volume(found.net_sd),
                      volume(found.surplus), balance(found), small(found.raised_sd, unit_)});
        }
        tale_.say(1, "What is to be dug and filled, " + volume_unit());
        tale_.table(2, std::move(rows));
        loose();
        tale_.say(2, "How the ground runs between the points is in no \u00b1.");
    }

    std::string balance(const SurfaceVolume& found) const {
        if (std::isnan(found.raised)) return "";
        if (found.target->level.has())
            return "level " + level(found.target->level.value + found.raised, unit_);
        return level(std::fabs(found.raised), unit_) + (found.raised < 0 ? " lower" : " higher");
    }

    void loose() {
        const SurfaceEntry& entry = *surface_.ready.entry;
        for (const SurfaceVolume& found : surface_.volumes) {
            if (entry.strip > 0)
                tale_.say(2, target(found) + ": " + volume(found.strip) + " " + volume_unit() +
                                 " stripped first, " + level(entry.strip, unit_) + " deep all over");
            if (entry.bulking > 0)
                tale_.say(2, target(found) + ": what is cut is " + volume(found.loose) + " " + volume_unit() +
                                 " loose");
        }
    }

    void ponds() {
        if (!surface_.water.drains) return;
        if (surface_.water.ponds.empty())
            return tale_.say(1, "No hollow that the points show would hold water.");
        const double confidence = confidence_of(book_);
        Rows rows("", {words_column("lowest at"), figure_column("deep, " + small_unit(unit_)),
                       figure_column("\u00b1"), figure_column("sure"), figure_column("over"),
                       figure_column(unit_ == Unit::Foot ? "holds, cu ft" : "holds, m3"),
                       words_column("spills at"), figure_column("level"), words_column("")});
        for (const SurfacePond& pond : surface_.water.ponds) {
            const bool told = rounded_to(pond.probability, probability_places) >= confidence;
            rows.add({corner(pond.low), small(pond.depth, unit_), small(pond.depth_sd, unit_),
                      percent(pond.probability), area(pond.area), water(pond.volume), corner(pond.sill),
                      level(pond.sill.level, unit_), told ? "" : "too close to call"});
        }
        tale_.say(1, "Where water will stand");
        tale_.table(2, std::move(rows));
        if (surface_.water.more > 0)
            tale_.say(2, "and " + std::to_string(surface_.water.more) + " more, less deep");
    }

    std::string corner(const ground::WaterCorner& corner) const {
        if (corner.name != no_name) return book_.name(corner.name);
        return fixed(book_.in_unit(corner.e), coordinate_places) + ", " +
               fixed(book_.in_unit(corner.n), coordinate_places);
    }

    void flatness() {
        Rows rows("", {words_column("table"), words_column(""), figure_column("looked at"),
                       figure_column("outside"), figure_column("worst, " + small_unit(unit_)),
                       figure_column("\u00b1"), figure_column("of"), figure_column("over"),
                       words_column("at"), words_column("")});
        for (const Flatness& found : surface_.flatness) rows.add(flatness_row(found));
        if (rows.empty()) return;
        tale_.say(1, "How flat");
        tale_.table(2, std::move(rows));
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
    void contours() {
        if (surface_.contours.empty()) return;
        tale_.say(1, "Contours: " + std::to_string(surface_.contours.size()) + " lines from " +
                         level(surface_.contours.front().level, unit_) + " to " +
                         level(surface_.contours.back().level, unit_));
    }

    void points() {
        if ((most_points_ > 0 && spots_.size() > most_points_) || !surface_.plane) return;
        std::vector<sheet::Table::Column> columns = {words_column("point"), figure_column("level"),
                                                     figure_column("\u00b1 " + small_unit(unit_)),
                                                     figure_column("off the plane," + mm())};
        for (const SurfaceVolume& found : surface_.volumes) {
            columns.push_back(figure_column("to " + target(found)));
            columns.push_back(words_column(""));
        }
        Rows rows("", std::move(columns));
        for (std::size_t i = 0; i < spots_.size(); ++i) {
            const double sd = evaluation_.model->levels[static_cast<std::size_t>(spots_[i].point)].sd;
            std::vector<std::string> cells = {book_.name(spots_[i].name), level(spots_[i].level, unit_),
                                              small(sd, unit_), signed_small(surface_.plane->off[i], unit_)};
            for (const SurfaceVolume& found : surface_.volumes) {
                const double dig = rounded_to(book_.in_unit(found.digs[i].dig), 3);
                cells.push_back(level(std::fabs(found.digs[i].dig), unit_));
                cells.emplace_back(dig > 0 ? "dig" : dig < 0 ? "fill" : std::isnan(dig) ? "" : "on");
            }
            rows.add(std::move(cells));
        }
        tale_.say(1, "Point by point");
        tale_.table(2, std::move(rows));
    }

    void levels() {
        Rows rows("", {figure_column("east"), figure_column("north"), figure_column("level"),
                       figure_column("\u00b1 " + small_unit(unit_))});
        for (const ground::GridLevel& corner : surface_.levels)
            rows.add({fixed(book_.in_unit(corner.e), coordinate_places),
                      fixed(book_.in_unit(corner.n), coordinate_places), level(corner.level, unit_),
                      small(corner.sd, unit_)});
        if (rows.empty()) return;
        tale_.say(1, "Levels on a grid");
        tale_.table(2, std::move(rows));
    }

    const Evaluation& evaluation_;
    const Book& book_;
    Unit unit_;
    const SurveyedSurface& surface_;
    const std::vector<BookSpot>& spots_;
    std::size_t most_points_;
    Tale tale_;
};

}  // namespace

std::vector<Told> surface_told(const Evaluation& evaluation, std::size_t surface, std::size_t most_points) {
    return SurfaceTale(evaluation, evaluation.surveys.surfaces[surface], most_points).tell();
}

}  // namespace fallwright::record
