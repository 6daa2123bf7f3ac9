#include "record/evenness_words.h"

#include <algorithm>
#include <cmath>

#include "base/print.h"
#include "record/words.h"

namespace fallwright::record {

namespace {

constexpr double per_km = 1000;
constexpr double inches_per_mile = 63360;

class EvennessTale {
  public:
    EvennessTale(const EvennessBasis& basis, const LineJudge& judge, std::size_t most_rows)
        : basis_(basis),
          judge_(judge),
          most_rows_(most_rows),
          unit_(basis.book.unit),
          mm_(" " + small_unit(unit_)),
          here_(basis.book.unit == Unit::Foot ? " ft" : " m") {}

    std::vector<Told> tell() {
        const std::vector<EvenRow> rows = evenness_of(basis_);
        if (!rows.empty()) tale_.say(0, "How even it is");
        for (const EvenRow& row : rows) tell_row(row);
        sections();
        return std::move(tale_).take();
    }

  private:
    std::string offset(double off) const {
        if (std::fabs(off) < least_offset) return "the line";
        return (off < 0 ? "L" : "R") + level(std::fabs(off), unit_);
    }

    // A position of a row: its chainage, or across an offset.
    std::string at(const EvenRow& row, double position) const {
        if (row.along) return level(position, unit_);
        return std::fabs(position) < least_offset ? "0" : offset(position);
    }

    void tell_row(const EvenRow& row) {
        const std::string where = row.along ? "along " + offset(row.at) : "across at " + level(row.at, unit_);
        tale_.say(1, basis_.book.name(row.what) + " " + where + ", from " + at(row, row.from) + " to " +
                         at(row, row.to) + ", " + std::to_string(row.stations) + " readings, " +
                         level(row.spacing, unit_) + here_ + " apart at most");
        tale_.say(2, "off the best straight: " + off(row, row.off_straight));
        if (!std::isnan(row.off_design.rms))
            tale_.say(2, "off the design: " + signed_small(row.off_design.mean, unit_) + mm_ +
                             " in the mean, " + off(row, row.off_design));
        tell_gap(row, row.straightedge, true);
        tell_gap(row, row.spots, false);
        tell_counts(row);
        tell_roughness(row);
    }

    std::string off(const EvenRow& row, const OffLine& off) const {
        return small(off.rms, unit_) + mm_ + " rms, at most " + small(std::fabs(off.worst), unit_) +
               " \u00b1 " + small(off.worst_sd, unit_) + (off.worst < 0 ? " low" : " high") + " at " +
               at(row, off.worst_at);
    }

    // Each reason once a line.
    void refused(const std::string& sentence) {
        if (std::find(refused_.begin(), refused_.end(), sentence) != refused_.end()) return;
        refused_.push_back(sentence);
        tale_.say(2, sentence);
    }

    void tell_gap(const EvenRow& row, const GapCheck& check, bool edge) {
        const std::string under =
            edge ? "under a straightedge of " + trimmed(basis_.book.in_unit(check.over), 3) + here_
                 : std::string("by the distance of the high spots");
        if (!check.refused.empty()) return refused(under + " refused: " + check.refused);
        if (!check.any) return;
        tale_.say(2, under + ": " + one(row, check.worst));
        for (const Gap& gap : check.places) {
            if (gap.at != check.worst.at) tale_.say(3, "and " + one(row, gap));
        }
    }

    std::string one(const EvenRow& row, const Gap& gap) const {
        if (std::isnan(gap.rests[0])) return "no gap";
        std::string text = small(std::fabs(gap.gap), unit_) + " \u00b1 " + small(gap.sd, unit_) + mm_ +
                           (gap.gap < 0 ? " high" : "") + " at " + at(row, gap.at) + ", resting at " +
                           at(row, gap.rests[0]) + " and " + at(row, gap.rests[1]);
        if (small(gap.design, unit_) != "0.0" && !std::isnan(gap.design))
            text += ", " + signed_small(gap.design, unit_) + " of it by design";
        if (std::isnan(gap.limit)) return text;
        text += "; " + small(gap.limit, unit_) + " allowed";
        if (gap.judged.verdict == Verdict::Untested) return text + ", from memory: a hint, no verdict";
        return text + ", " + (gap.judged.plain_within ? "inside" : "outside") + " as measured, " +
               percent(gap.judged.probability) + " sure it truly is within: " + said(gap.judged.verdict);
    }

