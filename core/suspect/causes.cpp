#include "suspect/causes.h"

#include <cmath>
#include <string>

#include "base/stable_order.h"
#include "suspect/names.h"

namespace fallwright {

namespace {

constexpr double shared_point_share = 0.1;  // of a point that carried no level into the set-up

}  // namespace

Causes::Causes(const Book& book, const Where& where, const Figures& figures, const Designs& designs,
               const Model& model, const Evidence& evidence)
    : book_(book),
      where_(where),
      figures_(figures),
      designs_(designs),
      model_(model),
      evidence_(evidence),
      lines_(book.lines),
      receivers_(book.receivers),
      near_pairs_(near_names(book, model.points)) {
    for (std::size_t i = 0; i < book.lines.size(); ++i)
        plans_.emplace_back(book.lines[i], static_cast<std::int32_t>(i));
    sort_rows();
    sort_by_point();
    note_change_points();
    for (const auto& [a, b] : near_pairs_) {
        near_names_[a].push_back(b);
        near_names_[b].push_back(a);
    }
}

void Causes::sort_rows() {
    const std::size_t setups = book_.setups.size();
    tripod_start_.assign(setups + 1, 0);
    std::vector<std::uint32_t> in_time;
    order_of_.assign(setups, -1);
    for (const std::uint32_t reading : book_.readings_by_time) {
        const std::int32_t row = model_.sights.row_of[reading];
        if (row < 0) continue;
        in_time.push_back(static_cast<std::uint32_t>(row));
        const std::int32_t setup = sight(row).setup;
        ++tripod_start_[static_cast<std::size_t>(where_.tripods[static_cast<std::size_t>(setup)]) + 1];
        standing_ = setup;
        std::int32_t& order = order_of_[static_cast<std::size_t>(setup)];
        if (order >= 0) continue;
        order = static_cast<std::int32_t>(setup_order_.size());
        setup_order_.push_back(setup);
    }
    for (std::size_t i = 0; i < setups; ++i) tripod_start_[i + 1] += tripod_start_[i];
    std::vector<std::uint32_t> next(tripod_start_.begin(), tripod_start_.end());
    by_time_.resize(in_time.size());
    place_.resize(in_time.size());
    for (const std::uint32_t row : in_time) {
        const auto setup = static_cast<std::size_t>(model_.sights.rows[row].setup);
        place_[row] = next[static_cast<std::size_t>(where_.tripods[setup])]++;
        by_time_[place_[row]] = row;
    }
}

void Causes::sort_by_point() {
    point_start_.assign(model_.points.size() + 1, 0);
    for (const SightRow& row : model_.sights.rows) ++point_start_[static_cast<std::size_t>(row.point) + 1];
    for (std::size_t i = 1; i < point_start_.size(); ++i) point_start_[i] += point_start_[i - 1];
    std::vector<std::uint32_t> next(point_start_.begin(), point_start_.end());
    by_point_.resize(model_.sights.rows.size());
    for (std::size_t row = 0; row < by_point_.size(); ++row)
        by_point_[next[static_cast<std::size_t>(model_.sights.rows[row].point)]++] =
            static_cast<std::uint32_t>(row);
}

std::span<const std::uint32_t> Causes::rows_of(std::int32_t point) const {
    const auto at = static_cast<std::size_t>(point);
    return {by_point_.data() + point_start_[at], point_start_[at + 1] - point_start_[at]};
}

std::span<const std::uint32_t> Causes::on_tripod(std::size_t setup) const {
    const auto root = static_cast<std::size_t>(where_.tripods[setup]);
    return {by_time_.data() + tripod_start_[root], tripod_start_[root + 1] - tripod_start_[root]};
}

std::size_t Causes::place_on_tripod(std::int32_t row) const {
    const auto tripod = static_cast<std::size_t>(where_.tripods[static_cast<std::size_t>(sight(row).setup)]);
    return place_[static_cast<std::size_t>(row)] - tripod_start_[tripod];
}

// The first point of a set-up that was read before carries the level into it; all others that were read
// before are shared points.
void Causes::note_change_points() {
    std::vector<std::int32_t> last_tripod(model_.points.size(), -1);
    std::vector<bool> carried(book_.setups.size(), false);
    for (const std::uint32_t reading : book_.readings_by_time) {
        const std::int32_t row = model_.sights.row_of[reading];
        if (row < 0) continue;
        const SightRow& of = sight(row);
        const std::int32_t tripod = where_.tripods[static_cast<std::size_t>(of.setup)];
        std::int32_t& before = last_tripod[static_cast<std::size_t>(of.point)];
        if (before >= 0 && before != tripod) {
            const bool carrier = !carried[static_cast<std::size_t>(tripod)];
            carried[static_cast<std::size_t>(tripod)] = true;
            change_points_.push_back({of.point, of.setup, row, carrier ? 1.0 : shared_point_share});
        }
        before = tripod;
    }
    sort_stably(change_points_, [](const ChangePoint& a, const ChangePoint& b) { return a.setup < b.setup; });
}

std::int32_t Causes::row_of_tripod(const Cause& cause, const Shifts& shifts) const {
    if (cause.setup < 0 || shifts.empty()) return -1;
    const std::int32_t root = where_.tripods[static_cast<std::size_t>(cause.setup)];
    for (const Shift& shift : shifts) {
        if (shift.row >= model_.sights.rows.size()) return -1;
        const std::int32_t setup = model_.sights.rows[shift.row].setup;
        if (where_.tripods[static_cast<std::size_t>(setup)] != root) return -1;
    }
    return static_cast<std::int32_t>(shifts.front().row);
}

bool Causes::first_on_tripod(std::int32_t setup) const {
    const std::span<const std::uint32_t> all = on_tripod(static_cast<std::size_t>(setup));
    return model_.sights.rows[all.front()].setup == setup;
}

}  // namespace fallwright
