#include "record/worked.h"

#include <algorithm>
#include <cmath>

#include "base/print.h"
#include "verdict/deviation.h"

namespace fallwright::record {

namespace {

std::string figure(const Book& book, Decimal value) {
    constexpr int places = 4;
    return trimmed(book.in_unit(value.metres()), places);
}

// One sight of a point, taken apart: light over the point = plane + main + cross + curved + other.
struct Sight {
    double plane, main, cross, curved, other, light, staff, left_over;
};

Sight take_apart(const Model& model, const SightRow& row, std::size_t index) {
    const LightPlane& plane = model.planes[static_cast<std::size_t>(row.setup)];
    const auto along = [&](std::size_t axis, double distance) {
        return row.terms.has_uv ? plane.gradient[axis] * distance : 0;
    };
    Sight sight{};
    // The row's own part of what is left over, made whole again: what only this row carries is in it too.
    const double own = model.problem.sd[index] * model.problem.sd[index];
    sight.left_over = model.solution.residual[index] * (own + model.problem.folded[index]) / own;
    sight.staff = row.upright;
    sight.light = model.levels[static_cast<std::size_t>(row.point)].level + row.upright - sight.left_over;
    sight.plane = plane.level;
    sight.main = along(0, row.terms.u);
    sight.cross = along(1, row.terms.v);
    sight.curved = row.curvature;
    sight.other = sight.light - sight.plane - sight.main - sight.cross - sight.curved;
    return sight;
}

// Sights in one table, with other rows beside them and without.
constexpr std::size_t most_beside = 2, most_alone = 4;

Limits limits_of(const Maybe& below, const Maybe& above) {
    Limits limits;
    if (below.has()) limits.below = below.value;
    if (above.has()) limits.above = above.value;
    return limits;
}

}  // namespace

std::string booked_words(const Book& book, const Reading& reading) {
    const Figure& read = reading.figure;
    std::string text;
    switch (read.form) {
        case Form::Staff:
            text = "staff " + figure(book, read.a);
            break;
        case Form::Mark:
            text = "mark " + figure(book, read.a);
            break;
        case Form::ThreeWires:
            text =
                "wires " + figure(book, read.a) + ", " + figure(book, read.b) + ", " + figure(book, read.c);
            break;
        case Form::Clamp:
            text = "clamped";
            break;
        default:
            return "";
    }
    if (read.form == Form::Mark || read.form == Form::Clamp) {
        const char* word = read.deviation == Deviation::High  ? " high"
                           : read.deviation == Deviation::Low ? " low"
                                                              : " offset";
        text += ", " + figure(book, read.b) + word;
    }
    if (read.inverted) text += ", upside down";
    if (reading.shoe != 0) text += ", shoe " + trimmed(book.in_unit(reading.shoe), 4);
    return text;
}

Worked::Worked(Writer& out) : out_(out), sights_of_(out.model.points.size()) {
    const std::vector<SightRow>& rows = out.model.sights.rows;
    for (std::uint32_t i = 0; i < rows.size(); ++i)
        sights_of_[static_cast<std::size_t>(rows[i].point)].push_back(i);
}

void Worked::station(const LineJudge& judge, const Design& design, const Station& station,
                     const StationVerdict& verdict) {
    constexpr double thousand = 1000;
    const double scale = thousand / out_.book.metres_per_unit();
    const std::vector<PointTerm> sum = deviation_terms(out_.book, design, out_.model, station);
    Rows left = sights(station);
    held_against(judge, station, verdict, left);
    out_.table(Rows::beside(std::move(left), parts(sum, scale, 2, small_unit(out_.unit))));
    carried(station);
    const Tolerance& tolerance = *judge.tolerance_of(out_.book.names.text(station.what));
    probability(verdict.deviation, std::sqrt(std::max(0.0, out_.model.variance_of(sum))),
                limits_of(tolerance.below, tolerance.above), verdict.judged, scale, 2, small_unit(out_.unit));
}

// More than two sights stand in tables of their own; the last one is left to be gone on with.
Rows Worked::sights(const Station& station) {
    const std::vector<std::uint32_t>& all = sights_of_[static_cast<std::size_t>(station.point)];
    std::size_t first = 0;
    for (; all.size() - first > most_beside; first += std::min(all.size() - first - 1, most_alone))
        out_.table(sights(all, first, first + std::min(all.size() - first - 1, most_alone)));
    return sights(all, first, all.size());
}

Rows Worked::sights(const std::vector<std::uint32_t>& all, std::size_t first, std::size_t last) const {
    std::vector<sheet::Table::Column> columns = {words_column("its level, " + unit_text(out_.unit))};
    std::vector<std::vector<std::string>> lines = {{"booked"},
                                                   {"height of the light at the instrument"},
                                                   {"+ along the main axis (X)"},
                                                   {"+ along the cross axis (Y)"},
                                                   {"+ earth and air"},
                                                   {"+ other corrections"},
                                                   {"= height of the light over the point"},
                                                   {"- staff, upright and down to the surface"},
                                                   {"+ left over in the adjustment"},
                                                   {"= level"}};
    for (std::size_t k = first; k < last; ++k) {
        const SightRow& row = out_.model.sights.rows[all[k]];
        const Reading& reading = out_.book.readings[row.reading];
        const Sight sight = take_apart(out_.model, row, all[k]);
        columns.push_back(figure_column("reading " + out_.book.id_of(reading.entry) + ", set-up " +
                                        out_.name(reading.setup)));
        const std::vector<std::string> figures = {booked_words(out_.book, reading),
                                                  out_.fine(sight.plane),
                                                  out_.signed_fine(sight.main),
                                                  out_.signed_fine(sight.cross),
                                                  out_.signed_fine(sight.curved),
                                                  out_.signed_fine(sight.other),
                                                  out_.fine(sight.light),
                                                  out_.fine(sight.staff),
                                                  out_.signed_fine(sight.left_over),
                                                  out_.fine(sight.light - sight.staff + sight.left_over)};
        for (std::size_t i = 0; i < lines.size(); ++i) lines[i].push_back(figures[i]);
    }
    Rows rows("", std::move(columns));
    for (std::vector<std::string>& line : lines) {
        // A point that hangs on steps alone has no sight to take apart.
        if (last > first) rows.add(std::move(line));
    }
    return rows;
}

// Steps by tape or spirit level that the point hangs on.
void Worked::carried(const Station& station) {
    const NameId name = out_.model.points.name(static_cast<std::size_t>(station.point));
    std::vector<std::string> items;
    for (const Step& step : out_.book.steps) {
        if (step.from != name && step.to != name) continue;
        items.push_back("step " + out_.book.id_of(step.entry) + " from " + out_.name(step.from) + " to " +
                        out_.name(step.to) + ": " + out_.signed_fine(step.rise) + " \u00b1 " +
                        out_.mm(step.sd));
    }
    out_.list(std::move(items));
}

void Worked::held_against(const LineJudge& judge, const Station& station, const StationVerdict& verdict,
                          Rows& rows) {
    const PointLevel& found = out_.model.levels[static_cast<std::size_t>(station.point)];
    const Tolerance& tolerance = *judge.tolerance_of(out_.book.names.text(station.what));
    const auto add = [&rows](std::string name, std::string value) {
        std::vector<std::string> cells(rows.width());
        cells.front() = std::move(name);
        cells.back() = std::move(value);
        rows.add(std::move(cells));
    };
    if (rows.width() == 1) rows.add_column(figure_column(unit_text(out_.unit)));
    add("level found, of all readings together", out_.fine(found.level));
    add("- level wanted", out_.fine(verdict.design));
    add("= off, high positive", out_.signed_fine(verdict.deviation));
    if (tolerance.above.has()) add("allowed above", out_.signed_fine(tolerance.above.value));
    if (tolerance.below.has()) add("allowed below", out_.signed_fine(tolerance.below.value));
}

Rows Worked::parts(const std::vector<PointTerm>& sum, double scale, int places, const std::string& unit) {
    const double variance = out_.model.variance_of(sum);
    Rows rows(
        "", {words_column("parts of the \u00b1"), figure_column("\u00b1 " + unit), figure_column("squared")});
    if (std::isnan(variance)) return rows;
    const Budget budget = budget_of(out_.book, out_.model, sum);
    const auto add = [&](const std::string& name, double part, bool strong) {
        constexpr int figures = 4;
        rows.add_cells({{name, strong},
                        {fixed(std::sqrt(part) * scale, places), strong},
                        {significant(part * scale * scale, figures), strong}});
    };
    for (std::size_t i = 0; i < cause_count; ++i) {
        if (std::sqrt(budget[i]) * scale >= std::pow(0.1, places) / 2)
            add(std::string(cause_words(static_cast<BudgetPart>(i))), budget[i], false);
    }
    add("all: root of the sum of the squares", variance, true);
    return rows;
}

void Worked::probability(double x, double sd, const Limits& limits, const Judgement& judged, double scale,
                         int places, const std::string& unit) {
    const auto shown = [&](double value) { return fixed(value * scale, places); };
    const auto argument = [&](double limit) {
        return "(" + shown(limit) + " - " + (x < 0 ? "(" + shown(x) + ")" : shown(x)) + ") / " + shown(sd);
    };
    if (!(sd > 0)) {
        out_.say("Nothing is uncertain here: within or outside as measured.");
        return;
    }
    std::string formula, figures;
    const auto add = [&](double limit, bool upper) {
        if (!std::isfinite(limit)) return;
        const std::string sign = upper ? "" : formula.empty() ? "1 - " : " - ";
        formula += sign + "Phi(" + argument(limit) + ")";
        figures += sign + "Phi(" + fixed((limit - x) / sd, 3) + ")";
    };
    add(limits.above, true);
    add(limits.below, false);
    out_.say("Probability that it truly is within, in " + unit + ": " + formula + " = " + figures + " = " +
             fixed(judged.probability, probability_places) + ", said as " + percent(judged.probability) +
             ". Phi is the normal distribution function.");
}

void Worked::fall(const LineJudge& judge, const FoundFall& fall, const FallVerdict& verdict) {
    constexpr double hundred = 100;
    constexpr int places = 4;
    const auto level_of = [this](const Station& station) {
        return out_.model.levels[static_cast<std::size_t>(station.point)].level;
    };
    const double start = level_of(*fall.start), end = level_of(*fall.end), over = fall.to - fall.from;
    const double sign = (end - start) / over * fall.gradient < 0 ? -1 : 1;  // of the way the water runs
    const auto shown = [&](double ratio) { return fixed(ratio * hundred, places) + " %"; };
    Rows rows("", {words_column("the fall"), figure_column("")});
    rows.add({"level at " + level(fall.from, out_.unit), out_.fine(start)});
    rows.add({"level at " + level(fall.to, out_.unit), out_.fine(end)});
    rows.add({"distance", level(over, out_.unit)});
    rows.add(
        {sign < 0 ? "(first - second) / distance" : "(second - first) / distance", shown(fall.gradient)});
    const Tolerance& tolerance = *judge.tolerance_of(fall.what);
    if (tolerance.fall_min.has()) rows.add({"least allowed", shown(tolerance.fall_min.value)});
    if (tolerance.fall_max.has()) rows.add({"most allowed", shown(tolerance.fall_max.value)});
    const std::vector<PointTerm> sum = {{fall.start->point, -sign / over}, {fall.end->point, sign / over}};
    out_.table(Rows::beside(std::move(rows), parts(sum, hundred, places, "%")));
    probability(fall.gradient, fall.sd, limits_of(tolerance.fall_min, tolerance.fall_max), verdict.judged,
                hundred, places, "%");
}

}  // namespace fallwright::record
