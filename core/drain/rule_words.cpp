#include "drain/rule_words.h"

#include <cmath>

#include "base/print.h"
#include "drain/rules.h"
#include "quantity/discharge.h"
#include "quantity/gradient.h"

namespace fallwright::drain {

namespace {

constexpr int figures = 3;
constexpr double inch = metres_per_foot / 12;

std::string velocity_words(double metres, Unit unit) {
    if (unit == Unit::Foot) return significant(metres / metres_per_foot, figures) + " ft/s";
    return significant(metres, figures) + " m/s";
}

// "it wants 1 in 80 (1.25 %), this is 1 in 160 (0.625 %)", in what the rule compares.
std::string comparison(const CleansingVerdict& held, const CleansingCase& pipe, Unit unit) {
    const std::string reached = std::isnan(held.wants_fall)
                                    ? "; no fall up to 1 in 1 gives it"
                                    : "; " + fall_words(held.wants_fall) + " gives it";
    const std::string tail = held.flatter ? reached : "";
    if (!std::isnan(held.wants_velocity))
        return "it wants " + velocity_words(held.wants_velocity, unit) + ", here it is " +
               velocity_words(held.has_velocity, unit) + tail;
    if (!std::isnan(held.wants_drag))
        return "it wants a drag of " + significant(held.wants_drag, figures) + " N/m2, here it is " +
               significant(held.has_drag, figures) + tail;
    if (held.steeper)
        return "it wants no more than " + fall_words(held.most_fall) + ", this is " + fall_words(pipe.fall);
    return "it wants " + fall_words(held.wants_fall) + ", this is " + fall_words(pipe.fall);
}

std::string named(const preset::CleansingRule& rule) {
    std::string name(rule.title);
    name += " (";
    name += rule.source.text;
    if (!rule.source.edition.empty()) {
        name += ", ";
        name += rule.source.edition;
    }
    return name + ")";
}

}  // namespace

std::string bore_words(double bore, Unit unit) {
    return unit == Unit::Foot ? significant(bore / inch, figures) + " in"
                              : significant(bore * 1000, 4) + " mm";
}

std::string flow_words(double flow, Unit unit) {
    if (unit == Unit::Foot) return significant(flow / cubic_metres_per_cubic_foot, figures) + " ft3/s";
    return significant(flow * 1000, figures) + " l/s";
}

std::string fall_words(double fall) {
    const Gradient gradient = Gradient::ratio(fall);
    const std::optional<double> n = gradient.one_in();
    if (!n) return "level";
    const std::string size =
        "1 in " + significant(*n, 4) + " (" + significant(std::fabs(gradient.percent()), figures) + " %)";
    return fall < 0 ? "running backwards at " + size : size;
}

std::string closets_words(int closets) {
    return std::to_string(closets) + (closets == 1 ? " WC" : " WCs");
}

std::string rows_words(const std::vector<const preset::CleansingRow*>& rows) {
    std::string words;
    for (const preset::CleansingRow* row : rows) {
        if (!words.empty()) words += ", ";
        words += fall_words(row->wants);
        if (std::isfinite(row->flow_to))
            words += " up to " + significant(row->flow_to * 1000, figures) + " l/s";
        if (row->flow_from > 0) words += " above " + significant(row->flow_from * 1000, figures) + " l/s";
        if (row->closets > 0) words += " with " + closets_words(row->closets);
    }
    return words;
}

std::string cleansing_sentence(const CleansingVerdict& held, const CleansingCase& pipe, Unit unit) {
    const std::string rule = named(*held.rule);
    if (held.verdict == Cleansing::NotApplicable) return rule + " does not apply: " + held.why;
    std::string text = held.provenance == preset::Provenance::FromMemory ? "a hint only, from memory: " : "";
    text += held.flatter ? "flatter than " : held.steeper ? "steeper than " : "not flatter than ";
    text += rule + " for this bore: " + comparison(held, pipe, unit);
    if (held.closets > 0) text += ", where at least " + closets_words(held.closets) + " drain to it";
    if (!std::isnan(held.meets_from))
        text += "; a " + bore_words(held.meets_from, unit) + " pipe at this fall meets it";
    return text;
}

}  // namespace fallwright::drain
