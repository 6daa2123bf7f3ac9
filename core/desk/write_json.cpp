#include "desk/write_json.h"

#include <algorithm>
#include <cmath>

#include "base/print.h"
#include "desk/dial_answer.h"
#include "desk/evaluation_out.h"
#include "desk/setout_answer.h"
#include "desk/trial_answer.h"
#include "desk/write_run.h"

namespace fallwright {

namespace {

class Writer : EvaluationOut {
  public:
    Writer(const Evaluation& evaluation, JsonOut& out) : EvaluationOut(evaluation, out) {}

    void whole() {
        out_.begin_object();
        head();
        levels();
        setups();
        write_pages(evaluation_, out_);
        adjustment();
        readings();
        write_lines(evaluation_, out_);
        write_dials(evaluation_, out_);
        write_setout(evaluation_, out_);
        drains();
        write_trials(evaluation_, out_);
        write_suspects(evaluation_, out_);
        write_surfaces(evaluation_, out_);
        write_cautions(out_, evaluation_.cautions.all);
        foot();
    }

    void suspects_only() {
        out_.begin_object();
        head();
        adjustment();
        write_suspects(evaluation_, out_);
        write_unnoticed(evaluation_, out_);
        foot();
    }

    void levels_only() {
        out_.begin_object();
        head();
        levels();
        write_pages(evaluation_, out_);
        foot();
    }

    void lines_only() {
        out_.begin_object();
        head();
        write_lines(evaluation_, out_);
        write_surfaces(evaluation_, out_);
        foot();
    }

  private:
    void head() {
        out_.integer("version", format_version);
        out_.text("unit", unit_word(book_.unit));
        out_.text("datum", model_.assumed_datum ? "assumed" : "stated");
        out_.key("presets").begin_array();
        for (const UsedPreset& used : evaluation_.presets) {
            out_.begin_object().text("name", used.name).text("edition", used.edition);
            out_.text("source", used.source).text("provenance", used.provenance).end_object();
        }
        out_.end_array();
    }

    void foot() {
        write_findings(out_, evaluation_.findings);
        out_.end_object();
    }

    void levels() {
        out_.key("levels").begin_array();
        for (std::size_t i = 0; i < model_.levels.size(); ++i) {
            const PointLevel& level = model_.levels[i];
            out_.begin_object().text("point", book_.names.text(model_.points.name(i)));
            length("level", level.level);
            length("sd", level.sd);
            out_.integer("readings", level.readings).boolean("checked", level.checked).end_object();
        }
        out_.end_array();
    }

    void setups() {
        out_.key("setups").begin_array();
        for (std::size_t i = 0; i < model_.planes.size(); ++i) {
            const LightPlane& plane = model_.planes[i];
            out_.begin_object().text("name", book_.names.text(book_.setups[i].name));
            length("plane", plane.level);
            length("sd", plane.sd);
            gradient("main", plane.gradient[0]);
            gradient("main_sd", plane.gradient_sd[0]);
            gradient("cross", plane.gradient[1]);
            gradient("cross_sd", plane.gradient_sd[1]);
            out_.end_object();
        }
        out_.end_array();
    }

    // Left out where the book has none.
    void drains() {
        if (evaluation_.drains.runs.empty()) return;
        out_.key("drains").begin_array();
        for (const drain::Run& run : evaluation_.drains.runs) write_run(out_, book_, run);
        out_.end_array();
    }

    void adjustment() {
        const Summary& summary = model_.summary;
        const double limits = summary.dof > 0 ? 0 : NAN;
        out_.key("adjustment").begin_object();
        out_.integer("observations", summary.observations)
            .integer("unknowns", summary.unknowns)
            .integer("dof", summary.dof);
        out_.figures("sigma0", summary.sigma0, significant_figures)
            .figures("chi2", summary.chi2, significant_figures);
        out_.figures("chi2_low", summary.chi2_low + limits, significant_figures)
            .figures("chi2_high", summary.chi2_high + limits, significant_figures);
        out_.boolean("ok", summary.ok).end_object();
    }

