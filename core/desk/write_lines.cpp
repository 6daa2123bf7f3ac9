#include <cmath>

#include "desk/absent.h"
#include "desk/evaluation_out.h"
#include "fall/falls.h"
#include "quantity/gradient.h"
#include "verdict/ponds.h"
#include "verdict/verdict.h"

namespace fallwright {

namespace {

class LineWriter : EvaluationOut {
  public:
    LineWriter(const Evaluation& evaluation, JsonOut& out) : EvaluationOut(evaluation, out) {}

    void write() {
        out_.key("lines").begin_array();
        for (std::size_t i = 0; i < evaluation_.lines.size(); ++i) write_line(i);
        out_.end_array();
    }

  private:
    void write_line(std::size_t i) {
        const LineFalls& found = evaluation_.lines[i];
        const Design& design = evaluation_.designs.lines[i];
        const LineJudge judge(book_, design, found, model_);
        out_.begin_object().text("name", book_.names.text(book_.lines[i].name));
        out_.key("fits").begin_array();
        for (const Fit& fit : found.fits) write_line_fit(fit);
        out_.end_array().key("stations").begin_array();
        for (const Station& station : found.stations) write_station(station, judge.judge(station));
        out_.end_array().key("falls").begin_array();
        for (const FoundFall& fall : list_falls(book_, design, found, model_))
            write_fall(fall, judge.judge(fall));
        out_.end_array().key("ponds").begin_array();
        for (const Pond& pond : find_ponds(book_, design, found, model_)) write_pond(pond);
        out_.end_array().key("all_within").begin_object();
        for (const AllWithin& all : judge.all_within())
            out_.own_key(all.what).number(all.probability, probability_places);
        out_.end_object();
        write_evenness(evaluation_, i, judge, out_);
        out_.end_object();
    }

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

    void write_station(const Station& station, const StationVerdict& verdict) {
        const PointLevel& level = model_.levels[static_cast<std::size_t>(station.point)];
        out_.begin_object();
        length("ch", station.ch);
        length("off", station.off);
        out_.text("what", book_.names.text(station.what));
        length("level", level.level);
        length("sd", level.sd);
        length("design", verdict.design);
        length("deviation", verdict.deviation);
        length("off_fit", station.off_fit);
        write_judgement(verdict.judged);
        length("dig", verdict.dig);
        text_or_null(out_, "dig_to", verdict.dig_to);
        out_.key("below").begin_array();
        for (const Below& below : verdict.below) {
            out_.begin_object().text("what", below.what);
            length("depth", below.depth);
            out_.end_object();
        }
        out_.end_array().key("earlier").begin_array();
        for (const Earlier& earlier : verdict.earlier) write_earlier(earlier);
        out_.end_array().end_object();
    }

    void write_judgement(const Judgement& judged) {
        out_.text("verdict", verdict_word(judged.verdict));
        const bool tested = judged.verdict != Verdict::Untested;
        text_or_null(out_, "plain", !tested ? "" : judged.plain_within ? "within" : "outside");
        out_.number("probability", tested ? judged.probability : NAN, probability_places);
    }

    void write_earlier(const Earlier& earlier) {
        out_.begin_object().text("point", book_.names.text(earlier.point));
        length("level", earlier.level);
        length("sd", earlier.sd);
        length("deviation", earlier.deviation);
        text_or_null(out_, "until", format_time(book_.entries[earlier.until].at));
        out_.end_object();
    }

    void write_fall(const FoundFall& fall, const FallVerdict& verdict) {
        out_.begin_object();
        length("from", fall.from);
        length("to", fall.to);
        out_.text("what", fall.what).text("span", span_word(fall.span));
        gradient("gradient", fall.gradient);
        gradient("sd", fall.sd);
        gradient("design", verdict.design);
        out_.text("verdict", verdict_word(verdict.judged.verdict));
        out_.number("backfall_probability", verdict.backfall_probability, probability_places);
        out_.end_object();
    }

    void write_pond(const Pond& pond) {
        out_.begin_object();
        length("from", pond.from);
        length("to", pond.to);
        length("depth", pond.depth);
        out_.number("probability", pond.probability, probability_places).end_object();
    }
};

}  // namespace

void write_lines(const Evaluation& evaluation, JsonOut& out) {
    LineWriter(evaluation, out).write();
}

}  // namespace fallwright