    void tell_counts(const EvenRow& row) {
        for (const IrregularityCheck& each : row.irregularities) {
            tale_.say(2, "places off by " + small(each.size, unit_) + mm_ +
                             " and more: " + std::to_string(each.count) + " in the worst " +
                             trimmed(basis_.book.in_unit(each.length), 3) + here_ + " (surely " +
                             std::to_string(each.surely) + ", possibly " + std::to_string(each.possibly) +
                             "), " + trimmed(each.most, 0) + " allowed: " + said(each.verdict));
        }
    }

    // m/km, in books in feet inches per mile.
    std::string index(double ratio) const {
        return unit_ == Unit::Foot ? fixed(ratio * inches_per_mile, 0) : fixed(ratio * per_km, 2);
    }

    void tell_roughness(const EvenRow& row) {
        const std::string unit = unit_ == Unit::Foot ? " in/mi" : " m/km";
        for (const Roughness& each : row.roughness) {
            tale_.say(2, "roughness index from " + level(each.from, unit_) + " to " + level(each.to, unit_) +
                             ": " + index(each.index) + " \u00b1 " + index(each.sd) + unit);
            tale_.say(
                3, "noise of \u00b1 " + small(each.level_sd, unit_) + mm_ + " a reading alone would make " +
                       index(each.noise) +
                       (std::isnan(each.without_noise) ? ": it is all there is"
                                                       : "; without it about " + index(each.without_noise)));
            const std::string by_class =
                each.staff_class == 0
                    ? "its error is over 5 %: in no class of staff-and-level profiles"
                    : "class " + std::to_string(each.staff_class) + " of staff-and-level profiles";
            tale_.say(3, by_class + "; at this index class 1 asks for a staff read to " +
                             small(each.asks[0], unit_) + ", class 2 to " + small(each.asks[1], unit_) + mm_ +
                             " (from memory)");
        }
        if (!row.roughness_refused.empty()) refused("roughness index refused: " + row.roughness_refused);
    }

    void sections() {
        Rows rows("", {figure_column("chainage"), words_column("what"), figure_column("offset"),
                       figure_column("level"), figure_column("\u00b1 " + small_unit(unit_)),
                       figure_column("design"), figure_column("off," + mm_), words_column("verdict"),
                       figure_column("rise to the right from there, %"), figure_column("\u00b1"),
                       figure_column("design, %")});
        for (const Section& section : sections_of(basis_, judge_)) add_section(section, rows);
        if (rows.empty()) return;
        if (most_rows_ > 0 && rows.size() > most_rows_)
            return tale_.say(0, "Sections: more than a screen; --json has them all");
        tale_.say(0, "Sections as laid");
        tale_.table(0, std::move(rows));
    }

    void add_section(const Section& section, Rows& rows) const {
        const auto ratio = [](double value) { return std::isnan(value) ? "" : fixed(value * 100, 2); };
        for (std::size_t i = 0; i < section.points.size(); ++i) {
            const SectionPoint& point = section.points[i];
            const PointLevel& found = basis_.model.levels[static_cast<std::size_t>(point.station->point)];
            SectionSlope slope;
            slope.gradient = slope.sd = NAN;
            for (const SectionSlope& each : section.slopes) {
                if (each.from == point.station->off) slope = each;
            }
            const bool tested = point.verdict.judged.verdict != Verdict::Untested;
            rows.add({level(section.ch, unit_), basis_.book.name(section.what),
                      std::fabs(point.station->off) < least_offset ? "0" : offset(point.station->off),
                      level(found.level, unit_), small(found.sd, unit_), level(point.verdict.design, unit_),
                      signed_small(point.verdict.deviation, unit_),
                      tested ? said(point.verdict.judged.verdict) : "", ratio(slope.gradient),
                      ratio(slope.sd), ratio(slope.design)});
        }
    }

    const EvennessBasis& basis_;
    const LineJudge& judge_;
    std::size_t most_rows_;
    Unit unit_;
    std::string mm_, here_;
    std::vector<std::string> refused_;  // said already
    Tale tale_;
};

}  // namespace

std::vector<Told> evenness_told(const EvennessBasis& basis, const LineJudge& judge, std::size_t most_rows) {
    return EvennessTale(basis, judge, most_rows).tell();
}

}  // namespace fallwright::record