    // Readings and steps, in order of the book.
    void readings() {
        out_.key("readings").begin_array();
        std::size_t step = 0;
        for (std::size_t i = 0; i < book_.readings.size(); ++i) {
            while (step < book_.steps.size() && book_.steps[step].entry < book_.readings[i].entry)
                write_step(step++);
            if (!book_.readings[i].planned) write_reading(i);
        }
        while (step < book_.steps.size()) write_step(step++);
        out_.end_array();
    }

    void write_reading(std::size_t i) {
        const Reading& reading = book_.readings[i];
        const Decimal value = evaluation_.figures.value[i];
        out_.begin_object().text("id", book_.id_of(reading.entry));
        length("value", reading.figure.inverted ? -value : value);
        length("off_plane", off_plane(evaluation_, i));
        const ReadingFit none = {NAN, NAN, NAN, NAN, NAN};
        const std::int32_t row = model_.sights.row_of[i];
        write_fit(row < 0 ? none : model_.fit(static_cast<std::size_t>(row)));
        out_.end_object();
    }

    void write_step(std::size_t i) {
        out_.begin_object().text("id", book_.id_of(book_.steps[i].entry));
        length("value", book_.steps[i].rise);
        out_.null("off_plane");
        write_fit(model_.step_fit(i));
        out_.end_object();
    }

    void write_fit(const ReadingFit& fit) {
        length("residual", fit.residual);
        length("sd", fit.sd);
        out_.figures("w", fit.w, significant_figures);
        out_.number("redundancy", fit.redundancy, probability_places);
        length("detectable", fit.detectable);
    }
};

}  // namespace

std::string_view unit_word(Unit unit) {
    return unit == Unit::Foot ? "ft" : "m";
}

void write_findings(JsonOut& out, const Findings& findings) {
    out.key("findings").begin_array();
    for (const Finding& each : findings) {
        const CatalogueEntry& entry = catalogue(each.code);
        out.begin_object().text("severity", severity_word(entry.severity)).text("code", entry.text);
        out.key("about").begin_array();
        for (const std::string& name : each.about) out.text(name);
        out.end_array().text("message", each.message).text("cure", each.cure).end_object();
    }
    out.end_array();
}

void write_cautions(JsonOut& out, const std::vector<Caution>& cautions) {
    out.key("cautions").begin_array();
    for (const Caution& each : cautions) {
        out.begin_object().text("code", each.code).key("about").begin_array();
        for (const std::string& name : each.about) out.text(name);
        out.end_array().text("text", each.text).text("source", each.source).text("edition", each.edition);
        out.text("provenance", preset::provenance_word(each.provenance)).end_object();
    }
    out.end_array();
}

std::string error_json(const Finding& found) {
    const CatalogueEntry& entry = catalogue(found.code);
    JsonOut out;
    out.begin_object().key("error").begin_object();
    out.text("severity", severity_word(entry.severity)).text("code", entry.text).key("about").begin_array();
    for (const std::string& name : found.about) out.text(name);
    out.end_array().text("message", found.message).text("cure", found.cure).end_object().end_object();
    return out.take();
}

void write_evaluation(const Evaluation& evaluation, JsonOut& out) {
    Writer(evaluation, out).whole();
}

void write_levels(const Evaluation& evaluation, JsonOut& out) {
    Writer(evaluation, out).levels_only();
}

void write_check(const Evaluation& evaluation, JsonOut& out) {
    Writer(evaluation, out).lines_only();
}

void write_suspicions(const Evaluation& evaluation, JsonOut& out) {
    Writer(evaluation, out).suspects_only();
}

std::string written(const Evaluation& evaluation, void (*write)(const Evaluation&, JsonOut&)) {
    JsonOut out;
    write(evaluation, out);
    return out.take();
}

}  // namespace fallwright
