#include "desk/trace_answer.h"

#include <cmath>

#include "base/print.h"
#include "desk/write_json.h"
#include "suspect/trace.h"
#include "verdict/verdict.h"

namespace fallwright::desk {

namespace {

constexpr double usual_error = 0.010;  // metres

// The same book with levels moved: designs that hang under a point move with it.
std::vector<ChangedVerdict> changed_verdicts(const Evaluation& before, const std::vector<double>& moves) {
    const Book& book = *before.book;
    Evaluation after = evaluate(before.book);
    for (std::size_t i = 0; i < moves.size(); ++i) after.model->levels[i].level += moves[i];
    after.lines = find_falls(book, *after.model);
    std::vector<ChangedVerdict> changed;
    for (std::size_t line = 0; line < book.lines.size(); ++line) {
        const LineJudge was(book, before.designs.lines[line], before.lines[line], *before.model);
        const LineJudge is(book, after.designs.lines[line], after.lines[line], *after.model);
        if (!was.has_tolerances()) continue;
        for (std::size_t i = 0; i < before.lines[line].stations.size(); ++i) {
            const StationVerdict old = was.judge(before.lines[line].stations[i]);
            const StationVerdict now = is.judge(after.lines[line].stations[i]);
            if (old.judged.verdict == now.judged.verdict) continue;
            changed.push_back({line, before.lines[line].stations[i], old.judged.verdict, now.judged.verdict,
                               old.deviation, now.deviation});
        }
    }
    return changed;
}

}  // namespace

Result<TraceAnswer> trace_of(const Evaluation& evaluation, Options& options) {
    options.assume(evaluation.book->unit);
    const std::optional<std::string> name = options.text("trace");
    const std::optional<Length> by = options.length("by");
    if (options.fault()) return *options.fault();
    TraceAnswer answer;
    answer.name = name.value_or("");
    answer.by = by ? by->metres() : usual_error;
    const Traced traced = trace_cause(*evaluation.book, evaluation.where, evaluation.figures,
                                      *evaluation.model, answer.name, answer.by);
    if (!traced.found) {
        return finding(Code::BadRequest, {answer.name},
                       "no benchmark and no reading that is evaluated is called " + answer.name,
                       "name the point of a benchmark, or the id of a reading");
    }
    answer.moves = traced.moves;
    answer.changed = changed_verdicts(evaluation, answer.moves);
    return answer;
}

std::string trace_json(const Evaluation& evaluation, const TraceAnswer& answer) {
    const Book& book = *evaluation.book;
    JsonOut out;
    const auto length = [&](std::string_view key, double metres) {
        out.number(key, book.in_unit(metres), length_places);
    };
    out.begin_object().integer("version", format_version).text("unit", unit_word(book.unit));
    out.key("trace").begin_object().text("name", answer.name);
    length("by", answer.by);
    out.key("moves").begin_array();
    for (std::size_t i = 0; i < answer.moves.size(); ++i) {
        const double moved = rounded_to(book.in_unit(answer.moves[i]), length_places);
        if (std::isnan(moved) || moved == 0) continue;
        out.begin_object().text("point", book.names.text(evaluation.model->points.name(i)));
        length("by", answer.moves[i]);
        out.end_object();
    }
    out.end_array().key("verdicts").begin_array();
    for (const ChangedVerdict& changed : answer.changed) {
        out.begin_object().text("line", book.names.text(book.lines[changed.line].name));
        length("ch", changed.station.ch);
        length("off", changed.station.off);
        out.text("what", book.names.text(changed.station.what));
        out.text("before", verdict_word(changed.before)).text("after", verdict_word(changed.after));
        length("deviation_before", changed.deviation_before);
        length("deviation_after", changed.deviation_after);
        out.end_object();
    }
    out.end_array().end_object().end_object();
    return out.take();
}

}  // namespace fallwright::desk
