#include "shells/cli/people_setout.h"

#include <cmath>

#include "base/print.h"
#include "shells/cli/table.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

namespace {

class SetoutText {
  public:
    explicit SetoutText(const SetoutAnswer& answer)
        : answer_(answer), book_(*answer.evaluation->book), unit_(book_.unit) {}

    std::string text() const { return heading() + one_targets() + rows() + rod() + pegs() + rails(); }

  private:
    bool aimed() const { return answer_.table.setup != no_setup; }

    std::string heading() const {
        std::string text = book_.name(book_.lines[answer_.table.line].name) + " set out";
        if (aimed()) text += " from " + book_.name(book_.setups[answer_.table.setup].name);
        return text + ", lengths in " + unit_text(unit_) + ". ± is one standard deviation.\n";
    }

    std::string offset(double off) const {
        if (rounded_to(off, 3) == 0) return "";
        return (off > 0 ? "R " : "L ") + level(std::fabs(off), unit_);
    }

    std::string one_targets() const {
        std::string text;
        for (const OneTarget& one : answer_.table.one_targets) {
            const std::string where = one.off == 0 ? "" : ", " + offset(one.off);
            text += "One target for all rows of " + one.what + where + ": " + level(one.target, unit_) +
                    " (they differ by " + small(one.spread, unit_) + " " + small_unit(unit_) + ")\n";
        }
        return text;
    }

    // Told by word and shape: a wedge down to dig, a wedge up to fill, a bar on grade.
    std::string dig(const SetoutRow& row) const {
        if (std::isnan(row.dig)) return "";
        const double shown = rounded_to(book_.in_unit(row.dig), 3);
        if (shown == 0) return "▬ on grade";
        return (shown > 0 ? "▼ dig " : "▲ fill ") + level(std::fabs(row.dig), unit_);
    }

    std::string rows() const {
        const std::string mm = "± " + small_unit(unit_);
        Table table({{"target"},
                     {mm},
                     {"chainage"},
                     {"offset"},
                     {"surface", Align::Left},
                     {"design"},
                     {"dig or fill", Align::Left},
                     {mm},
                     {"to", Align::Left},
                     {"trench"},
                     {mm},
                     {"cover"}});
        for (const SetoutRow& row : answer_.table.rows) {
            const bool dug = !std::isnan(row.dig);
            table.add({level(row.target, unit_), small(row.sd, unit_), level(row.ch, unit_), offset(row.off),
                       row.what, level(row.design, unit_), dig(row), small(row.dig_sd, unit_),
                       dug ? row.dig_to : "", level(row.trench_depth, unit_),
                       small(row.trench_depth_sd, unit_), level(row.cover, unit_)});
        }
        return table.empty() ? "" : table.text();
    }

    std::string rod() const {
        if (!answer_.rod) return "";
        std::string text = "\nRod card\n";
        for (const RodCard& card : *answer_.rod) {
            text += "  from " + level(card.from, unit_) + " to " + level(card.to, unit_) +
                    ", foot of the rod on " + card.marks.front().what + "\n";
            Table table(
                {{"surface", Align::Left}, {"mark above the foot"}, {"receiver, foot on that surface"}});
            for (const RodMark& mark : card.marks)
                table.add({mark.what, level(mark.height, unit_), level(mark.clamp, unit_)});
            text += table.text();
            if (aimed() && std::isnan(card.marks.front().clamp))
                text +=
                    "  the light does not run parallel to the line here: the receiver follows the table\n";
        }
        return answer_.rod->empty() ? text + "  no two surfaces of the line are known\n" : text;
    }

    std::string pegs() const {
        if (!answer_.pegs) return "";
        Table table({{"peg", Align::Left},
                     {"cut or fill", Align::Left},
                     {"± " + small_unit(unit_)},
                     {"to", Align::Left},
                     {"line below the top"},
                     {"write on the peg", Align::Left}});
        for (const PegRow& peg : *answer_.pegs) {
            const bool cut = rounded_to(book_.in_unit(peg.cut), 3) >= 0;
            const bool whole_cut = rounded_to(book_.in_unit(peg.whole), 3) >= 0;
            table.add({book_.name(peg.point), (cut ? "▼ cut " : "▲ fill ") + level(std::fabs(peg.cut), unit_),
                       small(peg.sd, unit_), peg.what, level(peg.line_down, unit_),
                       (whole_cut ? "C " : "F ") + fixed(std::fabs(book_.in_unit(peg.whole)), 1)});
        }
        return "\nPeg card: draw the line, then write what lies from it down (C) or up (F)\n" +
               (table.empty() ? "  no peg is read on the line: read its pegs as peg\n" : table.text());
    }

    std::string rails() const {
        if (!answer_.rails) return "";
        Table table({{"chainage"},
                     {"for", Align::Left},
                     {"rail level"},
                     {"above the ground"},
                     {"above pegs", Align::Left}});
        for (const Rail& rail : *answer_.rails) {
            std::string over;
            for (const RailOverPeg& peg : rail.above_pegs)
                over += (over.empty() ? "" : ", ") + book_.name(peg.point) + " " + level(peg.height, unit_);
            table.add({level(rail.ch, unit_), rail.what, level(rail.level, unit_),
                       level(rail.above_ground, unit_), over});
        }
        return "\nSight rails for a traveller of " + level(answer_.traveller, unit_) + "\n" + table.text();
    }

    const SetoutAnswer& answer_;
    const Book& book_;
    Unit unit_;
};

}  // namespace

std::string setout_text(const SetoutAnswer& answer) {
    const std::string findings = findings_text(beside_cautions(answer.findings));
    return SetoutText(answer).text() + (findings.empty() ? "" : "\nTo look at\n" + findings) +
           cautions_text(answer.cautions);
}

}  // namespace fallwright::cli
