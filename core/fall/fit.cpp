#include "fall/fit.h"

#include <algorithm>
#include <cmath>

namespace fallwright {

namespace {

bool on_line(const Station& station) {
    return std::fabs(station.off) < least_offset;
}

void list_stations(const Book& book, const Model& model, std::vector<LineFalls>& lines) {
    const ByName line_of(book.lines);
    std::vector<bool> listed(model.points.size(), false);
    for (const Reading& reading : book.readings) {
        if (reading.line == no_name || reading.planned || reading.older) continue;
        const std::int32_t point = model.points.at(reading.point);
        if (point < 0) continue;
        if (listed[static_cast<std::size_t>(point)]) continue;
        listed[static_cast<std::size_t>(point)] = true;
        lines[static_cast<std::size_t>(line_of(reading.line))].stations.push_back(
            {point, reading.ch, reading.off, reading.what, NAN});
    }
}

// Stations on the line with a level, of one surface.
std::vector<Station*> fitted_stations(LineFalls& line, NameId what, const Model& model) {
    std::vector<Station*> chosen;
    for (Station& station : line.stations) {
        const bool has_level = !std::isnan(model.levels[static_cast<std::size_t>(station.point)].level);
        if (station.what == what && on_line(station) && has_level) chosen.push_back(&station);
    }
    return chosen;
}

// The middle of the stations along the line, and how far they spread about it: sum of squares.
struct Spread {
    template <class Stations>
    explicit Spread(const Stations& stations) {
        const auto n = static_cast<double>(stations.size());
        for (const Station* station : stations) mean += station->ch / n;
        for (const Station* station : stations) squares += (station->ch - mean) * (station->ch - mean);
    }
    double mean = 0, squares = 0;
};

void fit_surface(LineFalls& line, NameId what, const Model& model) {
    const std::vector<Station*> stations = fitted_stations(line, what, model);
    const auto level = [&](const Station* station) {
        return model.levels[static_cast<std::size_t>(station->point)].level;
    };
    const auto n = static_cast<double>(stations.size());
    const Spread spread(stations);
    if (stations.size() < 2 || spread.squares < least_offset * least_offset) return;
    double mean_level = 0;
    for (const Station* station : stations) mean_level += level(station) / n;

    std::vector<PointTerm> sum;
    Fit fit;
    fit.what = what;
    for (const Station* station : stations) {
        const double weight = (station->ch - spread.mean) / spread.squares;
        sum.push_back({station->point, weight});
        fit.gradient += weight * (level(station) - mean_level);
    }
    fit.sd = std::sqrt(model.variance_of(sum));
    fit.level_at_0 = mean_level - fit.gradient * spread.mean;
    double squares = 0;
    for (Station* station : stations) {
        station->off_fit = level(station) - (fit.level_at_0 + fit.gradient * station->ch);
        squares += station->off_fit * station->off_fit;
    }
    fit.rms = std::sqrt(squares / n);
    line.fits.push_back(fit);
}

}  // namespace

double off_fit_sd(const LineFalls& line, const Station& station, const Model& model) {
    if (std::isnan(station.off_fit)) return NAN;
    std::vector<const Station*> fitted;
    for (const Station& each : line.stations) {
        if (each.what == station.what && !std::isnan(each.off_fit)) fitted.push_back(&each);
    }
    const auto n = static_cast<double>(fitted.size());
    const Spread spread(fitted);
    std::vector<PointTerm> sum;
    for (const Station* each : fitted) {
        const double share = 1 / n + (each->ch - spread.mean) * (station.ch - spread.mean) / spread.squares;
        sum.push_back({each->point, (each->point == station.point ? 1 : 0) - share});
    }
    return std::sqrt(std::max(0.0, model.variance_of(sum)));
}

std::vector<LineFalls> find_falls(const Book& book, const Model& model) {
    std::vector<LineFalls> lines(book.lines.size());
    list_stations(book, model, lines);
    for (LineFalls& line : lines) {
        std::vector<NameId> whats;
        for (const Station& station : line.stations) {
            if (std::find(whats.begin(), whats.end(), station.what) == whats.end())
                whats.push_back(station.what);
        }
        for (const NameId what : whats) fit_surface(line, what, model);
    }
    return lines;
}

}  // namespace fallwright
