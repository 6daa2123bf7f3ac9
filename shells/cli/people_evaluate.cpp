#include "shells/cli/people_evaluate.h"

#include <algorithm>
#include <cmath>

#include "base/print.h"
#include "record/fit_words.h"
#include "record/suspect_words.h"
#include "shells/cli/people_page.h"
#include "shells/cli/people_runs.h"
#include "shells/cli/people_story.h"
#include "shells/cli/people_surfaces.h"
#include "shells/cli/people_suspects.h"
#include "shells/cli/table.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

namespace {

constexpr double most_stations_in_a_table = 40;

std::string heading(const Evaluation& evaluation) {
    const Book& book = *evaluation.book;
    std::string text = book.title.empty() ? "" : book.title + "\n";
    text += "Levels in " + unit_text(book.unit);
    if (evaluation.model->assumed_datum) {
        text += ", datum assumed";
    } else {
        text += book.datum.empty() ? "" : ", datum " + book.datum;
        text += "; relative to the benchmarks as given";
    }
    return text + ". ± is one standard deviation.\n";
}

std::string fit_sentence(const Evaluation& evaluation, const LineFalls& line, const Fit& fit) {
    const Unit unit = evaluation.book->unit;
    const std::string even = record::fit_evenness(line, fit, unit);
    return record::fit_words(line, fit, unit) + "\n" + (even.empty() ? "" : "    how even: " + even + "\n");
}

std::string falls_text(const Evaluation& evaluation) {
    const Book& book = *evaluation.book;
    std::string text;
    for (std::size_t i = 0; i < evaluation.lines.size(); ++i) {
        for (const Fit& fit : evaluation.lines[i].fits) {
            text += "  " + book.name(book.lines[i].name) + " " + book.name(fit.what) + ": " +
                    fit_sentence(evaluation, evaluation.lines[i], fit);
        }
    }
    return text.empty() ? "" : "\nThe fall that is there\n" + text;
}

std::string closures_text(const Evaluation& evaluation) {
    const Book& book = *evaluation.book;
    if (evaluation.closures.empty()) return "";
    Table table({{"from", Align::Left},
                 {"to", Align::Left},
                 {"set-ups"},
                 {"length"},
                 {"misclosure"},
                 {"allowed"},
                 {"", Align::Left}});
    for (std::size_t i = 0; i < evaluation.closures.size(); ++i) {
        const Closure& closure = evaluation.pages.closures[i];
        const JudgedClosure& judged = evaluation.closures[i];
        const std::string length = closure.length.has() ? fixed(book.in_unit(closure.length.value), 0) : "";
        table.add({book.name(closure.from), book.name(closure.to), std::to_string(closure.setups), length,
                   signed_small(closure.misclosure.metres(), book.unit), small(judged.allowed, book.unit),
                   closure_verdict(judged)});
    }
    return "\nMisclosures, " + small_unit(book.unit) + " (allowed by rule: " + evaluation.rule.name + ")\n" +
           table.text();
}

std::string point_levels_text(const Evaluation& evaluation) {
    const Model& model = *evaluation.model;
    const Book& book = *evaluation.book;
    Table table(
        {{"point", Align::Left}, {"level"}, {"± " + small_unit(book.unit)}, {"readings"}, {"", Align::Left}});
    for (std::size_t i = 0; i < model.levels.size(); ++i) {
        const PointLevel& found = model.levels[i];
        const std::string sd = model.level_columns[i] < 0 ? "held"
                               : std::isnan(found.level)  ? ""
                                                          : small(found.sd, book.unit);
        table.add({book.name(model.points.name(i)), level(found.level, book.unit), sd,
                   std::to_string(found.readings), level_remark(found)});
    }
    return table.empty() ? "" : "\nLevels\n" + table.text();
}

std::string stations_text(const Evaluation& evaluation) {
    const Book& book = *evaluation.book;
    std::string text;
    for (std::size_t i = 0; i < evaluation.lines.size(); ++i) {
        for (const Fit& fit : evaluation.lines[i].fits) {
            const std::vector<const Station*> stations = record::fitted(evaluation.lines[i], fit);
            if (stations.size() < 3 || static_cast<double>(stations.size()) > most_stations_in_a_table)
                continue;
            Table table({{"chainage"},
                         {"level"},
                         {"± " + small_unit(book.unit)},
                         {"off the best line, " + small_unit(book.unit)},
                         {"± " + small_unit(book.unit)},
                         {"", Align::Left}});
            for (const Station* station : stations) {
                const PointLevel& found = evaluation.model->levels[static_cast<std::size_t>(station->point)];
                const double off = rounded_to(book.in_unit(station->off_fit) * 1000, 1);
                table.add({level(station->ch, book.unit), level(found.level, book.unit),
                           small(found.sd, book.unit), signed_small(station->off_fit, book.unit),
                           small(off_fit_sd(evaluation.lines[i], *station, *evaluation.model), book.unit),
                           off > 0   ? "high"
                           : off < 0 ? "low"
                                     : "on"});
            }
            text += "\n" + book.name(book.lines[i].name) + " " + book.name(fit.what) + ", point by point\n" +
                    table.text();
        }
    }
    return text;
}

std::string planes_text(const Evaluation& evaluation) {
    const Book& book = *evaluation.book;
    Table table({{"set-up", Align::Left},
                 {"plane"},
                 {"± " + small_unit(book.unit)},
                 {"main"},
                 {"±"},
                 {"cross"},
                 {"±"}});
    const auto ratio = [](double value) { return std::isnan(value) ? "" : fixed(value, gradient_places); };
    for (std::size_t i = 0; i < evaluation.model->planes.size(); ++i) {
        const LightPlane& plane = evaluation.model->planes[i];
        table.add({book.name(book.setups[i].name), level(plane.level, book.unit), small(plane.sd, book.unit),
                   ratio(plane.gradient[0]), ratio(plane.gradient_sd[0]), ratio(plane.gradient[1]),
                   ratio(plane.gradient_sd[1])});
    }
    return table.empty() ? "" : "\nPlanes of light (gradients: rise along the axis)\n" + table.text();
}

std::string adjustment_text(const Evaluation& evaluation) {
    const Summary& summary = evaluation.model->summary;
    std::string text = "\nAdjustment\n  " + std::to_string(summary.observations) + " observations, " +
                       std::to_string(summary.unknowns) + " unknowns, " + std::to_string(summary.dof) +
                       " more than needed\n";
    if (summary.dof <= 0) return text;
    return text + "  chi-square " + significant(summary.chi2, 4) + ", 95 % lie between " +
           significant(summary.chi2_low, 4) + " and " + significant(summary.chi2_high, 4) + "; sigma0 " +
           significant(summary.sigma0, 3) + "\n";
}

std::string readings_text(const Evaluation& evaluation) {
    const Book& book = *evaluation.book;
    const Model& model = *evaluation.model;
    const std::string mm = small_unit(book.unit);
    Table table({{"entry", Align::Left},
                 {"set-up", Align::Left},
                 {"point", Align::Left},
                 {"reading"},
                 {"residual " + mm},
                 {"± " + mm},
                 {"w"},
                 {"redundancy"},
                 {"slip that would show, " + mm}});
    for (const SightRow& row : model.sights.rows) {
        const Reading& reading = book.readings[row.reading];
        const ReadingFit& fit = model.fit(static_cast<std::size_t>(model.sights.row_of[row.reading]));
        const auto plain = [](double value, int places) {
            return std::isnan(value) ? "" : fixed(value, places);
        };
        table.add({book.id_of(reading.entry), book.name(reading.setup), book.name(reading.point),
                   level(row.terms.sign * row.terms.r, book.unit), signed_small(fit.residual, book.unit),
                   small(fit.sd, book.unit), plain(fit.w, 2), plain(fit.redundancy, 2),
                   small(fit.detectable, book.unit)});
    }
    return table.empty() ? "" : "\nReadings (residual: booked - computed)\n" + table.text();
}

std::string walk_text(const Evaluation& evaluation) {
    const Book& book = *evaluation.book;
    Table table({{"set-up", Align::Left},
                 {"point", Align::Left},
                 {"off the plane, " + small_unit(book.unit)},
                 {"", Align::Left}});
    for (std::size_t i = 0; i < book.readings.size(); ++i) {
        const double off = off_plane(evaluation, i);
        if (std::isnan(off)) continue;
        const double shown = rounded_to(book.in_unit(off) * 1000, 1);
        table.add({book.name(book.readings[i].setup), book.name(book.readings[i].point),
                   signed_small(off, book.unit),
                   shown > 0   ? "high"
                   : shown < 0 ? "low"
                               : "on"});
    }
    return table.empty() ? "" : "\nWalked with the receiver clamped, as booked\n" + table.text();
}

std::string findings_section(const Evaluation& evaluation) {
    const std::string text = findings_text(beside_cautions(evaluation.findings));
    if (!text.empty()) return "\nTo look at\n" + text;
    return suspect_line(evaluation).empty() ? "\n" + record::nothing_noticed(evaluation) + "\n" : "";
}

}  // namespace

std::string evaluation_text(const Evaluation& evaluation, bool for_surveyor) {
    std::string text = heading(evaluation) + story_text(evaluation) + falls_text(evaluation) +
                       drains_in_short(evaluation) + surfaces_text(evaluation) + closures_text(evaluation) +
                       pages_text(evaluation) + point_levels_text(evaluation) + stations_text(evaluation) +
                       walk_text(evaluation);
    if (for_surveyor)
        text += planes_text(evaluation) + adjustment_text(evaluation) + readings_text(evaluation);
    return text + findings_section(evaluation) + cautions_text(evaluation.cautions.all);
}

std::string levels_text(const Evaluation& evaluation) {
    return heading(evaluation) + point_levels_text(evaluation) + closures_text(evaluation) +
           pages_text(evaluation) + findings_section(evaluation);
}

}  // namespace fallwright::cli
