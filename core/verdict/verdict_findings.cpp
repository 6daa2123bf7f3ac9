#include <algorithm>
#include <cmath>
#include <string>
#include <unordered_set>
#include <utility>

#include "base/print.h"
#include "verdict/verdict.h"

namespace fallwright {

namespace {

constexpr double least_confidence = 0.5;

const Rule* confidence_rule(const Book& book) {
    for (const Rule& rule : book.rules) {
        if (book.name(rule.name) == "confidence") return &rule;
    }
    return nullptr;
}

bool usable(double p) {
    return p > least_confidence && p < 1;
}

bool holds_for(const Book& book, const Tolerance& tolerance, const Station& station) {
    if (tolerance.what == station.what) return true;
    const std::string_view what = book.names.text(station.what);
    return book.names.text(tolerance.what) == "laid" && (what == "laid in" || what == "laid out");
}

// Something is read on the surface, levels are to be judged, and nowhere is there a design to judge by.
bool judges_nothing(const Book& book, const Tolerance& tolerance, const Design& design,
                    const LineFalls& found) {
    if (!tolerance.below.has() && !tolerance.above.has()) return false;
    bool any_read = false;
    for (const Station& station : found.stations) {
        if (!holds_for(book, tolerance, station)) continue;
        any_read = true;
        if (design.level(book.names.text(station.what), station.ch, station.off).has()) return false;
    }
    return any_read;
}

std::string place_name(const Book& book, double ch, double off, NameId what) {
    return line_point_name("", book.in_unit(ch), book.in_unit(off), book.names.text(what));
}

// Where an older surface was read and nothing has been since.
void report_relaid(const Book& book, const LineEntry& line, const LineFalls& found, Findings& findings) {
    std::unordered_set<std::string> read_since;
    for (const Station& station : found.stations)
        read_since.insert(place_name(book, station.ch, station.off, station.what));
    std::vector<double> places;
    for (const Reading& reading : book.readings) {
        if (!reading.older || reading.planned || reading.line != line.name) continue;
        if (read_since.count(place_name(book, reading.ch, reading.off, reading.what)) == 0)
            places.push_back(reading.ch);
    }
    if (places.empty()) return;
    const auto ends = std::minmax_element(places.begin(), places.end());
    const std::string name = book.name(line.name);
    const auto shown = [&book](double ch) { return trimmed(book.in_unit(ch), 3); };
    findings.push_back(finding(Code::RelaidNotRead, {name},
                               "line " + name + " was relaid and is not read since, from chainage " +
                                   shown(*ends.first) + " to " + shown(*ends.second)));
}

}  // namespace

double confidence_of(const Book& book) {
    const Rule* rule = confidence_rule(book);
    return rule != nullptr && usable(rule->p.value) ? rule->p.value : usual_confidence;
}

Findings verdict_findings(const Book& book, const Designs& designs, const std::vector<LineFalls>& found) {
    Findings findings;
    const Rule* rule = confidence_rule(book);
    if (rule != nullptr && !usable(rule->p.value))
        findings.push_back(finding(Code::BadConfidence, {book.id_of(rule->entry)},
                                   "rule confidence has no p between 0.5 and 1; 0.95 is used"));
    for (const Tolerance& tolerance : book.tolerances) {
        for (std::size_t i = 0; i < found.size(); ++i) {
            if (book.lines[i].name != tolerance.line) continue;
            if (!judges_nothing(book, tolerance, designs.lines[i], found[i])) continue;
            findings.push_back(finding(Code::ToleranceUnused, {book.id_of(tolerance.entry)},
                                       "line " + book.name(tolerance.line) + " has no design for " +
                                           book.name(tolerance.what) + " where it was read"));
        }
    }
    if (book.relaids.empty()) return findings;
    for (std::size_t i = 0; i < found.size(); ++i) {
        const NameId line = book.lines[i].name;
        if (std::any_of(book.relaids.begin(), book.relaids.end(),
                        [line](const Relaid& relaid) { return relaid.line == line; }))
            report_relaid(book, book.lines[i], found[i], findings);
    }
    return findings;
}

}  // namespace fallwright
