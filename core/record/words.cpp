#include "record/words.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <iterator>

#include "base/print.h"
#include "fall/fit.h"
#include "quantity/gradient.h"

namespace fallwright::record {

namespace {

constexpr double thousand = 1000;
constexpr std::size_t most_named = 5;

double in_unit(double metres, Unit unit) {
    return unit == Unit::Foot ? metres / metres_per_foot : metres;
}

}  // namespace

std::string level(double metres, Unit unit) {
    return std::isnan(metres) ? "" : fixed(in_unit(metres, unit), 3);
}

std::string level(const std::optional<Decimal>& value, Unit unit) {
    return value ? level(value->metres(), unit) : "";
}

std::string small(double metres, Unit unit) {
    return std::isnan(metres) ? "" : fixed(in_unit(metres, unit) * thousand, 1);
}

std::string signed_small(double metres, Unit unit) {
    const std::string text = small(metres, unit);
    const bool above =
        !text.empty() && text[0] != '-' && rounded_to(in_unit(metres, unit) * thousand, 1) != 0;
    return above ? "+" + text : text;
}

std::string small_unit(Unit unit) {
    return unit == Unit::Foot ? "ft/1000" : "mm";
}

std::string unit_text(Unit unit) {
    return unit == Unit::Foot ? "ft" : "m";
}

std::string gradient(double ratio) {
    const GradientTexts texts = all_ways(Gradient::ratio(ratio));
    return texts.one_in == "level" ? texts.one_in : texts.one_in + " (" + texts.percent + ")";
}

std::string percent_figure(double ratio) {
    constexpr double hundred = 100;
    constexpr int places = 3;
    return std::isnan(ratio) ? "" : fixed(ratio * hundred, places);
}

std::string gradient_sd(double ratio) {
    if (std::isnan(ratio)) return "?";
    constexpr double percent = 100;
    return fixed(ratio * percent, 4) + " %";
}

std::string percent(double probability) {
    const double p = rounded_to(probability, probability_places);
    constexpr double least = 0.001;
    constexpr double few = 0.1;
    constexpr double nearly_all = 0.99;
    if (p < least) return "under 0.1 %";
    if (p > 1 - least) return "over 99.9 %";
    return fixed(p * 100, p < few || p > nearly_all ? 1 : 0) + " %";
}

std::string counted(std::size_t count, std::string_view one, std::string_view many) {
    return std::to_string(count) + " " + std::string(count == 1 ? one : many);
}

std::string capital(std::string text) {
    if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
    return text;
}

std::string finding_sentence(const Finding& found) {
    const std::string text = capital(found.message);
    std::string about;
    for (std::size_t i = 0; i < found.about.size() && i < most_named; ++i)
        about += (i == 0 ? "" : ", ") + found.about[i];
    if (found.about.size() > most_named)
        about += " and " + std::to_string(found.about.size() - most_named) + " more";
    const bool named =
        found.about.size() == 1 && found.message.find(found.about.front()) != std::string::npos;
    std::string line = about.empty() || named ? text : about + ": " + found.message;
    line += ".";
    if (!found.cure.empty()) line += " " + capital(found.cure) + ".";
    return line;
}

std::string caution_sentence(const Caution& caution) {
    std::string text;
    for (std::size_t i = 0; i < caution.about.size(); ++i) text += (i == 0 ? "" : ", ") + caution.about[i];
    text += (caution.about.empty() ? "" : ": ") + caution.text;
    if (!caution.source.empty())
        text += " (" + caution.source +
                (caution.edition.empty() || caution.edition == "undated" ? "" : ", " + caution.edition) + ")";
    return text;
}

Findings beside_cautions(const Findings& findings) {
    Findings rest;
    std::copy_if(findings.begin(), findings.end(), std::back_inserter(rest),
                 [](const Finding& each) { return each.code != Code::TrenchDepth; });
    return rest;
}

std::string said(Verdict verdict) {
    return verdict == Verdict::Undecided ? "too close to call" : std::string(verdict_word(verdict));
}

int urgency(Verdict verdict) {
    switch (verdict) {
        case Verdict::Outside:
            return 0;
        case Verdict::Undecided:
            return 1;
        case Verdict::Within:
            return 2;
        default:
            return 3;
    }
}

std::string limits_words(const Tolerance& tolerance, Unit unit) {
    const auto mm = [unit](double metres) { return small(std::fabs(metres), unit); };
    const bool both = tolerance.below.has() && tolerance.above.has();
    if (both && -tolerance.below.value == tolerance.above.value) return "\u00b1" + mm(tolerance.above.value);
    std::string text;
    if (tolerance.below.has()) text += "-" + mm(tolerance.below.value);
    if (both) text += " ";
    if (tolerance.above.has()) text += "+" + mm(tolerance.above.value);
    return text;
}

std::string verdict_sentence(double deviation, const Judgement& judged, const Tolerance& tolerance,
                             Unit unit) {
    return small(std::fabs(deviation), unit) + " " + small_unit(unit) +
           (deviation < 0 ? " low, " : " high, ") + (judged.plain_within ? "inside " : "outside ") +
           limits_words(tolerance, unit) + " as measured; " + percent(judged.probability) +
           " sure it truly is within";
}

std::string station_words(const Book& book, const Station& station) {
    std::string text = level(station.ch, book.unit);
    if (std::fabs(station.off) >= least_offset)
        text += (station.off < 0 ? " L" : " R") + level(std::fabs(station.off), book.unit);
    return text + " " + book.name(station.what);
}

std::string relative_to(const Book& book) {
    std::vector<NameId> names;
    for (const Benchmark& benchmark : book.benchmarks) {
        if (std::find(names.begin(), names.end(), benchmark.point) == names.end())
            names.push_back(benchmark.point);
    }
    if (names.empty()) return "the first point read, taken as 100.000";
    if (names.size() > 3) return "the benchmarks as given";
    std::string text;
    for (std::size_t i = 0; i < names.size(); ++i)
        text += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + book.name(names[i]);
    return text + " as given";
}

bool laser_assumed(const Findings& findings) {
    return std::any_of(findings.begin(), findings.end(),
                       [](const Finding& each) { return each.code == Code::AssumedErrors; });
}

std::string page_check(const Page& page, Unit unit) {
    const std::string by_sights = level(page.sum_back - page.sum_fore, unit);
    const std::string by_steps = level(page.sum_rise - page.sum_fall, unit);
    const std::string by_levels = level(page.last - page.first, unit);
    return "check: back - fore " + by_sights + ", rise - fall " + by_steps + ", last - first " + by_levels +
           (page.agrees ? ": agrees" : ": DOES NOT AGREE");
}

std::string closure_verdict(const JudgedClosure& judged) {
    return std::isnan(judged.allowed) ? "cannot be told" : judged.ok ? "within" : "MORE THAN ALLOWED";
}

std::string level_remark(const PointLevel& found) {
    if (std::isnan(found.level)) return "not determined";
    if (found.checked) return "";
    return found.readings == 1 ? "read once only" : "not checked";
}

}  // namespace fallwright::record
