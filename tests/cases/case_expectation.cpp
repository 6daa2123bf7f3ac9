#include "case_file.h"
#include "case_words.h"

namespace fallwright::cases {
namespace {

using Words = std::vector<std::string>;

double unit_at(const Words& words, std::size_t& at) {
    if (at >= words.size()) return 1;
    const double factor = unit_factor(words[at]);
    if (factor == 0) return 1;
    ++at;
    return factor;
}

bool is_plus_minus(const std::string& word) {
    return word == "±" || word == "+-";
}

// VALUE [UNIT] [± TOLERANCE [UNIT]]; without a tolerance half the last digit printed.
void read_figure(Expectation& e, const Words& words, std::size_t at) {
    const Printed printed = printed_number(words[at++]);
    const double factor = unit_at(words, at);
    e.value = printed.value * factor;
    e.tolerance = printed.half_digit * factor;
    if (at < words.size() && is_plus_minus(words[at])) {
        if (++at >= words.size()) throw Complaint("± stands without a tolerance");
        const double tolerance = printed_number(words[at++]).value;
        e.tolerance = tolerance * unit_at(words, at);
    }
    if (at < words.size()) throw Complaint("\"" + words[at] + "\" is not understood here");
}

// PATH [+ PATH | - PATH]...
std::size_t read_terms(Expectation& e, const Words& words) {
    e.terms.push_back({words.at(0), false});
    std::size_t at = 1;
    while (at + 1 < words.size() && (words[at] == "-" || words[at] == "+")) {
        e.terms.push_back({words[at + 1], words[at] == "-"});
        at += 2;
    }
    return at;
}

void read_code(Expectation& e, const Words& words, std::size_t at) {
    if (at < words.size() && words[at] != "about") e.code = words[at++];
    if (at + 1 < words.size() && words[at] == "about") {
        e.about = words[at + 1];
        at += 2;
        if (e.about.front() == '"') e.about = Json::parse(e.about).get<std::string>();
    }
    if (at < words.size()) throw Complaint("\"" + words[at] + "\" is not understood here");
}

bool read_spoken(Expectation& e, const Words& words) {
    using What = Expectation::What;
    if (words[0] == "finding")
        e.what = What::Finding;
    else if (words[0] == "failure")
        e.what = What::Failure;
    else if (words[0] == "no" && words.size() > 1 && words[1] == "finding")
        e.what = What::NoFinding;
    else
        return false;
    read_code(e, words, e.what == What::NoFinding ? 2 : 1);
    return true;
}

}  // namespace

Expectation read_expectation(const Words& words) {
    using What = Expectation::What;
    Expectation e;
    if (words.empty()) throw Complaint("expect what?");
    if (read_spoken(e, words)) return e;
    std::size_t at = read_terms(e, words);
    if (at >= words.size()) throw Complaint("expect PATH VALUE");
    if (words[at] == "as" && at + 2 == words.size() && words[at + 1] == "before") {
        e.what = What::AsBefore;
        return e;
    }
    if (words[at] == "<" || words[at] == ">") {
        e.what = words[at] == "<" ? What::Below : What::Above;
        if (++at >= words.size()) throw Complaint("expect PATH < VALUE");
        read_figure(e, words, at);
        return e;
    }
    if (is_number(words[at])) {
        e.what = What::Figure;
        read_figure(e, words, at);
        return e;
    }
    e.what = words[at] == "contains" ? What::Contains : What::Value;
    if (e.what == What::Contains) ++at;
    if (at + 1 != words.size() || e.terms.size() != 1)
        throw Complaint("expect PATH VALUE; text with blanks stands in quotes");
    e.json = word_as_json(words[at]);
    const Json parsed = Json::parse(e.json, nullptr, false);
    if (parsed.is_discarded() || (e.what == What::Contains && !parsed.is_string()))
        throw Complaint("\"" + words[at] + "\" is no value");
    return e;
}

}  // namespace fallwright::cases
