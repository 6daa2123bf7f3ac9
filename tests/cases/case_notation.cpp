#include "case_notation.h"

#include <map>
#include <nlohmann/json.hpp>

#include "case_words.h"

namespace fallwright::cases {

const NotationWord* notation_word(std::string_view word) {
    static const std::map<std::string, NotationWord, std::less<>> words{
        {"benchmark", {"benchmark", {"point", "level"}, ""}},
        {"laser", {"instrument", {"name"}, R"(,"type":"rotating-laser")"}},
        {"optical", {"instrument", {"name"}, R"(,"type":"optical-level")"}},
        {"staff", {"staff", {"name"}, ""}},
        {"receiver", {"receiver", {"name"}, ""}},
        {"line", {"line", {"name"}, ""}},
        {"place", {"place", {"point"}, ""}},
        {"setup", {"setup", {"name", "instrument"}, ""}},
        {"step", {"step", {"from", "to", "rise"}, ""}},
        {"what", {"what", {"name", "foot_sd"}, ""}},
        {"rule", {"rule", {"name"}, ""}},
        {"amend", {"amend", {"of"}, ""}},
        {"strike", {"strike", {"of"}, ""}},
        {"remark", {"remark", {"text"}, ""}}};
    const auto found = words.find(word);
    return found == words.end() ? nullptr : &found->second;
}

bool is_sight(std::string_view word) {
    return word == "back" || word == "inter" || word == "fore";
}

std::string json_field(std::string_view name, std::string_view word) {
    return ",\"" + std::string(name) + "\":" + word_as_json(word);
}

std::string json_fields(const std::vector<std::string>& words, std::size_t from) {
    if ((words.size() - from) % 2 != 0) throw Complaint("a field has no value: " + words.back());
    std::string out;
    for (std::size_t i = from; i < words.size(); i += 2) {
        if (is_sight(words[i])) {
            out += json_field("sight", words[i]) + json_field("staff", words[i + 1]);
        } else {
            out += json_field(words[i], words[i + 1]);
        }
    }
    return out;
}

std::string value_after(const std::vector<std::string>& words, std::string_view name) {
    for (std::size_t i = 0; i + 1 < words.size(); ++i) {
        if (words[i] == name) return words[i + 1];
    }
    return {};
}

std::vector<std::string> table_cells(std::string_view line) {
    std::vector<std::string> cells;
    line.remove_prefix(1);
    while (!line.empty()) {
        const std::size_t bar = line.find('|');
        if (bar == std::string_view::npos) throw Complaint("a row of a table ends with |");
        cells.emplace_back(trimmed_text(line.substr(0, bar)));
        line.remove_prefix(bar + 1);
    }
    return cells;
}

std::string unquoted(std::string_view word) {
    if (word.empty() || word.front() != '"') return std::string(word);
    const auto parsed = nlohmann::json::parse(word, nullptr, false);
    if (!parsed.is_string()) throw Complaint("a quoted text is not closed or holds a bad escape");
    return parsed.get<std::string>();
}

}  // namespace fallwright::cases
