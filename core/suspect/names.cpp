#include "suspect/names.h"

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <unordered_map>

#include "base/digit.h"

namespace fallwright {

namespace {

std::string folded(std::string_view name) {
    std::string lower;
    for (const char c : name) lower += static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
    return lower;
}

std::string without_digits(const std::string& name) {
    std::string rest;
    for (const char c : name) {
        if (!is_digit(c)) rest += c;
    }
    return rest;
}

// Whether one letter less in `longer` gives `shorter`.
bool one_left_out(const std::string& longer, const std::string& shorter) {
    std::size_t i = 0;
    while (i < shorter.size() && longer[i] == shorter[i]) ++i;
    return longer.compare(i + 1, std::string::npos, shorter, i, std::string::npos) == 0;
}

bool is_letter(char c) {
    return c >= 'a' && c <= 'z';
}

// Points counted by letters: "peg E", "peg W".
bool stands_alone(const std::string& name, std::size_t at) {
    const bool before = at > 0 && is_letter(name[at - 1]);
    const bool after = at + 1 < name.size() && is_letter(name[at + 1]);
    return is_letter(name[at]) && !before && !after;
}

bool one_changed_or_exchanged(const std::string& a, const std::string& b) {
    std::size_t first = 0;
    while (first < a.size() && a[first] == b[first]) ++first;
    if (first == a.size()) return true;  // differ in case only
    if (stands_alone(a, first) && stands_alone(b, first)) return false;
    if (!is_letter(a[first]) && !is_letter(b[first])) return false;  // "-3" and "+3" are two sides
    if (a.compare(first + 1, std::string::npos, b, first + 1, std::string::npos) == 0) return true;
    return first + 1 < a.size() && a[first] == b[first + 1] && a[first + 1] == b[first] &&
           a.compare(first + 2, std::string::npos, b, first + 2, std::string::npos) == 0;
}

// Two names within one change share one of these: the name, or the name less one letter.
std::vector<std::string> keys_of(const std::string& name) {
    std::vector<std::string> keys = {name};
    for (std::size_t i = 0; i < name.size(); ++i) {
        std::string shorter = name;
        shorter.erase(i, 1);
        keys.push_back(std::move(shorter));
    }
    std::sort(keys.begin(), keys.end());
    keys.erase(std::unique(keys.begin(), keys.end()), keys.end());
    return keys;
}

std::vector<bool> on_lines(const Book& book, const Points& points) {
    std::vector<bool> on(points.size(), false);
    for (const Reading& reading : book.readings) {
        const std::int32_t point = points.at(reading.point);
        if (reading.line != no_name && point >= 0) on[static_cast<std::size_t>(point)] = true;
    }
    return on;
}

// Letters of the names, digits left out: near names have letters one change apart, or the same but for case.
// Most books count their points under a few stems, and none of these is near another.
std::set<std::string> stems_with_neighbours(const std::vector<std::string>& names) {
    std::map<std::string, std::set<std::string>> by_key;
    const std::set<std::string> stems(names.begin(), names.end());
    for (const std::string& stem : stems) {
        for (const std::string& key : keys_of(folded(stem))) by_key[key].insert(stem);
    }
    std::set<std::string> found;
    for (const auto& [key, together] : by_key) {
        for (const std::string& a : together) {
            for (const std::string& b : together) {
                if (near_equal(a, b)) found.insert(a);
            }
        }
    }
    return found;
}

}  // namespace

bool near_equal(std::string_view a, std::string_view b) {
    if (a == b) return false;
    const std::string left = folded(a), right = folded(b);
    const std::string left_stem = without_digits(left), right_stem = without_digits(right);
    if (left_stem.empty() || right_stem.empty()) return false;
    if (left != right && left_stem == right_stem) return false;
    if (left.size() == right.size()) return one_changed_or_exchanged(left, right);
    if (left.size() == right.size() + 1) return one_left_out(left, right);
    return right.size() == left.size() + 1 && one_left_out(right, left);
}

std::vector<std::pair<std::int32_t, std::int32_t>> near_names(const Book& book, const Points& points) {
    std::vector<std::pair<std::int32_t, std::int32_t>> pairs;
    if (points.size() > near_names_limit) return pairs;
    const std::vector<bool> on_line = on_lines(book, points);
    std::vector<std::string> stems(points.size());
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (!on_line[i]) stems[i] = without_digits(std::string(book.names.text(points.name(i))));
    }
    const std::set<std::string> looked_at = stems_with_neighbours(stems);
    std::unordered_map<std::string, std::vector<std::int32_t>> by_key;
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (on_line[i] || looked_at.count(stems[i]) == 0) continue;
        const std::string name(book.names.text(points.name(i)));
        for (const std::string& key : keys_of(folded(name))) {
            std::vector<std::int32_t>& there = by_key[key];
            for (const std::int32_t other : there) {
                if (near_equal(name, book.names.text(points.name(static_cast<std::size_t>(other)))))
                    pairs.emplace_back(other, static_cast<std::int32_t>(i));
            }
            there.push_back(static_cast<std::int32_t>(i));
        }
    }
    std::sort(pairs.begin(), pairs.end());
    pairs.erase(std::unique(pairs.begin(), pairs.end()), pairs.end());
    return pairs;
}

}  // namespace fallwright
