#include "desk/options.h"

#include <nlohmann/json.hpp>
#include <utility>

namespace fallwright::desk {

Options::Options(const nlohmann::json& object) : object_(object) {}

bool Options::has(const char* name) const {
    return object_.contains(name) && !object_[name].is_null();
}

void Options::refuse(Finding found) {
    if (!fault_) fault_ = std::move(found);
}

template <class T, class Parse, class FromNumber>
std::optional<T> Options::typed(const nlohmann::json& value, const char* name, Parse parse,
                                FromNumber from_number) {
    if (value.is_number()) return from_number(value.get<double>());
    if (!value.is_string()) {
        refuse(finding(Code::BadRequest, {name}, std::string(name) + " is no number and no text"));
        return std::nullopt;
    }
    const Result<T> parsed = parse(value.get_ref<const std::string&>());
    if (parsed) return *parsed;
    Finding found = parsed.finding();
    found.about = {name};
    refuse(std::move(found));
    return std::nullopt;
}

Unit Options::unit() {
    const std::optional<std::string> word = text("unit");
    if (word && *word != "m" && *word != "ft")
        refuse(finding(Code::BadRequest, {"unit"}, "unit must be m or ft"));
    if (!word) return assumed_;
    return *word == "ft" ? Unit::Foot : Unit::Metre;
}

std::optional<Length> Options::length(const char* name) {
    if (!has(name)) return std::nullopt;
    const Unit in = unit();
    return typed<Length>(
        object_[name], name, [in](const std::string& text) { return parse_length(text, in); },
        [in](double number) { return Length::in(in, number); });
}

std::optional<Measured> Options::measured(const char* name) {
    if (!has(name)) return std::nullopt;
    const Unit in = unit();
    return typed<Measured>(
        object_[name], name, [in](const std::string& text) { return parse_measured(text, in); },
        [in](double number) {
            return Measured{Length::in(in, number), std::nullopt};
        });
}

std::optional<Gradient> Options::gradient(const char* name) {
    if (!has(name)) return std::nullopt;
    return typed<Gradient>(
        object_[name], name, [](const std::string& text) { return parse_gradient(text); },
        [](double number) { return Gradient::ratio(number); });
}

bool Options::bare(const char* name) const {
    if (!has(name)) return false;
    const nlohmann::json& value = object_[name];
    if (!value.is_string()) return value.is_number();
    return value.get_ref<const std::string&>().find_first_not_of("0123456789. ") == std::string::npos;
}

std::optional<std::string> Options::word(const char* name) const {
    if (!has(name) || !object_[name].is_string()) return std::nullopt;
    std::string text = object_[name].get<std::string>();
    const bool letter =
        !text.empty() && ((text[0] >= 'a' && text[0] <= 'z') || (text[0] >= 'A' && text[0] <= 'Z'));
    return letter ? std::optional<std::string>(std::move(text)) : std::nullopt;
}

std::optional<double> Options::share(const char* name) {
    if (!has(name) || !object_[name].is_string()) return std::nullopt;
    if (object_[name].get_ref<const std::string&>().find('%') == std::string::npos) return std::nullopt;
    const std::optional<Gradient> share = gradient(name);
    return share ? std::optional<double>(share->ratio()) : std::nullopt;
}

std::optional<Discharge> Options::discharge(const char* name) {
    if (!has(name)) return std::nullopt;
    const Unit in = unit();
    return typed<Discharge>(
        object_[name], name, [in](const std::string& text) { return parse_discharge(text, in); },
        [in](double number) { return Discharge::in(in, number); });
}

std::optional<Velocity> Options::velocity(const char* name) {
    if (!has(name)) return std::nullopt;
    const Unit in = unit();
    return typed<Velocity>(
        object_[name], name, [in](const std::string& text) { return parse_velocity(text, in); },
        [in](double number) { return Velocity::in(in, number); });
}

std::optional<Gradient> Options::fall(const char* name) {
    if (!has(name)) return std::nullopt;
    return typed<Gradient>(
        object_[name], name, [](const std::string& text) { return parse_fall(text); },
        [](double number) { return Gradient::ratio(number); });
}

template <class Parse>
std::vector<Length> Options::list(const char* name, Parse parse) {
    std::vector<Length> all;
    if (!has(name)) return all;
    if (!object_[name].is_array()) {
        refuse(finding(Code::BadRequest, {name}, std::string(name) + " is no list"));
        return all;
    }
    const Unit in = unit();
    for (const nlohmann::json& value : object_[name]) {
        const auto one = typed<Length>(
            value, name, [&](const std::string& text) { return parse(text, in); },
            [in](double number) { return Length::in(in, number); });
        if (one) all.push_back(*one);
    }
    return all;
}

std::vector<Length> Options::lengths(const char* name) {
    return list(name, [](const std::string& text, Unit unit) { return parse_length(text, unit); });
}

std::vector<Length> Options::chainages(const char* name) {
    return list(name, [](const std::string& text, Unit unit) { return parse_chainage(text, unit); });
}

std::vector<std::string> Options::texts(const char* name) {
    std::vector<std::string> all;
    if (!has(name)) return all;
    for (const nlohmann::json& value : object_[name]) {
        if (value.is_string()) all.push_back(value.get<std::string>());
    }
    if (!object_[name].is_array() || all.size() != object_[name].size())
        refuse(finding(Code::BadRequest, {name}, std::string(name) + " is no list of texts"));
    return all;
}

std::optional<double> Options::number(const char* name) {
    if (!has(name)) return std::nullopt;
    if (object_[name].is_number()) return object_[name].get<double>();
    refuse(finding(Code::BadRequest, {name}, std::string(name) + " is no number"));
    return std::nullopt;
}

std::optional<std::string> Options::text(const char* name) {
    if (!has(name)) return std::nullopt;
    if (object_[name].is_string()) return object_[name].get<std::string>();
    refuse(finding(Code::BadRequest, {name}, std::string(name) + " is no text"));
    return std::nullopt;
}

bool Options::flag(const char* name) {
    if (!has(name)) return false;
    if (object_[name].is_boolean()) return object_[name].get<bool>();
    refuse(finding(Code::BadRequest, {name}, std::string(name) + " is neither true nor false"));
    return false;
}

}  // namespace fallwright::desk
