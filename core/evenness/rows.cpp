#include "evenness/rows.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

#include "base/stable_order.h"
#include "fall/falls.h"

namespace fallwright {

namespace {

constexpr std::size_t least_stations = 3;

// Places along and across are one where names of points write them alike.
long long named(const Book& book, double metres) {
    constexpr double thousandths = 1000;
    return std::llround(book.in_unit(metres) * thousandths);
}

class RowFinder {
  public:
    explicit RowFinder(const EvennessBasis& basis) : basis_(basis), level_of_(levels_found(basis.model)) {
        ground_ = basis.book.names.find("ground");
        peg_ = basis.book.names.find("peg");
    }

    bool counts(const Station& station) const {
        const double level = basis_.model.levels[static_cast<std::size_t>(station.point)].level;
        return station.what != ground_ && station.what != peg_ && !std::isnan(level);
    }

    std::vector<NameId> surfaces() const {
        std::vector<NameId> whats;
        for (const Station& station : basis_.found.stations) {
            const bool seen = std::find(whats.begin(), whats.end(), station.what) != whats.end();
            if (counts(station) && !seen) whats.push_back(station.what);
        }
        return whats;
    }

    // key: which row a station is in.
    template <class Key>
    std::map<long long, std::vector<const Station*>> grouped(NameId what, Key key) const {
        std::map<long long, std::vector<const Station*>> rows;
        for (const Station& station : basis_.found.stations) {
            if (station.what == what && counts(station)) rows[key(station)].push_back(&station);
        }
        return rows;
    }

    void add_along(NameId what, std::vector<RowOfReadings>& to) const {
        const auto offset = [this](const Station& s) { return named(basis_.book, s.off); };
        for (auto& [key, stations] : grouped(what, offset)) add(what, true, std::move(stations), to);
    }

    // With a camber each side by itself: nobody lays an edge over the crown. The crown belongs to both.
    void add_across(NameId what, std::vector<RowOfReadings>& to) const {
        const auto chainage = [this](const Station& s) { return named(basis_.book, s.ch); };
        for (auto& [key, stations] : grouped(what, chainage)) {
            if (stations.size() < least_stations) continue;
            const double ch = stations.front()->ch;
            const double crown = basis_.design.rise_across(ch, 1) + basis_.design.rise_across(ch, -1);
            constexpr double flat = 5e-8;  // half the last place of a gradient in results
            if (std::fabs(crown) < flat) {
                add(what, false, std::move(stations), to);
                continue;
            }
            std::vector<const Station*> left, right;
            for (const Station* station : stations) {
                if (station->off < least_offset) left.push_back(station);
                if (station->off > -least_offset) right.push_back(station);
            }
            add(what, false, std::move(left), to);
            add(what, false, std::move(right), to);
        }
    }

  private:
    void add(NameId what, bool along, std::vector<const Station*> stations,
             std::vector<RowOfReadings>& to) const {
        const auto position = [along](const Station* s) { return along ? s->ch : s->off; };
        sort_stably(stations, [&](const Station* a, const Station* b) { return position(a) < position(b); });
        RowOfReadings row;
        row.what = what;
        row.along = along;
        const std::string_view name = basis_.book.names.text(what);
        const DesignSurface surface = basis_.design.heights().find(name);
        for (const Station* station : stations) {
            const double x = position(station);
            if (!row.line.x.empty() && x - row.line.x.back() < least_chainage) continue;
            row.stations.push_back(station);
            row.line.x.push_back(x);
            row.line.h.push_back(basis_.model.levels[static_cast<std::size_t>(station->point)].level);
            row.design.h.push_back(basis_.design.level(surface, station->ch, station->off).value(level_of_));
        }
        if (row.stations.size() < least_stations) return;
        row.design.x = row.line.x;
        row.at = along ? row.stations.front()->off : row.stations.front()->ch;
        to.push_back(std::move(row));
    }

    const EvennessBasis& basis_;
    LevelOf level_of_;
    NameId ground_ = no_name, peg_ = no_name;
};

}  // namespace

std::vector<RowOfReadings> rows_of(const EvennessBasis& basis) {
    const RowFinder finder(basis);
    std::vector<RowOfReadings> rows;
    for (const NameId what : finder.surfaces()) {
        finder.add_along(what, rows);
        finder.add_across(what, rows);
    }
    return rows;
}

double variance_in(const Model& model, const RowOfReadings& row, const std::vector<double>& coefficients) {
    std::vector<PointTerm> sum;
    sum.reserve(coefficients.size());
    for (std::size_t i = 0; i < coefficients.size(); ++i) {
        if (coefficients[i] != 0) sum.push_back({row.stations[i]->point, coefficients[i]});
    }
    return sum.empty() ? 0 : std::max(0.0, model.variance_of(sum));
}

double variance_of_rest(const Model& model, const RowOfReadings& row, std::size_t a, std::size_t i,
                        std::size_t b) {
    const double share = (row.line.x[i] - row.line.x[a]) / (row.line.x[b] - row.line.x[a]);
    const std::array<PointTerm, 3> sum = {
        {{row.stations[i]->point, 1}, {row.stations[a]->point, share - 1}, {row.stations[b]->point, -share}}};
    return std::max(0.0, model.variance_of(sum));
}

std::vector<StationsAt> stations_by_chainage(const EvennessBasis& basis) {
    const RowFinder finder(basis);
    std::vector<StationsAt> all;
    for (const NameId what : finder.surfaces()) {
        const auto chainage = [&basis](const Station& s) { return named(basis.book, s.ch); };
        for (auto& [key, stations] : finder.grouped(what, chainage)) {
            sort_stably(stations, [](const Station* a, const Station* b) { return a->off < b->off; });
            all.push_back({what, stations.front()->ch, std::move(stations)});
        }
    }
    sort_stably(all, [](const StationsAt& a, const StationsAt& b) { return a.ch < b.ch; });
    return all;
}

}  // namespace fallwright
