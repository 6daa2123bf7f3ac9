#include "suspect/doubts.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

#include "adjust/statistics.h"
#include "base/print.h"
#include "base/stable_order.h"

namespace fallwright {

namespace {

std::string length_text(const Book& book, double metres) {
    constexpr double millimetres = 1000;
    if (book.unit == Unit::Foot) return trimmed(book.in_unit(metres), 4) + " ft";
    return trimmed(metres * millimetres, 2) + " mm";
}

void ask_near_names(const Causes& causes, Findings& findings) {
    const Book& book = causes.book();
    const Model& model = causes.model();
    for (const auto& [a, b] : causes.near_pairs()) {
        const std::string first = book.name(model.points.name(static_cast<std::size_t>(a)));
        const std::string second = book.name(model.points.name(static_cast<std::size_t>(b)));
        std::string message = "points ";
        message.append(first).append(" and ").append(second).append(" have nearly the same name");
        findings.push_back(finding(Code::NearNames, {first, second}, std::move(message)));
    }
}

struct AlongLine {
    double ch, level;
    std::uint32_t reading;
};

// How far a point lies off the straight line between its neighbours; the ends have one side only and are not
// asked about.
std::vector<double> off_neighbours(const std::vector<AlongLine>& points) {
    std::vector<double> off(points.size(), 0);
    for (std::size_t i = 1; i + 1 < points.size(); ++i) {
        const AlongLine &before = points[i - 1], &after = points[i + 1];
        const double part = (points[i].ch - before.ch) / (after.ch - before.ch);
        off[i] = std::fabs(points[i].level - before.level - part * (after.level - before.level));
    }
    return off;
}

// A spike pulls its neighbours' straight lines too, by half: only the highest of the three is asked about.
void ask_neighbours(const Book& book, const std::vector<AlongLine>& points, Findings& findings) {
    constexpr std::size_t enough = 7;
    constexpr double least = 0.05, times_usual = 8;  // metres; of the median
    if (points.size() < enough) return;
    const std::vector<double> off = off_neighbours(points);
    std::vector<double> sorted(off.begin() + 1, off.end() - 1);
    std::nth_element(sorted.begin(), sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2),
                     sorted.end());
    const double usual = sorted[sorted.size() / 2];
    for (std::size_t i = 1; i + 1 < off.size(); ++i) {
        if (off[i] < std::max(least, times_usual * usual) || off[i] < off[i - 1] || off[i] <= off[i + 1])
            continue;
        const Reading& reading = book.readings[points[i].reading];
        findings.push_back(finding(Code::NoNeighbour, {book.id_of(reading.entry)},
                                   book.name(reading.point) + " lies " + length_text(book, off[i]) +
                                       " off the straight line between its neighbours"));
    }
}

void ask_lines(const Book& book, const Model& model, const Evidence& evidence, Findings& findings) {
    std::map<std::tuple<NameId, NameId, double>, std::vector<AlongLine>> runs;
    std::vector<bool> seen(model.points.size(), false);
    for (const SightRow& row : model.sights.rows) {
        const Reading& reading = book.readings[row.reading];
        const auto point = static_cast<std::size_t>(row.point);
        if (reading.line == no_name || seen[point] || evidence.expectation_of(row.point) >= 0) continue;
        seen[point] = true;
        if (std::isnan(model.levels[point].level)) continue;
        runs[{reading.line, reading.what, reading.off}].push_back(
            {reading.ch, model.levels[point].level, row.reading});
    }
    for (auto& [where, points] : runs) {
        sort_stably(points, [](const AlongLine& a, const AlongLine& b) { return a.ch < b.ch; });
        points.erase(std::unique(points.begin(), points.end(),
                                 [](const AlongLine& a, const AlongLine& b) { return a.ch == b.ch; }),
                     points.end());
        ask_neighbours(book, points, findings);
    }
}

struct Repeats {
    double sum = 0;  // of squares against the stated variance
    std::int64_t dof = 0;
};

// Readings of one point in one set-up share everything but their own noise.
std::map<std::int32_t, Repeats> repeats_by_instrument(const Book& book, const Model& model) {
    struct Mean {
        double weight = 0, sum = 0, squares = 0;
        std::int64_t count = 0;
    };
    std::map<std::pair<std::int32_t, std::int32_t>, Mean> groups;
    for (const SightRow& row : model.sights.rows) {
        if (!row.repeated) continue;
        Mean& mean = groups[{row.setup, row.point}];
        const double weight = 1 / (row.sd * row.sd);
        const double first = row.upright;
        mean.weight += weight;
        mean.sum += weight * first;
        mean.squares += weight * first * first;
        ++mean.count;
    }
    std::map<std::int32_t, Repeats> found;
    for (const auto& [which, mean] : groups) {
        if (mean.count < 2) continue;
        Repeats& of = found[book.setups[static_cast<std::size_t>(which.first)].instrument_at];
        of.sum += std::max(0.0, mean.squares - mean.sum * mean.sum / mean.weight);
        of.dof += mean.count - 1;
    }
    return found;
}

void ask_repeats(const Book& book, const Model& model, Findings& findings) {
    constexpr std::int64_t enough = 5;
    for (const auto& [instrument, repeats] : repeats_by_instrument(book, model)) {
        if (repeats.dof < enough) continue;
        const auto dof = static_cast<double>(repeats.dof);
        const bool more = repeats.sum > adjust::chi_square_quantile(0.975, dof);
        if (!more && repeats.sum > adjust::chi_square_quantile(0.025, dof)) continue;
        const auto at = static_cast<std::size_t>(instrument);
        const double stated = model.sights.errors[at].reading_sd;
        const std::string name = book.name(book.instruments[at].name);
        findings.push_back(finding(Code::ReadingSdDiffers, {name},
                                   "repeats with " + name + " scatter by " +
                                       length_text(book, stated * std::sqrt(repeats.sum / dof)) + " where " +
                                       length_text(book, stated) + " is stated or assumed (" +
                                       std::to_string(repeats.dof) + " repeats)"));
    }
}

// Flagged until the point that decides is read after the amendment.
void ask_amendments(const Book& book, Findings& findings) {
    for (const OnSuspicion& amend : book.on_suspicion) {
        const Instant from = book.entries[amend.entry].at;
        const bool read =
            std::any_of(book.readings.begin(), book.readings.end(), [&](const Reading& reading) {
                const Instant at = book.entries[reading.entry].at;
                return !reading.planned && reading.point == amend.point &&
                       (at > from || (at == from && reading.entry > amend.entry));
            });
        if (read) continue;
        findings.push_back(finding(Code::AmendedOnSuspicion, {book.id_of(amend.entry)},
                                   "amended on a suspicion; " + book.name(amend.point) +
                                       ", which would decide, has not been read since"));
    }
}

}  // namespace

Findings doubts_of(const Causes& causes, const Evidence& evidence) {
    const Book& book = causes.book();
    const Model& model = causes.model();
    Findings findings;
    ask_near_names(causes, findings);
    ask_lines(book, model, evidence, findings);
    ask_repeats(book, model, findings);
    ask_amendments(book, findings);
    return findings;
}

}  // namespace fallwright
