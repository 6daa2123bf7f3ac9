#include <cmath>

#include "base/print.h"
#include "dial/card.h"
#include "record/chapters.h"

namespace fallwright::record {

namespace {

void add_dials(Writer& out) {
    Rows rows("Set on the laser", {words_column("set-up"), words_column("for"), words_column("main (X)"),
                                   words_column("cross (Y)"), words_column("proof"),
                                   figure_column("staff there"), text_column("")});
    for (const Dial& dial : out.evaluation.dials.dials) {
        const Setup& setup = out.book.setups[dial.setup];
        const Instrument& machine = out.book.instruments[static_cast<std::size_t>(setup.instrument_at)];
        std::string what = dial.surface != no_name ? "surface " + out.name(dial.surface) : "";
        if (dial.line != no_name)
            what = out.name(dial.line) + " " + level(dial.from, out.unit) + " to " + level(dial.to, out.unit);
        rows.add({out.name(setup.name), what, keyed_text(machine, dial.keyed.main),
                  keyed_text(machine, dial.keyed.cross), dial.proof ? out.name(dial.proof->point) : "",
                  dial.proof ? level(dial.proof->staff, out.unit) : "",
                  !dial.reachable    ? "out of its reach"
                  : !dial.as_in_book ? "not what the book says is set"
                                     : ""});
    }
    out.table(std::move(rows));
}

std::string offset(const Writer& out, double off) {
    if (rounded_to(off, 3) == 0) return "";
    return (off > 0 ? "R " : "L ") + level(std::fabs(off), out.unit);
}

// Told by word and shape: a wedge down to dig, a wedge up to fill, a bar on grade.
sheet::Cell dig_cell(const Writer& out, const SetoutRow& row) {
    if (std::isnan(row.dig)) return {};
    const double shown = rounded_to(out.book.in_unit(row.dig), 3);
    sheet::Cell cell{shown == 0 ? "on grade"
                                : (shown > 0 ? "dig " : "fill ") + level(std::fabs(row.dig), out.unit)};
    cell.has_mark = true;
    cell.mark = shown == 0 ? sheet::Mark::OnBar : shown > 0 ? sheet::Mark::DigWedge : sheet::Mark::FillWedge;
    cell.ink = shown == 0 ? sheet::Ink::Line : shown > 0 ? sheet::Ink::Dig : sheet::Ink::Fill;
    return cell;
}

void add_setout_table(Writer& out, const SetoutTable& table) {
    const std::string mm = "\u00b1 " + small_unit(out.unit);
    std::string title = out.name(out.book.lines[table.line].name);
    if (table.setup != no_setup) title += " from set-up " + out.name(out.book.setups[table.setup].name);
    out.heading(2, title);
    for (const OneTarget& one : table.one_targets)
        out.say("One target for all rows of " + one.what + (one.off == 0 ? "" : ", " + offset(out, one.off)) +
                ": " + level(one.target, out.unit) + " (they differ by " + out.mm(one.spread) + ").");
    Rows rows("", {figure_column("staff reads"), figure_column(mm), figure_column("chainage"),
                   words_column("offset"), words_column("surface"), figure_column("wanted"),
                   words_column("dig or fill"), figure_column(mm), words_column("to"),
                   figure_column("trench"), figure_column(mm), figure_column("cover")});
    for (const SetoutRow& row : table.rows)
        rows.add_cells({{level(row.target, out.unit)},
                        {small(row.sd, out.unit)},
                        {level(row.ch, out.unit)},
                        {offset(out, row.off)},
                        {row.what},
                        {level(row.design, out.unit)},
                        dig_cell(out, row),
                        {small(row.dig_sd, out.unit)},
                        {std::isnan(row.dig) ? "" : row.dig_to},
                        {level(row.trench_depth, out.unit)},
                        {small(row.trench_depth_sd, out.unit)},
                        {level(row.cover, out.unit)}});
    out.table(std::move(rows));
}

}  // namespace

void add_setting_out(Writer& out) {
    out.heading(1, "Setting out");
    add_dials(out);
    for (const SetoutTable& table : out.evaluation.setout.tables) add_setout_table(out, table);
}

}  // namespace fallwright::record
