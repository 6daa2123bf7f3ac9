#include "shells/cli/people_fall.h"

#include <cmath>

#include "base/print.h"
#include "quantity/gradient.h"
#include "shells/cli/table.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

namespace {

std::string with_unit(double metres, Unit unit) {
    return level(metres, unit) + " " + unit_text(unit);
}

std::string gradient_text(const FallAnswer& answer) {
    const GradientTexts ways = all_ways(Gradient::ratio(answer.gradient));
    std::string text = ways.one_in == "level" ? "Level" : ways.one_in;
    text += "\n  " + ways.percent + " ± " + gradient_sd(answer.gradient_sd) + ", " + ways.mm_per_m + ", " +
            ways.degrees + "\n";
    return text;
}

std::string difference_text(const FallAnswer& answer) {
    const double size = std::fabs(answer.difference);
    const bool level_ground = rounded_to(size, 4) == 0;
    std::string text = level_ground ? "  both ends at one level"
                                    : "  the far end is " + with_unit(size, answer.unit) +
                                          (answer.difference < 0 ? " lower" : " higher");
    text += " ± " + small(answer.difference_sd, answer.unit) + " " + small_unit(answer.unit);
    if (!std::isnan(answer.over)) text += ", over " + with_unit(answer.over, answer.unit);
    if (answer.over_sd > 0) text += " ± " + with_unit(answer.over_sd, answer.unit);
    return text + "\n";
}

std::string points_text(const FallAnswer& answer) {
    if (answer.worst < 0) return "";
    Table table({{"at"}, {"staff"}, {"off the best line, " + small_unit(answer.unit)}, {"", Align::Left}});
    for (std::size_t i = 0; i < answer.readings.size(); ++i) {
        const FallReading& reading = answer.readings[i];
        table.add({level(reading.at, answer.unit), level(reading.staff, answer.unit),
                   signed_small(reading.off_fit, answer.unit),
                   static_cast<int>(i) == answer.worst ? "worst" : ""});
    }
    return table.text() + "  rms " + small(answer.rms, answer.unit) + " " + small_unit(answer.unit) + "\n";
}

std::string check_text(const FallAnswer& answer) {
    if (!answer.check) return "";
    if (answer.check->agrees) return "  readings, distance and what the instrument shows agree\n";
    std::string text = "Readings, distance and what the instrument shows disagree by " +
                       gradient_sd(std::fabs(answer.check->disagreement)) + " ± " +
                       gradient_sd(answer.check->sd) + ". One of these:\n";
    for (const FallExplanation& each : answer.check->explanations) text += "  - " + each.sentence + "\n";
    return text;
}

}  // namespace

std::string fall_text(const FallAnswer& answer) {
    std::string text = answer.line.empty() ? "" : answer.line + " " + answer.what + ": ";
    if (std::isnan(answer.gradient)) {
        text += "No distance, no gradient\n";
    } else {
        text += gradient_text(answer);
    }
    text += difference_text(answer) + points_text(answer) + check_text(answer);
    if (!std::isnan(answer.one_pass_mark))
        text += "  to take this fall up in one pass, tilt until both points read " +
                with_unit(answer.one_pass_mark, answer.unit) + "\n";
    return text + findings_text(answer.findings);
}

}  // namespace fallwright::cli
