#include <cmath>

#include "base/print.h"
#include "record/chapters.h"
#include "record/worked.h"

namespace fallwright::record {

namespace {

void add_page(Writer& out, const Page& page) {
    const auto text = [&out](const auto& value) { return level(value, out.unit); };
    Rows rows(page.sloped ? "Sloped plane: the plane's level here as dialled, no sums" : "",
              {figure_column("back"), figure_column("inter"), figure_column("fore"), figure_column("rise"),
               figure_column("fall"), figure_column(page.sloped ? "plane here" : "collimation"),
               figure_column("level"), figure_column("adjusted"), words_column("point"),
               words_column("set-up"), words_column("remark")});
    for (const PageRow& row : page.rows)
        rows.add({text(row.back), text(row.inter), text(row.fore), text(row.rise), text(row.fall),
                  text(row.collimation), text(row.level.metres()), text(row.adjusted),
                  out.name(out.book.readings[row.reading].point),
                  out.name(out.book.setups[static_cast<std::size_t>(row.setup)].name),
                  std::string(page.sloped ? "" : remark_of(page, row))});
    if (!page.sloped) {
        const auto sum = [&out](Decimal value) { return level(value.metres(), out.unit); };
        rows.rule();
        rows.add({sum(page.sum_back), "", sum(page.sum_fore), sum(page.sum_rise), sum(page.sum_fall), "", "",
                  "", "", "", ""});
    }
    out.table(std::move(rows));
    if (page.sloped) return;
    out.say(capital(page_check(page, out.unit)) + ".",
            page.agrees ? sheet::Tone::Plain : sheet::Tone::Finding);
}

void add_closures(Writer& out) {
    const std::string mm = small_unit(out.unit);
    Rows rows("Allowed by rule: " + out.evaluation.rule.name,
              {words_column("from"), words_column("to"), figure_column("set-ups"),
               figure_column("length, " + unit_text(out.unit)), figure_column("misclosure, " + mm),
               figure_column("allowed, " + mm), words_column("")});
    for (std::size_t i = 0; i < out.evaluation.closures.size(); ++i) {
        const Closure& closure = out.evaluation.pages.closures[i];
        const JudgedClosure& judged = out.evaluation.closures[i];
        sheet::Cell verdict{closure_verdict(judged)};
        verdict.strong = !judged.ok;
        rows.add_cells({{out.name(closure.from)},
                        {out.name(closure.to)},
                        {std::to_string(closure.setups)},
                        {closure.length.has() ? fixed(out.book.in_unit(closure.length.value), 0) : ""},
                        {signed_small(closure.misclosure.metres(), out.unit)},
                        {small(judged.allowed, out.unit)},
                        std::move(verdict)});
    }
    out.table(std::move(rows));
}

// The way of a closure that is more than allowed, sight by sight: their sum is what was found.
void add_ways(Writer& out) {
    for (std::size_t i = 0; i < out.evaluation.closures.size(); ++i) {
        const Closure& closure = out.evaluation.pages.closures[i];
        if (out.evaluation.closures[i].ok || std::isnan(out.evaluation.closures[i].allowed)) continue;
        out.heading(3, "From " + out.name(closure.from) + " to " + out.name(closure.to) + ", sight by sight");
        Rows rows("", {words_column("reading"), words_column("set-up"), words_column("point"),
                       words_column("booked"), figure_column("back +, fore -")});
        for (const WaySight& sight : closure.way) {
            const Reading& reading = out.book.readings[sight.reading];
            const double value = out.evaluation.figures.value[sight.reading].metres();
            rows.add({out.book.id_of(reading.entry), out.name(reading.setup), out.name(reading.point),
                      booked_words(out.book, reading), out.signed_fine(sight.sign * value)});
        }
        out.table(std::move(rows));
        out.say("Misclosure = known level at the start + this sum - known level at the end.");
    }
}

}  // namespace

void add_pages(Writer& out) {
    out.heading(1, "Booked pages and misclosures");
    out.heading(2, "Misclosures");
    add_closures(out);
    add_ways(out);
    out.figures(network(out.evaluation, out.upright()));
    out.heading(2, "The booked pages");
    bool said = false;
    for (const Page& page : out.evaluation.pages.pages) {
        if (!said)
            out.say(
                "As in a level book: height of collimation and rise and fall side by side, in exact "
                "decimals, nothing adjusted but where the run closes.");
        said = true;
        add_page(out, page);
    }
}

}  // namespace fallwright::record
