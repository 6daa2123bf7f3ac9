#include "case_book.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "case_notation.h"
#include "case_words.h"

namespace fallwright::cases {
namespace {

using Json = nlohmann::ordered_json;

// Does text follow a pattern in which * stands for anything?
bool follows(std::string_view text, std::string_view pattern) {
    if (pattern.empty()) return text.empty();
    if (pattern.front() != '*') {
        return !text.empty() && text.front() == pattern.front() && follows(text.substr(1), pattern.substr(1));
    }
    for (std::size_t i = 0; i <= text.size(); ++i) {
        if (follows(text.substr(i), pattern.substr(1))) return true;
    }
    return false;
}

std::string changed(const std::string& line, std::string path, std::string_view value) {
    Json json = Json::parse(line, nullptr, false);
    const Json wanted = Json::parse(word_as_json(value), nullptr, false);
    if (!json.is_object() || wanted.is_discarded()) {
        throw Complaint("an entry or a value that is no JSON cannot be changed");
    }
    Json* at = &json;
    for (std::size_t dot = path.find('.'); dot != std::string::npos; dot = path.find('.')) {
        at = &(*at)[path.substr(0, dot)];
        path.erase(0, dot + 1);
    }
    if (wanted.is_null())
        at->erase(path);
    else
        (*at)[path] = wanted;
    return json.dump() + "\n";
}

}  // namespace

void CaseBook::head(const std::vector<std::string>& words) {
    lines_.push_back(
        {R"({"kind":"book","format":"fallwright","version":1)" + json_fields(words, 0) + "}\n", "", "book"});
}

void CaseBook::add(std::string_view line) {
    line = trimmed_text(line);
    if (!line.empty() && line.front() == '|') return add_table_row(line);
    columns_.clear();
    if (line.empty()) return;
    if (line.front() == '{') return add_raw(line);
    add_words(split_words(line));
}

void CaseBook::close() {
    columns_.clear();
}

void CaseBook::add_raw(std::string_view line) {
    const Json parsed = Json::parse(line, nullptr, false);
    auto text_of = [&parsed](const char* name) {
        const bool there = parsed.is_object() && parsed.contains(name) && parsed[name].is_string();
        return there ? parsed[name].get<std::string>() : std::string();
    };
    lines_.push_back({std::string(line) + "\n", text_of("id"), text_of("name")});
}

void CaseBook::add_words(const std::vector<std::string>& words) {
    if (words.front() == "bytes") return add_bytes(words);
    if (words.front() == "reading") return add_reading(words);
    const NotationWord* word = notation_word(words.front());
    if (word == nullptr) throw Complaint("\"" + words.front() + "\" is no word of the book notation");
    std::string text = "{\"kind\":\"" + word->kind + "\"";
    std::size_t at = 1;
    for (const std::string& field : word->by_place) {
        if (at >= words.size()) throw Complaint(words.front() + " needs its " + field);
        text += json_field(field, words[at++]);
        if (words[at - 1] == "-") throw Complaint("only a reading may stand without its point");
        if (word->kind == "setup" && field == "name") setup_ = unquoted(words[at - 1]), ++setups_;
    }
    text += word->fixed + json_fields(words, at) + "}\n";
    const std::string subject = unquoted(words[1]);
    if (word->kind == "instrument") instrument_ = subject;
    lines_.push_back({text, unquoted(value_after(words, "id")), subject});
}

void CaseBook::add_bytes(const std::vector<std::string>& words) {
    const bool many = words.size() == 4 && words[2] == "times";
    if (words.size() != 2 && !many) throw Complaint("bytes \"TEXT\" [times N]");
    const int times = many ? std::stoi(words[3]) : 1;
    std::string text;
    for (int i = 0; i < times; ++i) text += unquoted(words[1]);
    lines_.push_back({text, "", ""});
}

void CaseBook::add_reading(const std::vector<std::string>& words) {
    if (words.size() < 2) throw Complaint("reading POINT FIELD VALUE ..., with - for a place on a line");
    const std::string setup = unquoted(value_after(words, "setup"));
    if (!setup.empty()) setup_ = setup;
    const bool on_line = words[1] == "-";
    std::string id = unquoted(value_after(words, "id"));
    std::string text = "{\"kind\":\"reading\"";
    if (id.empty()) {
        id = free_id(setup_ + "." + (on_line ? value_after(words, "ch") : unquoted(words[1])));
        text += json_field("id", in_quotes(id));
    }
    if (!on_line) text += json_field("point", words[1]);
    lines_.push_back({text + json_fields(words, 2) + "}\n", id, id});
}

std::string CaseBook::free_id(const std::string& wanted) const {
    std::string id = wanted;
    auto taken = [this, &id] {
        return std::any_of(lines_.begin(), lines_.end(), [&id](const Line& l) { return l.id == id; });
    };
    for (int again = 2; taken(); ++again) id = wanted + "~" + std::to_string(again);
    return id;
}

void CaseBook::open_setup() {
    if (instrument_.empty()) add_words({"optical", "Level"});
    add_words({"setup", "S" + std::to_string(setups_ + 1), in_quotes(instrument_)});
}

void CaseBook::add_table_row(std::string_view line) {
    const std::vector<std::string> cells = table_cells(line);
    if (columns_.empty()) {
        if (std::find(cells.begin(), cells.end(), "back") == cells.end()) {
            throw Complaint("a table's first row names its columns: point, back, inter, fore");
        }
        columns_ = cells;
        return;
    }
    if (cells.size() != columns_.size()) throw Complaint("a row of another width than the table's first");
    if (cells[0].find_first_not_of("-: ") == std::string::npos) return;
    // A change point's fore sight belongs to the set-up that ends, its back sight to the one that begins.
    for (const char* sight : {"inter", "fore", "back"}) add_sight(sight, cells);
}

void CaseBook::add_sight(std::string_view sight, const std::vector<std::string>& cells) {
    const auto column = std::find(columns_.begin(), columns_.end(), sight);
    const auto index = static_cast<std::size_t>(column - columns_.begin());
    if (column == columns_.end() || cells[index].empty()) return;
    if (sight == "back") open_setup();
    std::vector<std::string> words{"reading", "-", std::string(sight), cells[index]};
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        std::string name = columns_[i];
        if (cells[i].empty() || is_sight(name)) continue;
        // "back dist" is a field of the back sight alone.
        const std::size_t blank = name.find(' ');
        if (blank != std::string::npos) {
            if (name.substr(0, blank) != sight) continue;
            name.erase(0, blank + 1);
        }
        if (name == "point")
            words[1] = in_quotes(cells[i]);
        else
            words.insert(words.end(), {name, cells[i]});
    }
    add_reading(words);
}

