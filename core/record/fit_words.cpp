#include "record/fit_words.h"

#include <algorithm>
#include <cmath>

#include "record/words.h"

namespace fallwright::record {

std::vector<const Station*> fitted(const LineFalls& line, const Fit& fit) {
    std::vector<const Station*> stations;
    for (const Station& station : line.stations) {
        if (station.what == fit.what && !std::isnan(station.off_fit)) stations.push_back(&station);
    }
    std::sort(stations.begin(), stations.end(),
              [](const Station* a, const Station* b) { return a->ch < b->ch; });
    return stations;
}

std::string fit_words(const LineFalls& line, const Fit& fit, Unit unit) {
    const std::vector<const Station*> stations = fitted(line, fit);
    return gradient(fit.gradient) + " \u00b1 " + gradient_sd(fit.sd) + ", from " +
           level(stations.front()->ch, unit) + " to " + level(stations.back()->ch, unit) + ", " +
           counted(stations.size(), "point", "points");
}

std::string fit_evenness(const LineFalls& line, const Fit& fit, Unit unit) {
    const std::vector<const Station*> stations = fitted(line, fit);
    if (stations.size() <= 2) return "";
    const auto further = [](const Station* a, const Station* b) {
        return std::fabs(a->off_fit) < std::fabs(b->off_fit);
    };
    const Station& worst = **std::max_element(stations.begin(), stations.end(), further);
    return small(fit.rms, unit) + " " + small_unit(unit) + " off the best line (rms), at most " +
           small(std::fabs(worst.off_fit), unit) + " " + small_unit(unit) +
           (worst.off_fit < 0 ? " low" : " high") + " at " + level(worst.ch, unit);
}

}  // namespace fallwright::record
