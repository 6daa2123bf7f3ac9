#include "record/pipe_words.h"

#include <cmath>

#include "base/print.h"
#include "quantity/discharge.h"
#include "quantity/gradient.h"
#include "record/words.h"

namespace fallwright::record {

namespace {

constexpr int figures = 3;
constexpr double inch = metres_per_foot / 12;
constexpr double yard = metres_per_foot * 3;

}  // namespace

std::string bore_text(double metres, Unit unit) {
    if (std::isnan(metres)) return "";
    return unit == Unit::Foot ? significant(metres / inch, figures) + " in"
                              : trimmed(metres * 1000, 1) + " mm";
}

std::string velocity_text(double metres, Unit unit) {
    return significant(Velocity::metres(metres).in(unit), figures) + (unit == Unit::Foot ? " ft/s" : " m/s");
}

// Litres as long as they are few; in feet gallons and cubic feet.
std::string flow_text(double cubic_metres, Unit unit) {
    const Discharge flow = Discharge::cubic_metres(cubic_metres);
    if (unit == Unit::Foot)
        return significant(flow.gallons_a_minute(), figures) + " gpm, " +
               significant(flow.in(unit), figures) + " ft3/s";
    return flow.litres() < 1000 ? significant(flow.litres(), figures) + " l/s"
                                : significant(flow.cubic_metres(), figures + 1) + " m3/s";
}

std::string fall_text(double fall) {
    if (std::isnan(fall)) return "";
    const std::optional<double> n = Gradient::ratio(fall).one_in();
    if (!n) return "level";
    return (fall < 0 ? "1 in -" : "1 in ") + significant(*n, figures + 1);
}

std::string volume_text(double cubic_metres, Unit unit) {
    if (std::isnan(cubic_metres)) return "";
    const bool feet = unit == Unit::Foot;
    const double volume = feet ? cubic_metres / (yard * yard * yard) : cubic_metres;
    return fixed(volume, 1) + (feet ? " yd3" : " m3");
}

std::string cover_words(const Judgement& judged) {
    if (judged.verdict == Verdict::Untested) return "";
    if (judged.verdict == Verdict::Within) return "enough";
    const std::string sure = percent(1 - judged.probability) + " sure";
    return judged.verdict == Verdict::Outside ? "SHORT, " + sure : "too close to call, short " + sure;
}

std::string rules_met_words(const Judgement& judged) {
    switch (judged.verdict) {
        case Verdict::Within:
            return "yes";
        case Verdict::Outside:
            return "NO, " + percent(1 - judged.probability) + " sure";
        case Verdict::Undecided:
            return "too close to call, " + percent(judged.probability) + " sure that it is";
        default:
            return "";
    }
}

std::string at_flow_words(const drain::PipeKind& kind, Unit unit) {
    if (std::isnan(kind.asked.flow)) return "";
    const std::string flow = "at " + flow_text(kind.asked.flow, unit) + " ";
    if (!kind.part) return flow + "it runs overfull";
    return flow + "it runs " + bore_text(kind.part->depth, unit) + " deep, " +
           percent(kind.part->depth / kind.asked.bore) + " of the bore, at " +
           velocity_text(kind.part->velocity, unit);
}

std::string cover_rule_words(const drain::CoverRule& rule, Unit unit) {
    if (rule.name.empty()) return "";
    std::string text = "cover wanted: " + level(rule.least, unit) + ", rule " + rule.name;
    if (!rule.source.text.empty())
        text += " (" + std::string(rule.source.text) + ", " + std::string(rule.source.edition) + ")";
    return text;
}

std::string trench_rule_words(const drain::TrenchRule& rule, Unit unit) {
    std::string text = "width: ";
    if (rule.preset == nullptr) {
        text += level(rule.width, unit) + ", " + rule.name;
    } else {
        text += "rule " + rule.name + " (" + std::string(rule.preset->source.text) + ", " +
                std::string(rule.preset->source.edition) + ")";
        if (rule.preset->source.provenance == preset::Provenance::FromMemory) text += ", a hint from memory";
    }
    if (rule.batter != 0) text += "; sides lean out " + trimmed(rule.batter, 3) + " to 1";
    return text + "; surround to " + level(rule.surround, unit) + " over the crown";
}

std::vector<std::string> spoil_words(const drain::Trench& trench, Unit unit) {
    const drain::TrenchRule& rule = trench.rule;
    const drain::Spoil& spoil = trench.spoil;
    std::string over = "over once it is filled again: " + volume_text(spoil.surplus, unit) + " in place";
    if (std::isnan(spoil.loose)) return {over + "; say what the ground is (spoil) for what it takes loose"};
    over += ", " + volume_text(spoil.surplus_loose, unit) + " loose";
    if (!std::isnan(spoil.loads)) over += ", " + fixed(spoil.surplus_loads, 0) + " loads";
    over += " (bulking " + trimmed(rule.bulking * 100, 1) + " %, " + rule.material + ")";
    std::string all = "all that is dug: " + volume_text(spoil.loose, unit) + " loose";
    if (!std::isnan(spoil.loads))
        all += ", " + fixed(spoil.loads, 0) + " loads of " + volume_text(rule.load, unit);
    return {over, all};
}

}  // namespace fallwright::record
