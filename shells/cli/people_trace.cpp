#include "shells/cli/people_trace.h"

#include <algorithm>
#include <cmath>

#include "base/print.h"
#include "shells/cli/table.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

namespace {

constexpr std::size_t most_rows = 40;

std::string moves_text(const Evaluation& evaluation, const TraceAnswer& answer) {
    const Unit unit = evaluation.book->unit;
    Table table({{"point", Align::Left}, {"moves, " + small_unit(unit)}});
    std::size_t count = 0;
    for (std::size_t i = 0; i < answer.moves.size(); ++i) {
        const double moved = rounded_to(evaluation.book->in_unit(answer.moves[i]), length_places);
        if (std::isnan(moved) || moved == 0) continue;
        if (++count <= most_rows)
            table.add({evaluation.book->name(evaluation.model->points.name(i)),
                       signed_small(answer.moves[i], unit)});
    }
    if (count == 0) return "  no level moves\n";
    const std::string rest =
        count > most_rows ? "  and " + std::to_string(count - most_rows) + " more; all with --json\n" : "";
    return table.text() + rest;
}

std::string said(Verdict verdict) {
    return verdict == Verdict::Undecided ? "too close to call" : std::string(verdict_word(verdict));
}

std::string verdicts_text(const Evaluation& evaluation, const TraceAnswer& answer) {
    const Book& book = *evaluation.book;
    if (answer.changed.empty()) return "";
    std::string text = "\nVerdicts that would change\n";
    for (const ChangedVerdict& each : answer.changed) {
        text += "  " + book.name(book.lines[each.line].name) + " " + level(each.station.ch, book.unit) + " " +
                book.name(each.station.what) + ": " + said(each.before) + " (" +
                signed_small(each.deviation_before, book.unit) + ") to " + said(each.after) + " (" +
                signed_small(each.deviation_after, book.unit) + " " + small_unit(book.unit) + ")\n";
    }
    return text;
}

}  // namespace

std::string trace_text(const Evaluation& evaluation, const TraceAnswer& answer) {
    const Unit unit = evaluation.book->unit;
    return "If " + answer.name + " is booked " + small(std::fabs(answer.by), unit) + " " + small_unit(unit) +
           (answer.by < 0 ? " too small" : " too large") + ", put right\n" + moves_text(evaluation, answer) +
           verdicts_text(evaluation, answer);
}

}  // namespace fallwright::cli
