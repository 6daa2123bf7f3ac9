#include "staff/plausibility.h"

#include <cmath>
#include <string>
#include <string_view>
#include <utility>

#include "staff/face.h"
#include "staff/reduce.h"

namespace fallwright::staff {

namespace {

constexpr Decimal zero;

Decimal magnitude(Decimal value) {
    return value < zero ? -value : value;
}

class Judge {
  public:
    Judge(const AsRead& reading, const Kit& kit) : reading_(reading), kit_(kit) {}

    Findings findings() {
        const bool both = reading_.high && reading_.low;
        if (both) add(Code::HighAndLow, "high and low are given together");
        if (!both) judge_signs();
        judge_ends();
        if (!both) judge_light();
        judge_window();
        judge_steps();
        if (reading_.top && reading_.staff && reading_.bottom) judge_wires();
        return std::move(found_);
    }

  private:
    std::string text(Decimal value) const { return figure_text(value, reading_.unit); }
    std::string unit() const { return reading_.unit == Unit::Foot ? " ft" : " m"; }
    void add(Code code, std::string message) { found_.push_back(finding(code, {}, std::move(message))); }

    bool inverted() const { return reading_.inverted || (reading_.staff && *reading_.staff < zero); }

    void judge_sign(const std::optional<Decimal>& shown, std::string_view name, std::string_view other) {
        if (!shown || *shown >= zero) return;
        found_.push_back(
            finding(Code::OutOfRange, {}, std::string(name) + " is below 0",
                    "say " + std::string(other) + " instead of a negative " + std::string(name)));
    }

    void judge_signs() {
        judge_sign(reading_.high, "high", "low");
        judge_sign(reading_.low, "low", "high");
    }

    // `what`: "the reading", "the mark". One finding a reading is enough.
    void judge_end(Decimal figure, std::string_view what) {
        const Decimal length = kit_.length.value_or(assumed_length);
        if (beyond_ || (figure >= zero && figure <= length)) return;
        beyond_ = true;
        const std::string where = figure < zero ? " is below the foot of the staff"
                                                : " is beyond the end of the staff, " + text(length) + unit();
        add(Code::BeyondStaff, std::string(what) + " " + text(figure) + where);
    }

    void judge_ends() {
        if (reading_.staff) judge_end(magnitude(*reading_.staff), "the reading");
        if (reading_.top) judge_end(magnitude(*reading_.top), "the top wire");
        if (reading_.bottom) judge_end(magnitude(*reading_.bottom), "the bottom wire");
        if (reading_.mark) judge_end(*reading_.mark, "the mark");
    }

    void judge_light() {
        if (!reading_.mark) return;
        Decimal light = *reading_.mark;
        if (reading_.high) light = from_high(light, *reading_.high, reading_.inverted);
        if (reading_.low) light = from_low(light, *reading_.low, reading_.inverted);
        if (reading_.offset) light = from_offset(light, *reading_.offset);
        judge_end(light, "the light at");
    }

    void judge_window() {
        if (!kit_.window) return;
        for (const auto& shown : {reading_.high, reading_.low, reading_.offset}) {
            if (!shown || magnitude(*shown) <= *kit_.window) continue;
            add(Code::OutsideWindow, "the receiver's figure " + text(magnitude(*shown)) +
                                         " is outside its window of " + text(*kit_.window) + unit());
        }
    }

    void judge_steps() {
        if (!kit_.least_step || kit_.least_step->ticks() <= 0) return;
        for (const auto& figure : {reading_.staff, reading_.mark, reading_.top, reading_.bottom}) {
            if (!figure || figure->ticks() % kit_.least_step->ticks() == 0) continue;
            add(Code::FinerThanStep, text(magnitude(*figure)) + " is finer than the staff's least step of " +
                                         text(*kit_.least_step) + unit());
            return;
        }
    }

    bool wires_in_order() const {
        const Decimal top = *reading_.top;
        const Decimal middle = *reading_.staff;
        const Decimal bottom = *reading_.bottom;
        const bool one_side = (top >= zero && middle >= zero && bottom >= zero) ||
                              (top <= zero && middle <= zero && bottom <= zero);
        const bool falls = top > middle && middle > bottom;
        const bool rises = top < middle && middle < bottom;
        return one_side && (falls || (inverted() && rises));
    }

    void judge_wires() {
        const Decimal upper = magnitude(*reading_.top - *reading_.staff);
        const Decimal lower = magnitude(*reading_.staff - *reading_.bottom);
        if (!wires_in_order()) {
            add(Code::WireOrder, "the wires read " + text(*reading_.top) + ", " + text(*reading_.staff) +
                                     ", " + text(*reading_.bottom) + " from top to bottom");
            return;
        }
        const double limit = 3.0 * std::sqrt(6.0) * kit_.reading_sd;
        if (magnitude(upper - lower).metres() <= limit) return;
        add(Code::WireSpread,
            "the intervals between the three wires are " + text(upper) + " and " + text(lower) + unit());
    }

    const AsRead& reading_;
    const Kit& kit_;
    Findings found_;
    bool beyond_ = false;
};

}  // namespace

Findings judge(const AsRead& reading, const Kit& kit) {
    return Judge(reading, kit).findings();
}

}  // namespace fallwright::staff
