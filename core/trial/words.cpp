#include "trial/words.h"

#include <cmath>
#include <string_view>

#include "base/print.h"

namespace fallwright {

namespace {

constexpr std::array<std::string_view, tested_errors> names = {"tilt main", "tilt cross", "cone",
                                                               "collimation"};

}  // namespace

double as_printed(const Book& book, double metres) {
    return rounded_to(book.in_unit(metres), length_places);
}

std::vector<std::string> CheckWords::about() const {
    const Trial& trial = book_.trials[outcome_.trial];
    return {book_.id_of(trial.entry), book_.name(trial.name), instrument()};
}

std::string CheckWords::check() const {
    return "check " + book_.name(book_.trials[outcome_.trial].name);
}

std::string CheckWords::instrument() const {
    return book_.name(book_.instruments[outcome_.instrument].name);
}

std::string CheckWords::shot(const ShotFit& fit) const {
    const Shot& shot = book_.trials[outcome_.trial].shots[fit.shot];
    return "peg " + book_.name(shot.peg) + " from " + book_.name(shot.station) + ", " +
           trimmed(book_.in_unit(fit.value), 4) + ", off by " + length(std::fabs(fit.residual));
}

std::string CheckWords::ratio(double ratio) {
    constexpr double per_thousand = 1000;
    return (ratio < 0 ? "" : "+") + trimmed(per_thousand * ratio, 3) + " mm/m";
}

std::string CheckWords::error(std::size_t which) {
    return std::string(names[which]);
}

std::string CheckWords::length_text(const Book& book, double metres) {
    constexpr double millimetres = 1000;
    if (book.unit == Unit::Foot) return fixed(book.in_unit(metres), 4) + " ft";
    return fixed(millimetres * metres, 1) + " mm";
}

std::vector<std::string> error_names(const std::array<bool, tested_errors>& tested,
                                     const std::array<bool, tested_errors>& which) {
    std::vector<std::string> found;
    const bool both = tested[0] && tested[1] && which[0] && which[1];
    if (both) found.emplace_back("tilt");
    for (std::size_t i = both ? 2 : 0; i < tested_errors; ++i) {
        if (tested[i] && which[i]) found.emplace_back(names[i]);
    }
    return found;
}

}  // namespace fallwright
