#include "exchange/landxml/context.h"

#include <array>
#include <cmath>
#include <utility>

#include "base/decimal.h"
#include "exchange/handover/plain_number.h"
#include "quantity/unit.h"

namespace fallwright::landxml {

namespace {

constexpr double metres_per_survey_foot = 1200.0 / 3937.0;

std::optional<double> metres_in(std::string_view unit) {
    constexpr std::array<std::pair<std::string_view, double>, 9> known = {
        {{"meter", 1},
         {"decimeter", 0.1},
         {"centimeter", 0.01},
         {"millimeter", 0.001},
         {"kilometer", 1000},
         {"foot", metres_per_foot},
         {"feet", metres_per_foot},
         {"inch", metres_per_foot / 12},
         {"USSurveyFoot", metres_per_survey_foot}}};
    for (const auto& [word, metres] : known) {
        if (unit == word) return metres;
    }
    return std::nullopt;
}

bool within_reach(double metres) {
    return std::fabs(metres) <= Decimal::limit_metres / 10;
}

}  // namespace

std::vector<std::string> Context::about(const xml::Element& element) const {
    std::vector<std::string> all = {"line " + std::to_string(element.line)};
    std::string what(element.name);
    const std::string name = text(element, "name");
    if (!name.empty()) what += " " + name;
    all.push_back(std::move(what));
    return all;
}

void Context::refuse(const xml::Element& element, std::string message, std::string cure) {
    constexpr std::size_t most = 20;
    failed_ = true;
    if (++refused_ > most) return;
    findings.push_back(
        cure.empty() ? finding(Code::ImportElement, about(element), std::move(message))
                     : finding(Code::ImportElement, about(element), std::move(message), std::move(cure)));
}

void Context::note(Code code, const xml::Element& element, std::string message) {
    findings.push_back(finding(code, about(element), std::move(message)));
}

std::string Context::text(const xml::Element& element, std::string_view name) const {
    const auto value = document.attribute(element, name);
    return value ? std::string(*value) : std::string();
}

double Context::unit(const xml::Element& element, std::string_view name, double otherwise) {
    const std::string word = text(element, name);
    if (word.empty()) return otherwise;
    const std::optional<double> metres = metres_in(word);
    if (metres) return *metres;
    failed_ = true;
    findings.push_back(finding(Code::ImportUnit, about(element),
                               std::string(name) + "=\"" + word + "\" is not taken",
                               "export the file in meter, foot or USSurveyFoot"));
    return otherwise;
}

void Context::read_units() {
    const xml::Element* units = document.child(document.root(), "Units");
    const xml::Element* metric = units == nullptr ? nullptr : document.child(*units, "Metric");
    const xml::Element* imperial = units == nullptr ? nullptr : document.child(*units, "Imperial");
    const xml::Element* stated = metric != nullptr ? metric : imperial;
    if (stated == nullptr) {
        failed_ = true;
        findings.push_back(finding(Code::ImportUnit, about(document.root()),
                                   "the file does not say what its lengths are in",
                                   "export it with the element Units"));
        return;
    }
    if (text(*stated, "linearUnit").empty()) {
        failed_ = true;
        findings.push_back(finding(Code::ImportUnit, about(*stated), "linearUnit is missing",
                                   "export the file with its linearUnit: meter, foot, USSurveyFoot"));
        return;
    }
    scale.linear = unit(*stated, "linearUnit", 1);
    scale.elevation = unit(*stated, "elevationUnit", scale.linear);
    scale.diameter = unit(*stated, "diameterUnit", scale.linear);
    feet = stated == imperial;
    survey_feet = text(*stated, "linearUnit") == "USSurveyFoot";
}

double Context::number(const xml::Element& element, std::string_view name, double by) {
    const auto value = document.attribute(element, name);
    if (!value || value->empty()) return handover::unknown;
    const std::optional<double> number = handover::plain_number(*value);
    if (number && within_reach(*number * by)) return *number * by;
    refuse(element, std::string(name) + "=\"" + std::string(value->substr(0, 40)) + "\" is no length");
    return handover::unknown;
}

std::optional<Context::Place> Context::place(const xml::Element& element) {
    constexpr std::size_t most = 3;
    const auto numbers = handover::plain_numbers(element.text, most);
    if (!numbers || numbers->size() < 2) {
        refuse(element, "its content is not north, east and level");
        return std::nullopt;
    }
    Place place;
    place.n = (*numbers)[0] * scale.linear;
    place.e = (*numbers)[1] * scale.linear;
    if (numbers->size() == most) place.level = (*numbers)[2] * scale.elevation;
    const bool reached = within_reach(place.n) && within_reach(place.e) &&
                         (!handover::known(place.level) || within_reach(place.level));
    if (reached) return place;
    refuse(element, "it lies farther away than any job");
    return std::nullopt;
}

std::vector<handover::EastNorth> Context::places_in(const xml::Element& list, std::size_t numbers) {
    constexpr std::size_t most = 60000;
    const auto all = handover::plain_numbers(list.text, most);
    if (!all || all->size() % numbers != 0) {
        refuse(list, "its content is no list of north and east");
        return {};
    }
    std::vector<handover::EastNorth> places;
    for (std::size_t i = 0; i < all->size(); i += numbers) {
        const double n = (*all)[i] * scale.linear, e = (*all)[i + 1] * scale.linear;
        if (within_reach(n) && within_reach(e)) {
            places.push_back({e, n});
        } else {
            refuse(list, "it lies farther away than any job");
            return {};
        }
    }
    return places;
}

std::optional<std::pair<double, double>> Context::station_level(const xml::Element& element) {
    const auto numbers = handover::plain_numbers(element.text, 2);
    if (!numbers || numbers->size() != 2) {
        refuse(element, "its content is not a station and a level");
        return std::nullopt;
    }
    const double station = (*numbers)[0] * scale.linear, level = (*numbers)[1] * scale.elevation;
    if (within_reach(station) && within_reach(level)) return std::pair(station, level);
    refuse(element, "it lies farther away than any job");
    return std::nullopt;
}

}  // namespace fallwright::landxml