CaseBook::Line& CaseBook::find(std::string_view entry) {
    if (!entry.empty() && entry.front() == '#') {
        const auto n = static_cast<std::size_t>(std::stoi(std::string(entry.substr(1))));
        if (n < 1 || n > lines_.size()) throw Complaint("the book has no line " + std::string(entry));
        return lines_[n - 1];
    }
    Line* found = nullptr;
    for (Line& line : lines_) {
        if (line.id == entry) return line;
        if (line.subject != entry) continue;
        if (found != nullptr) throw Complaint("\"" + std::string(entry) + "\" names more than one entry");
        found = &line;
    }
    if (found == nullptr) throw Complaint("\"" + std::string(entry) + "\" names no entry of the book");
    return *found;
}

void CaseBook::change(std::string_view entry, const std::string& field, std::string_view value) {
    if (entry.find('*') == std::string_view::npos) {
        Line& line = find(entry);
        line.text = changed(line.text, field, value);
        return;
    }
    bool any = false;
    for (Line& line : lines_) {
        if (line.id.empty() || !follows(line.id, entry)) continue;
        line.text = changed(line.text, field, value);
        any = true;
    }
    if (!any) throw Complaint("no id follows \"" + std::string(entry) + "\"");
}

void CaseBook::take_out(std::string_view entry) {
    const Line* line = &find(entry);
    lines_.erase(lines_.begin() + (line - lines_.data()));
}

std::string CaseBook::text() const {
    std::string out;
    for (const Line& line : lines_) out += line.text;
    return out;
}

}  // namespace fallwright::cases
