#include "shells/cli/people_evenness.h"

#include <algorithm>
#include <cmath>

#include "base/print.h"
#include "shells/cli/table.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

namespace {

constexpr std::size_t most_rows = 60;
constexpr double per_km = 1000;
constexpr double inches_per_mile = 63360;

std::string said(Verdict verdict) {
    return verdict == Verdict::Undecided ? "too close to call" : std::string(verdict_word(verdict));
}

class EvennessText {
  public:
    EvennessText(const EvennessBasis& basis, const LineJudge& judge)
        : basis_(basis),
          judge_(judge),
          unit_(basis.book.unit),
          mm_(" " + small_unit(unit_)),
          here_(basis.book.unit == Unit::Foot ? " ft" : " m") {}

    std::string text() {
        std::string text;
        for (const EvenRow& row : evenness_of(basis_)) text += row_text(row);
        if (!text.empty()) text = "  How even it is\n" + text;
        return text + sections();
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

    std::string row_text(const EvenRow& row) {
        const std::string where = row.along ? "along " + offset(row.at) : "across at " + level(row.at, unit_);
        std::string text = "    " + basis_.book.name(row.what) + " " + where + ", from " + at(row, row.from) +
                           " to " + at(row, row.to) + ", " + std::to_string(row.stations) + " readings, " +
                           level(row.spacing, unit_) + here_ + " apart at most\n";
        text += "      off the best straight: " + off(row, row.off_straight) + "\n";
        if (!std::isnan(row.off_design.rms))
            text += "      off the design: " + signed_small(row.off_design.mean, unit_) + mm_ +
                    " in the mean, " + off(row, row.off_design) + "\n";
        return text + gap_text(row, row.straightedge, true) + gap_text(row, row.spots, false) + counts(row) +
               roughness(row);
    }

    std::string off(const EvenRow& row, const OffLine& off) const {
        return small(off.rms, unit_) + mm_ + " rms, at most " + small(std::fabs(off.worst), unit_) + " ± " +
               small(off.worst_sd, unit_) + (off.worst < 0 ? " low" : " high") + " at " +
               at(row, off.worst_at);
    }

    // Each reason once a line.
    std::string refused(const std::string& sentence, const std::string& reason = "-") {
        if (reason.empty() || std::find(refused_.begin(), refused_.end(), sentence) != refused_.end())
            return "";
        refused_.push_back(sentence);
        return "      " + sentence + "\n";
    }

    std::string gap_text(const EvenRow& row, const GapCheck& check, bool edge) {
        const std::string under =
            edge ? "under a straightedge of " + trimmed(basis_.book.in_unit(check.over), 3) + here_
                 : std::string("by the distance of the high spots");
        if (!check.refused.empty()) return refused(under + " refused: " + check.refused);
        if (!check.any) return "";
        std::string text = "      " + under + ": " + one(row, check.worst) + "\n";
        for (const Gap& gap : check.places) {
            if (gap.at != check.worst.at) text += "        and " + one(row, gap) + "\n";
        }
        return text;
    }

    std::string one(const EvenRow& row, const Gap& gap) const {
        if (std::isnan(gap.rests[0])) return "no gap";
        std::string text = small(std::fabs(gap.gap), unit_) + " ± " + small(gap.sd, unit_) + mm_ +
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

    std::string counts(const EvenRow& row) const {
        std::string text;
        for (const IrregularityCheck& each : row.irregularities) {
            text += "      places off by " + small(each.size, unit_) + mm_ +
                    " and more: " + std::to_string(each.count) + " in the worst " +
                    trimmed(basis_.book.in_unit(each.length), 3) + here_ + " (surely " +
                    std::to_string(each.surely) + ", possibly " + std::to_string(each.possibly) + "), " +
                    trimmed(each.most, 0) + " allowed: " + said(each.verdict) + "\n";
        }
        return text;
    }

    // m/km, in books in feet inches per mile.
    std::string index(double ratio) const {
        return unit_ == Unit::Foot ? fixed(ratio * inches_per_mile, 0) : fixed(ratio * per_km, 2);
    }

    std::string roughness(const EvenRow& row) {
        std::string text;
        const std::string unit = unit_ == Unit::Foot ? " in/mi" : " m/km";
        for (const Roughness& each : row.roughness) {
            text += "      roughness index from " + level(each.from, unit_) + " to " + level(each.to, unit_) +
                    ": " + index(each.index) + " ± " + index(each.sd) + unit + "\n        noise of ± " +
                    small(each.level_sd, unit_) + mm_ + " a reading alone would make " + index(each.noise) +
                    (std::isnan(each.without_noise) ? ": it is all there is"
                                                    : "; without it about " + index(each.without_noise)) +
                    "\n";
            text +=
                each.staff_class == 0
                    ? "        its error is over 5 %: in no class of staff-and-level profiles"
                    : "        class " + std::to_string(each.staff_class) + " of staff-and-level profiles";
            text += "; at this index class 1 asks for a staff read to " + small(each.asks[0], unit_) +
                    ", class 2 to " + small(each.asks[1], unit_) + mm_ + " (from memory)\n";
        }
        return text + refused("roughness index refused: " + row.roughness_refused, row.roughness_refused);
    }

    std::string sections() const {
        Table table({{"chainage"},
                     {"what", Align::Left},
                     {"offset"},
                     {"level"},
                     {"± " + small_unit(unit_)},
                     {"design"},
                     {"off," + mm_},
                     {"verdict", Align::Left},
                     {"rise to the right from there, %"},
                     {"±"},
                     {"design, %"}});
        std::size_t rows = 0;
        for (const Section& section : sections_of(basis_, judge_)) {
            rows += section.points.size();
            if (rows > most_rows) return "  Sections: more than a screen; --json has them all\n";
            add_section(section, table);
        }
        return table.empty() ? "" : "  Sections as laid\n" + table.text();
    }

    void add_section(const Section& section, Table& table) const {
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
            table.add({level(section.ch, unit_), basis_.book.name(section.what),
                       std::fabs(point.station->off) < least_offset ? "0" : offset(point.station->off),
                       level(found.level, unit_), small(found.sd, unit_), level(point.verdict.design, unit_),
                       signed_small(point.verdict.deviation, unit_),
                       tested ? said(point.verdict.judged.verdict) : "", ratio(slope.gradient),
                       ratio(slope.sd), ratio(slope.design)});
        }
    }

    const EvennessBasis& basis_;
    const LineJudge& judge_;
    Unit unit_;
    std::string mm_, here_;
    std::vector<std::string> refused_;  // said already
};

}  // namespace

std::string evenness_text(const EvennessBasis& basis, const LineJudge& judge) {
    return EvennessText(basis, judge).text();
}

}  // namespace fallwright::cli
