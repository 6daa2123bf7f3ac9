#include <cmath>

#include "record/chapters.h"

namespace fallwright::record {

namespace {

void add_point_levels(Writer& out) {
    const std::string mm = small_unit(out.unit);
    Rows rows("", {words_column("point"), figure_column("level"), figure_column("\u00b1 " + mm),
                   figure_column("readings"), words_column("")});
    for (std::size_t i = 0; i < out.model.levels.size(); ++i) {
        const PointLevel& found = out.model.levels[i];
        const std::string sd = out.model.level_columns[i] < 0 ? "held"
                               : std::isnan(found.level)      ? ""
                                                              : small(found.sd, out.unit);
        rows.add({out.name(out.model.points.name(i)), level(found.level, out.unit), sd,
                  std::to_string(found.readings), level_remark(found)});
    }
    out.table(std::move(rows));
}

void add_benchmarks(Writer& out) {
    Rows rows("Benchmarks",
              {words_column("point"), figure_column("level as given"),
               figure_column("\u00b1 " + small_unit(out.unit)), text_column("where it is from")});
    for (const Benchmark& benchmark : out.book.benchmarks)
        rows.add({out.name(benchmark.point), level(benchmark.level.metres(), out.unit),
                  benchmark.sd == 0 ? "held" : small(benchmark.sd, out.unit),
                  benchmark.source == no_name ? "not said" : out.name(benchmark.source)});
    out.table(std::move(rows));
}

void add_steps(Writer& out) {
    Rows rows("Carried by tape or spirit level",
              {words_column("entry"), words_column("from"), words_column("to"), figure_column("rise"),
               figure_column("\u00b1 " + small_unit(out.unit))});
    for (const Step& step : out.book.steps)
        rows.add({out.book.id_of(step.entry), out.name(step.from), out.name(step.to),
                  level(step.rise, out.unit), small(step.sd, out.unit)});
    out.table(std::move(rows));
}

}  // namespace

void add_levels(Writer& out) {
    out.heading(1, "Levels");
    if (out.model.levels.empty()) return;
    out.say("In " + unit_text(out.unit) +
            ", from all readings together; \u00b1 is one standard deviation relative to " +
            relative_to(out.book) + ".");
    add_benchmarks(out);
    add_point_levels(out);
    add_steps(out);
}

}  // namespace fallwright::record
