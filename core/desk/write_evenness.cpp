#include <cmath>

#include "desk/absent.h"
#include "desk/evaluation_out.h"
#include "evenness/evenness.h"
#include "verdict/verdict.h"

namespace fallwright {

namespace {

constexpr double per_km = 1000;

class EvennessWriter : EvaluationOut {
  public:
    EvennessWriter(const Evaluation& evaluation, JsonOut& out) : EvaluationOut(evaluation, out) {}

    void write(std::size_t line, const LineJudge& judge) {
        const EvennessBasis basis = {book_, evaluation_.designs.lines[line], evaluation_.lines[line], model_};
        out_.key("evenness").begin_array();
        for (const EvenRow& row : evenness_of(basis)) write_row(row);
        out_.end_array().key("sections").begin_array();
        for (const Section& section : sections_of(basis, judge)) write_section(section);
        out_.end_array();
    }

  private:
    void write_row(const EvenRow& row) {
        out_.begin_object().text("what", book_.names.text(row.what));
        out_.text("direction", row.along ? "along" : "across");
        length("at", row.at);
        length("from", row.from);
        length("to", row.to);
        out_.integer("stations", static_cast<std::int64_t>(row.stations));
        length("spacing", row.spacing);
        write_off("off_straight", row.off_straight);
        if (std::isnan(row.off_design.rms)) {
            out_.null("off_design");
        } else {
            write_off("off_design", row.off_design);
        }
        out_.key("chords").begin_array();
        for (const Chord& chord : row.chords) write_chord(chord);
        out_.end_array();
        write_check("straightedge", row.straightedge);
        if (row.spots.any || !row.spots.refused.empty()) {
            write_check("spots", row.spots);
        } else {
            out_.null("spots");
        }
        out_.key("irregularities").begin_array();
        for (const IrregularityCheck& each : row.irregularities) write_irregularity(each);
        out_.end_array().key("roughness").begin_array();
        for (const Roughness& each : row.roughness) write_roughness(each);
        out_.end_array();
        text_or_null(out_, "roughness_refused", row.roughness_refused);
        out_.end_object();
    }

    void write_off(std::string_view key, const OffLine& off) {
        out_.key(key).begin_object();
        length("mean", off.mean);
        length("rms", off.rms);
        length("worst", off.worst);
        length("sd", off.worst_sd);
        length("at", off.worst_at);
        out_.end_object();
    }

    void write_chord(const Chord& chord) {
        out_.begin_object();
        length("at", chord.at);
        length("base", chord.base);
        length("mid", chord.mid);
        length("sd", chord.sd);
        length("design", chord.design);
        out_.end_object();
    }

    void write_check(std::string_view key, const GapCheck& check) {
        out_.key(key).begin_object();
        length("over", check.over);
        if (check.any) {
            out_.key("worst");
            write_gap(check.worst);
        } else {
            out_.null("worst");
        }
        out_.key("places").begin_array();
        for (const Gap& gap : check.places) write_gap(gap);
        out_.end_array();
        text_or_null(out_, "refused", check.refused);
        out_.end_object();
    }

    void write_gap(const Gap& gap) {
        out_.begin_object();
        length("from", gap.first);
        length("to", gap.last);
        length("at", gap.at);
        length("rests_from", gap.rests[0]);
        length("rests_to", gap.rests[1]);
        length("gap", gap.gap);
        length("sd", gap.sd);
        length("design", gap.design);
        length("limit", gap.limit);
        const bool tested = gap.judged.verdict != Verdict::Untested;
        out_.text("verdict", verdict_word(gap.judged.verdict));
        text_or_null(out_, "plain", !tested ? "" : gap.judged.plain_within ? "within" : "outside");
        out_.number("probability", tested ? gap.judged.probability : NAN, probability_places);
        out_.end_object();
    }

    void write_irregularity(const IrregularityCheck& each) {
        out_.begin_object();
        length("size", each.size);
        length("length", each.length);
        out_.figures("most", each.most, significant_figures);
        out_.integer("count", each.count).integer("surely", each.surely).integer("possibly", each.possibly);
        out_.text("verdict", verdict_word(each.verdict)).end_object();
    }

    void write_roughness(const Roughness& each) {
        out_.begin_object();
        length("from", each.from);
        length("to", each.to);
        length("spacing", each.spacing);
        out_.figures("index", each.index * per_km, significant_figures);
        out_.figures("sd", each.sd * per_km, significant_figures);
        out_.figures("noise", each.noise * per_km, significant_figures);
        out_.figures("without_noise", each.without_noise * per_km, significant_figures);
        length("level_sd", each.level_sd);
        if (each.staff_class == 0) {
            out_.null("class");
        } else {
            out_.integer("class", each.staff_class);
        }
        out_.key("asks").begin_array();
        for (const double resolution : each.asks) out_.number(book_.in_unit(resolution), length_places);
        out_.end_array().end_object();
    }

    void write_section(const Section& section) {
        out_.begin_object();
        length("ch", section.ch);
        out_.text("what", book_.names.text(section.what)).key("points").begin_array();
        for (const SectionPoint& point : section.points) {
            const PointLevel& level = model_.levels[static_cast<std::size_t>(point.station->point)];
            out_.begin_object();
            length("off", point.station->off);
            length("level", level.level);
            length("sd", level.sd);
            length("design", point.verdict.design);
            length("deviation", point.verdict.deviation);
            out_.text("verdict", verdict_word(point.verdict.judged.verdict)).end_object();
        }
        out_.end_array().key("slopes").begin_array();
        for (const SectionSlope& slope : section.slopes) {
            out_.begin_object();
            length("from", slope.from);
            length("to", slope.to);
            gradient("gradient", slope.gradient);
            gradient("sd", slope.sd);
            gradient("design", slope.design);
            out_.end_object();
        }
        out_.end_array().end_object();
    }
};

}  // namespace

void write_evenness(const Evaluation& evaluation, std::size_t line, const LineJudge& judge, JsonOut& out) {
    EvennessWriter(evaluation, out).write(line, judge);
}

}  // namespace fallwright
