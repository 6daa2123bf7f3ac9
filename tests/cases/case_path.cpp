#include "case_path.h"

#include <cstdlib>
#include <vector>

#include "case_words.h"

namespace fallwright::cases {
namespace {

struct Condition {
    std::string member, value;
};

bool equals(const Json& value, const std::string& text) {
    if (value.is_string()) return value.get<std::string>() == text;
    if (value.is_number())
        return is_number(text) && value.get<double>() == std::strtod(text.c_str(), nullptr);
    return value.is_boolean() && text == (value.get<bool>() ? "true" : "false");
}

bool has(const Json& element, const std::string& member, const std::string& text) {
    const auto found = element.find(member);
    return found != element.end() && equals(*found, text);
}

// The first element called `text`: by its id if one is, else by its point, and so on.
const Json* called(const Json& array, const std::string& text) {
    for (const char* member : {"id", "point", "name", "what", "setup", "line", "code", "from", "to"}) {
        for (const Json& element : array) {
            if (element.is_object() && has(element, member, text)) return &element;
        }
    }
    return nullptr;
}

std::vector<Condition> conditions(std::string_view key) {
    std::vector<Condition> list;
    while (!key.empty()) {
        const std::size_t comma = std::min(key.find(','), key.size());
        const std::string_view part = key.substr(0, comma);
        const std::size_t equal = part.find('=');
        if (equal == std::string_view::npos) return {};
        list.push_back({std::string(trimmed_text(part.substr(0, equal))),
                        std::string(trimmed_text(part.substr(equal + 1)))});
        key.remove_prefix(std::min(comma + 1, key.size()));
    }
    return list;
}

bool meets(const Json& element, const std::vector<Condition>& wanted) {
    for (const Condition& c : wanted) {
        if (!has(element, c.member, c.value)) return false;
    }
    return true;
}

bool is_index(std::string_view key) {
    const std::size_t first = !key.empty() && key.front() == '-' ? 1 : 0;
    return key.size() > first && key.find_first_not_of("0123456789", first) == std::string_view::npos;
}

const Json* element(const Json& array, std::string_view key) {
    if (!array.is_array()) return nullptr;
    if (is_index(key)) {
        const long at = std::strtol(std::string(key).c_str(), nullptr, 10);
        const long size = static_cast<long>(array.size());
        const long index = at < 0 ? size + at : at;
        return index >= 0 && index < size ? &array[static_cast<std::size_t>(index)] : nullptr;
    }
    const std::vector<Condition> wanted = conditions(key);
    if (wanted.empty()) return called(array, std::string(key));
    for (const Json& one : array) {
        if (one.is_object() && meets(one, wanted)) return &one;
    }
    return nullptr;
}

// One step of the path, taken off its front; the text of the step is returned for messages.
std::string_view next_step(std::string_view& path) {
    if (path.front() == '[') {
        const std::size_t end = path.find(']');
        if (end == std::string_view::npos) throw Complaint("a [ of a path is not closed");
        const std::string_view step = path.substr(0, end + 1);
        path.remove_prefix(end + 1);
        return step;
    }
    if (path.front() == '.') path.remove_prefix(1);
    const std::size_t end = std::min(path.find_first_of(".["), path.size());
    const std::string_view step = path.substr(0, end);
    path.remove_prefix(end);
    return step;
}

}  // namespace

Found find_path(const Json& response, std::string_view path) {
    const Json* at = &response;
    const std::string_view whole = path;
    while (!path.empty()) {
        const std::string_view step = next_step(path);
        const Json* next = nullptr;
        if (!step.empty() && step.front() == '[') {
            next = element(*at, step.substr(1, step.size() - 2));
        } else if (step == "count" && path.empty()) {
            return {true, Json(at->size()), ""};
        } else if (at->is_object() && at->contains(step)) {
            next = &(*at)[std::string(step)];
        }
        if (next == nullptr)
            return {false, {}, "nothing at " + std::string(step) + " of " + std::string(whole)};
        at = next;
    }
    return {true, *at, ""};
}

}  // namespace fallwright::cases
