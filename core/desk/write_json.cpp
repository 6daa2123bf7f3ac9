#include "desk/write_json.h"

#include <algorithm>
#include <cmath>

#include "base/print.h"
#include "fall/falls.h"
#include "quantity/gradient.h"

namespace fallwright {

namespace {

class Writer {
  public:
    explicit Writer(const Evaluation& evaluation)
        : evaluation_(evaluation), book_(*evaluation.book), model_(*evaluation.model) {}

    std::string whole() {
        out_.begin_object();
        head();
        levels();
        setups();
        pages();
        closures();
        adjustment();
        readings();
        lines();
        foot();
        return out_.take();
    }

    std::string levels_only() {
        out_.begin_object();
        head();
        levels();
        pages();
        closures();
        foot();
        return out_.take();
    }

  private:
    void length(std::string_view key, double metres) {
        out_.number(key, book_.in_unit(metres), length_places);
    }
    void length(std::string_view key, Decimal value) { length(key, value.metres()); }
    void length(std::string_view key, const std::optional<Decimal>& value) {
        if (value) {
            length(key, *value);
        } else {
            out_.null(key);
        }
    }
    void gradient(std::string_view key, double ratio) { out_.number(key, ratio, gradient_places); }

    void head() {
        out_.integer("version", format_version);
        out_.text("unit", unit_word(book_.unit));
        out_.text("datum", model_.assumed_datum ? "assumed" : "stated");
        out_.key("presets").begin_array();
        for (const UsedPreset& used : evaluation_.presets)
            out_.begin_object().text("name", used.name).text("edition", used.edition).end_object();
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
            out_.begin_object().text("point", book_.name(model_.points.name(i)));
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
            out_.begin_object().text("name", book_.name(book_.setups[i].name));
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

    void pages() {
        out_.key("pages").begin_array();
        for (const Page& page : evaluation_.pages.pages) write_page(page);
        out_.end_array();
    }

    void write_page(const Page& page) {
        out_.begin_object().key("rows").begin_array();
        for (const PageRow& row : page.rows) write_row(page, row);
        out_.end_array();
        const auto sum = [&](std::string_view key, Decimal value) {
            length(key, page.sloped ? std::nullopt : std::optional(value));
        };
        sum("sum_back", page.sum_back);
        sum("sum_fore", page.sum_fore);
        sum("sum_rise", page.sum_rise);
        sum("sum_fall", page.sum_fall);
        length("first", page.first);
        length("last", page.last);
        if (page.sloped) {
            out_.null("agrees");
        } else {
            out_.boolean("agrees", page.agrees);
        }
        out_.end_object();
    }

    void write_row(const Page& page, const PageRow& row) {
        const Reading& reading = book_.readings[row.reading];
        out_.begin_object().text("id", book_.id_of(reading.entry));
        out_.text("setup", book_.name(book_.setups[static_cast<std::size_t>(row.setup)].name));
        out_.text("point", book_.name(reading.point));
        length("back", row.back);
        length("inter", row.inter);
        length("fore", row.fore);
        length("rise", row.rise);
        length("fall", row.fall);
        length("collimation", row.collimation);
        length("level", row.level);
        length("adjusted", row.adjusted);
        const std::string_view remark = remark_of(page, row);
        if (remark.empty()) {
            out_.null("remark");
        } else {
            out_.text("remark", remark);
        }
        out_.end_object();
    }

    void closures() {
        out_.key("closures").begin_array();
        for (std::size_t i = 0; i < evaluation_.closures.size(); ++i) {
            const Closure& closure = evaluation_.pages.closures[i];
            const JudgedClosure& judged = evaluation_.closures[i];
            out_.begin_object()
                .text("from", book_.name(closure.from))
                .text("to", book_.name(closure.to))
                .integer("setups", closure.setups);
            out_.number("length", book_.in_unit(closure.length.value), length_places);
            length("misclosure", closure.misclosure);
            length("allowed", judged.allowed);
            out_.text("rule", evaluation_.rule.name);
            if (std::isnan(judged.allowed)) {
                out_.null("ok");
            } else {
                out_.boolean("ok", judged.ok);
            }
            out_.end_object();
        }
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
        write_fit(row < 0 ? none : model_.fits[static_cast<std::size_t>(row)]);
        out_.end_object();
    }

    void write_step(std::size_t i) {
        out_.begin_object().text("id", book_.id_of(book_.steps[i].entry));
        length("value", book_.steps[i].rise);
        out_.null("off_plane");
        write_fit(model_.step_fits[i]);
        out_.end_object();
    }

    void write_fit(const ReadingFit& fit) {
        length("residual", fit.residual);
        length("sd", fit.sd);
        out_.figures("w", fit.w, significant_figures);
        out_.number("redundancy", fit.redundancy, probability_places);
        length("detectable", fit.detectable);
    }

    void lines() {
        out_.key("lines").begin_array();
        for (std::size_t i = 0; i < evaluation_.lines.size(); ++i) {
            out_.begin_object().text("name", book_.name(book_.lines[i].name));
            out_.key("fits").begin_array();
            for (const Fit& fit : evaluation_.lines[i].fits) write_line_fit(fit);
            out_.end_array();
            out_.key("stations").begin_array();
            for (const Station& station : evaluation_.lines[i].stations) write_station(station);
            out_.end_array();
            out_.key("falls").begin_array();
            for (const FoundFall& fall : list_falls(book_.lines[i], evaluation_.lines[i], model_))
                write_fall(i, fall);
            out_.end_array().end_object();
        }
        out_.end_array();
    }

    void write_line_fit(const Fit& fit) {
        const Gradient found = Gradient::ratio(fit.gradient);
        out_.begin_object().text("what", book_.name(fit.what));
        gradient("gradient", fit.gradient);
        gradient("sd", fit.sd);
        out_.figures("one_in", found.one_in().value_or(NAN), significant_figures);
        out_.text("word", found.word());
        length("level_at_0", fit.level_at_0);
        length("rms", fit.rms);
        out_.end_object();
    }

    void write_station(const Station& station) {
        const PointLevel& level = model_.levels[static_cast<std::size_t>(station.point)];
        out_.begin_object();
        length("ch", station.ch);
        length("off", station.off);
        out_.text("what", book_.name(station.what));
        length("level", level.level);
        length("sd", level.sd);
        length("off_fit", station.off_fit);
        out_.end_object();
    }

    void write_fall(std::size_t line, const FoundFall& fall) {
        out_.begin_object();
        length("from", fall.from);
        length("to", fall.to);
        out_.text("what", book_.name(fall.what)).text("span", fall.span == Span::Line ? "line" : "neighbour");
        gradient("gradient", fall.gradient);
        gradient("sd", fall.sd);
        out_.null("design").key("verdict");
        if (has_tolerance(book_.lines[line].name, fall.what)) {
            out_.null();
        } else {
            out_.text("untested");
        }
        out_.null("backfall_probability").end_object();
    }

    bool has_tolerance(NameId line, NameId what) const {
        const auto for_it = [&](const Tolerance& tolerance) {
            return tolerance.line == line && tolerance.what == what;
        };
        return std::any_of(book_.tolerances.begin(), book_.tolerances.end(), for_it);
    }

    const Evaluation& evaluation_;
    const Book& book_;
    const Model& model_;
    JsonOut out_;
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

std::string error_json(const Finding& found) {
    const CatalogueEntry& entry = catalogue(found.code);
    JsonOut out;
    out.begin_object().key("error").begin_object();
    out.text("severity", severity_word(entry.severity)).text("code", entry.text).key("about").begin_array();
    for (const std::string& name : found.about) out.text(name);
    out.end_array().text("message", found.message).text("cure", found.cure).end_object().end_object();
    return out.take();
}

std::string evaluate_json(const Evaluation& evaluation) {
    return Writer(evaluation).whole();
}

std::string levels_json(const Evaluation& evaluation) {
    return Writer(evaluation).levels_only();
}

}  // namespace fallwright
