#include <cmath>
#include <utility>

#include "base/print.h"
#include "desk/fall_typed.h"
#include "fall/cross_check.h"
#include "preset/error_figures.h"

namespace fallwright {

namespace {

std::string people_length(double metres, Unit unit) {
    const double value = unit == Unit::Foot ? metres / metres_per_foot : metres;
    return fixed(value, 3) + (unit == Unit::Foot ? " ft" : " m");
}

std::string people_gradient(double ratio) {
    return all_ways(Gradient::ratio(ratio)).one_in + " (" + all_ways(Gradient::ratio(ratio)).percent + ")";
}

void explain_pivot(const TypedFall& typed, const FallCheck& found, FallAnswer::Check& check) {
    const Unit unit = typed.unit;
    std::string sentence =
        "The light was tilted until the far point read the near point's figure: the head pivots, the near "
        "point would lie " +
        people_length(std::fabs(found.ahead_wanted), unit) +
        (found.ahead_wanted >= 0 ? " ahead of" : " behind") + " the laser, and the plane passes " +
        people_length(std::fabs(found.near_off), unit) + (found.near_off >= 0 ? " above" : " below") +
        " the mark there. Read the near point again.";
    if (typed.near) {
        const double predicted = pivoted_gradient(typed.staff.front(), typed.staff.back(),
                                                  typed.at.back() - typed.at.front(), *typed.near);
        const bool fits = std::fabs(predicted - *typed.shown) <= 1.96 * check.sd;
        sentence += fits ? " With the near point where you say it is, this is what would be shown."
                         : " With the near point where you say it is, " + people_gradient(predicted) +
                               " would be shown.";
    }
    check.explanations.push_back({"pivoting-head", std::move(sentence), found.ahead_wanted, found.near_off});
}

}  // namespace

void cross_check(const TypedFall& typed, FallAnswer& answer) {
    FallCheckInput input;
    input.near_reading = typed.staff.front();
    input.far_reading = typed.staff.back();
    input.distance = typed.at.back() - typed.at.front();
    input.gradient_sd = answer.gradient_sd;
    input.shown = *typed.shown;
    input.shown_sd = preset::assumed_rotating_laser.grade_sd;
    const FallCheck found = check_fall(input);
    FallAnswer::Check check;
    check.agrees = found.agrees;
    check.disagreement = found.disagreement;
    check.sd = found.sd;
    if (!found.agrees) {
        const double difference = input.near_reading - input.far_reading;
        const std::string shown = people_gradient(input.shown);
        if (std::isfinite(found.distance_wanted) && found.distance_wanted > 0) {
            check.explanations.push_back({"distance",
                                          "The distance would have to be " +
                                              people_length(found.distance_wanted, typed.unit) + " to make " +
                                              shown + ".",
                                          found.distance_wanted, input.distance - found.distance_wanted});
            explain_pivot(typed, found, check);
        }
        check.explanations.push_back({"reading",
                                      "The readings would have to differ by " +
                                          people_length(std::fabs(found.difference_wanted), typed.unit) +
                                          " to make " + shown + ".",
                                      found.difference_wanted, difference - found.difference_wanted});
        check.explanations.push_back(
            {"shown", "The instrument would have to show " + people_gradient(found.gradient) + ".",
             found.gradient, input.shown - found.gradient});
        answer.findings.push_back(finding(Code::FallDisagrees, {},
                                          "readings and distance make " + people_gradient(found.gradient) +
                                              ", the instrument shows " + shown));
    }
    answer.check = std::move(check);
}

}  // namespace fallwright
