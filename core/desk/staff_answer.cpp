#include "desk/staff_answer.h"

#include <cmath>

#include "base/json_out.h"
#include "base/print.h"
#include "desk/write_json.h"
#include "staff/face.h"
#include "staff/picture.h"
#include "staff/plausibility.h"

namespace fallwright {

namespace {

Decimal decimal(Length length) {
    return Decimal::metres(length.metres());
}

}  // namespace

Result<StaffAnswer> staff_picture(desk::Options& options) {
    const std::optional<Length> reading = options.length("reading");
    const std::optional<Length> staff_length = options.length("staff_length");
    const std::optional<Length> window = options.length("window");
    const std::optional<std::string> style = options.text("style");
    const bool ascii = options.flag("ascii");
    StaffAnswer answer;
    answer.unit = options.unit();
    answer.inverted = options.flag("inverted") || (reading && reading->metres() < 0);
    answer.svg = style.value_or("text") == "svg";
    if (style && *style != "svg" && *style != "text")
        options.refuse(finding(Code::BadRequest, {"style"}, "style must be text or svg"));
    if (!reading)
        options.refuse(
            finding(Code::BadRequest, {"reading"}, "the reading is missing", "give it like 1.432"));
    if (staff_length && !(staff_length->metres() > 0))
        options.refuse(finding(Code::BadRequest, {"staff_length"}, "a staff's length is above 0"));
    if (window && !(window->metres() > 0))
        options.refuse(finding(Code::BadRequest, {"window"}, "a receiver's window is above 0"));
    for (const std::optional<Length>& length : {reading, staff_length, window}) {
        if (length && std::fabs(length->metres()) > Decimal::limit_metres)
            options.refuse(finding(Code::BadRequest, {"staff"}, "a length is beyond a million kilometres"));
    }
    if (options.fault()) return *options.fault();

    staff::Kit kit;
    if (staff_length) kit.length = decimal(*staff_length);
    staff::AsRead as;
    as.unit = answer.unit;
    as.staff = decimal(*reading);
    as.inverted = answer.inverted;
    for (Finding& found : staff::judge(as, kit)) {
        found.about = {"reading"};
        if (catalogue(found.code).severity == Severity::Error) return found;
        answer.findings.push_back(found);
    }
    staff::View view;
    view.reading = as.staff < Decimal() ? -*as.staff : *as.staff;
    view.unit = answer.unit;
    view.inverted = answer.inverted;
    view.length = kit.length ? *kit.length : staff::assumed_length;
    if (window) view.window = decimal(*window);
    answer.reading = view.reading.metres();
    answer.drawing = answer.svg ? staff::picture_svg(view)
                                : staff::picture_text(view, ascii ? staff::Ink::Ascii : staff::Ink::Blocks);
    answer.words = staff::how_to_read(view.reading, view.unit, view.inverted);
    return answer;
}

std::string staff_json(const StaffAnswer& answer) {
    const double unit = answer.unit == Unit::Foot ? metres_per_foot : 1;
    JsonOut out;
    out.begin_object()
        .integer("version", format_version)
        .text("unit", unit_word(answer.unit))
        .number("reading", answer.reading / unit, length_places);
    out.boolean("inverted", answer.inverted)
        .text("style", answer.svg ? "svg" : "text")
        .text("drawing", answer.drawing)
        .text("words", answer.words);
    write_findings(out, answer.findings);
    out.end_object();
    return out.take();
}

}  // namespace fallwright
