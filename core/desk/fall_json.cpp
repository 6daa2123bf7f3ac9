#include <cmath>

#include "base/json_out.h"
#include "base/print.h"
#include "desk/absent.h"
#include "desk/fall_answer.h"
#include "desk/write_json.h"

namespace fallwright {

namespace {

void write_reading(JsonOut& out, const FallAnswer& answer, const FallReading& reading) {
    const double unit = answer.unit == Unit::Foot ? metres_per_foot : 1;
    out.begin_object()
        .number("at", reading.at / unit, length_places)
        .number("staff", reading.staff / unit, length_places);
    out.number("off_fit", reading.off_fit / unit, length_places).end_object();
}

void write_gradient(JsonOut& out, const FallAnswer& answer) {
    out.key("gradient");
    if (std::isnan(answer.gradient)) {
        out.null();
        return;
    }
    const Gradient found = Gradient::ratio(answer.gradient);
    out.begin_object()
        .number("ratio", answer.gradient, gradient_places)
        .number("sd", answer.gradient_sd, gradient_places);
    out.figures("one_in", found.one_in().value_or(NAN), significant_figures).text("word", found.word());
    out.figures("percent", found.percent(), significant_figures)
        .figures("permille", found.permille(), significant_figures);
    out.figures("degrees", found.degrees(), significant_figures).end_object();
}

void write_check(JsonOut& out, const FallAnswer& answer) {
    out.key("check");
    if (!answer.check) {
        out.null();
        return;
    }
    const double unit = answer.unit == Unit::Foot ? metres_per_foot : 1;
    out.begin_object()
        .boolean("agrees", answer.check->agrees)
        .number("disagreement", answer.check->disagreement, gradient_places);
    out.number("sd", answer.check->sd, gradient_places).key("explanations").begin_array();
    for (const FallExplanation& each : answer.check->explanations) {
        const bool ratio = each.kind == "shown";
        out.begin_object().text("kind", each.kind).text("sentence", each.sentence);
        out.number("wanted", ratio ? each.wanted : each.wanted / unit,
                   ratio ? gradient_places : length_places);
        out.number("size", ratio ? each.size : each.size / unit, ratio ? gradient_places : length_places)
            .end_object();
    }
    out.end_array().end_object();
}

}  // namespace

std::string fall_json(const FallAnswer& answer) {
    const double unit = answer.unit == Unit::Foot ? metres_per_foot : 1;
    JsonOut out;
    out.begin_object().integer("version", format_version).text("unit", unit_word(answer.unit));
    text_or_null(out, "line", answer.line);
    text_or_null(out, "what", answer.what);
    out.key("readings").begin_array();
    for (const FallReading& reading : answer.readings) write_reading(out, answer, reading);
    out.end_array();
    out.number("difference", answer.difference / unit, length_places)
        .number("difference_sd", answer.difference_sd / unit, length_places);
    out.number("over", answer.over / unit, length_places)
        .number("over_sd", answer.over_sd / unit, length_places);
    write_gradient(out, answer);
    out.number("rms", answer.rms / unit, length_places).key("worst");
    if (answer.worst < 0) {
        out.null();
    } else {
        write_reading(out, answer, answer.readings[static_cast<std::size_t>(answer.worst)]);
    }
    out.number("one_pass_mark", answer.one_pass_mark / unit, length_places);
    write_check(out, answer);
    write_findings(out, answer.findings);
    out.end_object();
    return out.take();
}

}  // namespace fallwright
