#include <algorithm>
#include <cmath>

#include "desk/evaluation_out.h"
#include "fall/falls.h"
#include "quantity/gradient.h"

namespace fallwright {

namespace {

class LineWriter : EvaluationOut {
  public:
    LineWriter(const Evaluation& evaluation, JsonOut& out) : EvaluationOut(evaluation, out) {}

    void write() {
        out_.key("lines").begin_array();
        for (std::size_t i = 0; i < evaluation_.lines.size(); ++i) {
            out_.begin_object().text("name", book_.names.text(book_.lines[i].name));
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

  private:
    void write_line_fit(const Fit& fit) {
        const Gradient found = Gradient::ratio(fit.gradient);
        out_.begin_object().text("what", book_.names.text(fit.what));
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
        out_.text("what", book_.names.text(station.what));
        length("level", level.level);
        length("sd", level.sd);
        length("off_fit", station.off_fit);
        out_.end_object();
    }

    void write_fall(std::size_t line, const FoundFall& fall) {
        out_.begin_object();
        length("from", fall.from);
        length("to", fall.to);
        out_.text("what", book_.names.text(fall.what))
            .text("span", fall.span == Span::Line ? "line" : "neighbour");
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
};

}  // namespace

void write_lines(const Evaluation& evaluation, JsonOut& out) {
    LineWriter(evaluation, out).write();
}

}  // namespace fallwright
