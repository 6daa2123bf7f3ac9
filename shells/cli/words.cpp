#include "shells/cli/words.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "base/print.h"
#include "quantity/gradient.h"

namespace fallwright::cli {

namespace {

constexpr double thousand = 1000;
constexpr int most_alike = 5;

double in_unit(double metres, Unit unit) {
    return unit == Unit::Foot ? metres / metres_per_foot : metres;
}

std::string sentence(const Finding& found) {
    std::string text = found.message;
    if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
    std::string about;
    for (std::size_t i = 0; i < found.about.size() && i < most_alike; ++i)
        about += (i == 0 ? "" : ", ") + found.about[i];
    if (found.about.size() > most_alike)
        about += " and " + std::to_string(found.about.size() - most_alike) + " more";
    const bool named =
        found.about.size() == 1 && found.message.find(found.about.front()) != std::string::npos;
    std::string line = std::string(severity_word(catalogue(found.code).severity)) + ": ";
    line += about.empty() || named ? text : about + ": " + found.message;
    line += ".";
    if (!found.cure.empty()) {
        std::string cure = found.cure;
        cure[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(cure[0])));
        line += " " + cure + ".";
    }
    return line;
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

std::string cautions_text(const std::vector<Caution>& cautions) {
    std::string text = cautions.empty() ? "" : "\nCautions\n";
    for (const Caution& each : cautions) {
        text += "  - ";
        for (std::size_t i = 0; i < each.about.size(); ++i) text += (i == 0 ? "" : ", ") + each.about[i];
        text += (each.about.empty() ? "" : ": ") + each.text;
        if (!each.source.empty())
            text += " (" + each.source +
                    (each.edition.empty() || each.edition == "undated" ? "" : ", " + each.edition) + ")";
        text += "\n";
    }
    return text;
}

Findings beside_cautions(const Findings& findings) {
    Findings rest;
    std::copy_if(findings.begin(), findings.end(), std::back_inserter(rest),
                 [](const Finding& each) { return each.code != Code::TrenchDepth; });
    return rest;
}

std::string findings_text(const Findings& findings) {
    std::string all;
    for (const Severity severity : {Severity::Error, Severity::Warning, Severity::Note}) {
        Code last = Code::count_;
        int alike = 0;
        for (const Finding& found : findings) {
            if (catalogue(found.code).severity != severity) continue;
            alike = found.code == last ? alike + 1 : 1;
            last = found.code;
            if (alike <= most_alike) all += "  " + sentence(found) + "\n";
            if (alike == most_alike + 1) all += "  ... and more of the same; all of them with --json\n";
        }
    }
    return all;
}

bool has_error(const Findings& findings) {
    for (const Finding& found : findings) {
        if (catalogue(found.code).severity == Severity::Error) return true;
    }
    return false;
}

}  // namespace fallwright::cli
