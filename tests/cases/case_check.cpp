#include "case_check.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace fallwright::cases {
namespace {

using What = Expectation::What;

constexpr int most_digits = 15;
// Half a digit met exactly is within it, though 0.0005 has no exact binary form.
constexpr double tolerance_slack = 1e-9;

std::string number_text(double v) {
    char text[40];
    std::snprintf(text, sizeof text, "%.10g", v);
    return text;
}

int agreeing_digits(double got, double expected) {
    if (got == expected) return most_digits;
    const double off = std::fabs(got - expected) / (expected == 0 ? 1 : std::fabs(expected));
    return std::clamp(static_cast<int>(std::floor(-std::log10(off))), 0, most_digits);
}

Outcome check_figure(const Expectation& e, const Json& answer) {
    double sum = 0;
    for (const Expectation::Term& term : e.terms) {
        const Found found = find_path(answer, term.path);
        if (!found.there) return {false, found.why, "", -1};
        if (!found.value.is_number()) return {false, found.value.dump(), "", -1};
        sum += (term.subtract ? -1 : 1) * found.value.get<double>();
    }
    Outcome outcome{false, number_text(sum), number_text(sum - e.value), agreeing_digits(sum, e.value)};
    if (e.what == What::Below)
        outcome.passed = sum < e.value;
    else if (e.what == What::Above)
        outcome.passed = sum > e.value;
    else
        outcome.passed = std::fabs(sum - e.value) <=
                         e.tolerance + tolerance_slack * std::max(e.tolerance, std::fabs(e.value) * 1e-3);
    return outcome;
}

bool speaks_of(const Json& finding, const Expectation& e) {
    if (!finding.is_object()) return false;
    if (!e.code.empty() && finding.value("code", "") != e.code) return false;
    if (e.about.empty()) return true;
    const Json about = finding.value("about", Json::array());
    return std::find(about.begin(), about.end(), e.about) != about.end();
}

std::string spoken(const Json& findings) {
    std::string out;
    for (const Json& f : findings)
        out +=
            (out.empty() ? "" : "; ") + f.value("code", "?") + " " + f.value("about", Json::array()).dump();
    return out.empty() ? "no finding" : out;
}

Outcome check_finding(const Expectation& e, const Json& answer) {
    const Found found = find_path(answer, "findings");
    if (!found.there)
        return {false, answer.contains("error") ? "failure " + answer["error"].dump() : found.why, "", -1};
    const bool any =
        std::any_of(found.value.begin(), found.value.end(), [&](const Json& f) { return speaks_of(f, e); });
    return {any == (e.what == What::Finding), spoken(found.value), "", -1};
}

Outcome check_failure(const Expectation& e, const Json& answer) {
    if (!answer.contains("error")) return {false, "an answer", "", -1};
    return {speaks_of(answer["error"], e), answer["error"].dump(), "", -1};
}

Outcome check_value(const Json& wanted, const Expectation& e, const Json& answer) {
    const Found found = find_path(answer, e.terms.front().path);
    if (!found.there) return {false, found.why, "", -1};
    return {found.value == wanted, found.value.dump(), "", -1};
}

Outcome check_contains(const Expectation& e, const Json& answer) {
    const Found found = find_path(answer, e.terms.front().path);
    if (!found.there) return {false, found.why, "", -1};
    const bool text = found.value.is_string();
    const bool there = text && found.value.get<std::string>().find(Json::parse(e.json).get<std::string>()) !=
                                   std::string::npos;
    return {there, found.value.dump(), "", -1};
}

}  // namespace

Outcome check(const Expectation& e, const Json& answer, const Json& before) {
    switch (e.what) {
        case What::Figure:
        case What::Below:
        case What::Above:
            return check_figure(e, answer);
        case What::Finding:
        case What::NoFinding:
            return check_finding(e, answer);
        case What::Failure:
            return check_failure(e, answer);
        case What::AsBefore: {
            const Found found = find_path(before, e.terms.front().path);
            if (!found.there) return {false, "before: " + found.why, "", -1};
            return check_value(found.value, e, answer);
        }
        case What::Contains:
            return check_contains(e, answer);
        case What::Value:
            break;
    }
    return check_value(Json::parse(e.json), e, answer);
}

}  // namespace fallwright::cases
