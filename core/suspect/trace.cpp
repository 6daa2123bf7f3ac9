#include "suspect/trace.h"

#include <array>
#include <cmath>

#include "suspect/causes.h"

namespace fallwright {

namespace {

bool is_meant(const Causes& causes, const Cause& cause, std::string_view name) {
    if (cause.kind == SuspectKind::WrongBenchmark) {
        return cause.source == no_name &&
               causes.book().names.text(causes.model().points.name(static_cast<std::size_t>(cause.point))) ==
                   name;
    }
    return cause.kind == SuspectKind::StaffInverted || cause.kind == SuspectKind::Misread
               ? causes.book().id_of(causes.reading(cause.row).entry) == name
               : false;
}

}  // namespace

Traced trace_cause(const Book& book, const Where& where, const Figures& figures, const Model& model,
                   std::string_view name, double by) {
    const Designs none;
    const Evidence evidence(book, none, model);
    const Causes causes(book, where, figures, none, model, evidence);
    Traced traced;
    Cause meant;
    causes.each([&](const Cause& cause) {
        const bool benchmark = cause.kind == SuspectKind::WrongBenchmark;
        if (!is_meant(causes, cause, name) || (traced.found && !(benchmark && !traced.is_benchmark))) return;
        traced.found = true;
        traced.is_benchmark = benchmark;
        meant = cause;
    });
    if (!traced.found) return traced;
    const std::vector<adjust::Part> parts = evidence.response(causes.column(meant));
    for (std::size_t i = 0; i < model.points.size(); ++i) {
        const adjust::Column column = model.level_columns[i];
        if (column == no_column) {
            traced.moves.push_back(-by * causes.effect_now(meant, 0, 0, {}, static_cast<std::int32_t>(i), 0));
        } else if (std::isnan(model.levels[i].level)) {
            traced.moves.push_back(NAN);
        } else {
            const std::array<adjust::Term, 1> level = {{{column, 1}}};
            traced.moves.push_back(-by * product(parts, evidence.solution().parts_of(level)));
        }
    }
    return traced;
}

}  // namespace fallwright
