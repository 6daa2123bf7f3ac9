#include "model/approximate.h"

#include <cmath>
#include <deque>

namespace fallwright {

namespace {

constexpr double start_of_loose_parts = 100;

// A graph of points (first) and tripods, walked breadth first.
class Walk {
  public:
    Walk(const Book& book, const Points& points, const Sights& sights, const Where& where)
        : book_(book), points_(points), sights_(sights), where_(where) {
        found_.levels.assign(points.size(), NAN);
        found_.planes.assign(book.setups.size(), NAN);
        index_rows();
        index_steps();
    }

    Approximate run(const std::vector<double>& known) {
        for (std::size_t i = 0; i < known.size(); ++i) {
            if (!std::isnan(known[i])) set_level(i, known[i]);
        }
        walk();
        for (std::size_t i = 0; i < points_.size(); ++i) {
            if (!std::isnan(found_.levels[i])) continue;
            set_level(i, start_of_loose_parts);
            walk();
        }
        for (std::size_t i = 0; i < book_.setups.size(); ++i) found_.planes[i] = found_.planes[tripod(i)];
        return std::move(found_);
    }

  private:
    std::size_t tripod(std::size_t setup) const { return static_cast<std::size_t>(where_.tripods[setup]); }

    // Rows of each point and of each tripod, in compressed form.
    void index_rows() {
        point_start_.assign(points_.size() + 1, 0);
        tripod_start_.assign(book_.setups.size() + 1, 0);
        for (const SightRow& row : sights_.rows) {
            ++point_start_[static_cast<std::size_t>(row.point) + 1];
            ++tripod_start_[tripod(static_cast<std::size_t>(row.setup)) + 1];
        }
        for (std::size_t i = 1; i < point_start_.size(); ++i) point_start_[i] += point_start_[i - 1];
        for (std::size_t i = 1; i < tripod_start_.size(); ++i) tripod_start_[i] += tripod_start_[i - 1];
        by_point_.resize(sights_.rows.size());
        by_tripod_.resize(sights_.rows.size());
        std::vector<std::uint32_t> next_point(point_start_.begin(), point_start_.end() - 1);
        std::vector<std::uint32_t> next_tripod(tripod_start_.begin(), tripod_start_.end() - 1);
        for (std::uint32_t i = 0; i < sights_.rows.size(); ++i) {
            const SightRow& row = sights_.rows[i];
            by_point_[next_point[static_cast<std::size_t>(row.point)]++] = i;
            by_tripod_[next_tripod[tripod(static_cast<std::size_t>(row.setup))]++] = i;
        }
    }

    void index_steps() {
        if (book_.steps.empty()) return;
        steps_of_.resize(points_.size());
        for (const Step& step : book_.steps) {
            const auto from = static_cast<std::size_t>(points_.at(step.from));
            const auto to = static_cast<std::size_t>(points_.at(step.to));
            steps_of_[from].push_back({to, step.rise});
            steps_of_[to].push_back({from, -step.rise});
        }
    }

    void set_level(std::size_t point, double level) {
        found_.levels[point] = level;
        reached_.push_back(point);
    }

    void walk() {
        while (!reached_.empty()) {
            const std::size_t point = reached_.front();
            reached_.pop_front();
            for (std::uint32_t k = point_start_[point]; k < point_start_[point + 1]; ++k)
                reach_tripod(sights_.rows[by_point_[k]]);
            if (steps_of_.empty()) continue;
            for (const Carry& step : steps_of_[point]) {
                if (std::isnan(found_.levels[step.to])) set_level(step.to, found_.levels[point] + step.rise);
            }
        }
    }

    double plane_minus_level(const SightRow& row) const {
        return row.upright - plane_offset(sights_.setups[static_cast<std::size_t>(row.setup)], row);
    }

    void reach_tripod(const SightRow& from) {
        const std::size_t root = tripod(static_cast<std::size_t>(from.setup));
        if (!std::isnan(found_.planes[root])) return;
        found_.planes[root] = found_.levels[static_cast<std::size_t>(from.point)] + plane_minus_level(from);
        for (std::uint32_t k = tripod_start_[root]; k < tripod_start_[root + 1]; ++k) {
            const SightRow& row = sights_.rows[by_tripod_[k]];
            const auto point = static_cast<std::size_t>(row.point);
            if (std::isnan(found_.levels[point]))
                set_level(point, found_.planes[root] - plane_minus_level(row));
        }
    }

    struct Carry {
        std::size_t to;
        double rise;
    };

    const Book& book_;
    const Points& points_;
    const Sights& sights_;
    const Where& where_;
    Approximate found_;
    std::deque<std::size_t> reached_;
    std::vector<std::uint32_t> point_start_, tripod_start_, by_point_, by_tripod_;
    std::vector<std::vector<Carry>> steps_of_;
};

}  // namespace

double plane_offset(const SetupTerms& setup, const SightRow& row) {
    return setup.g[0] * row.terms.u + setup.g[1] * row.terms.v + row.curvature;
}

Approximate approximate(const Book& book, const Points& points, const Sights& sights, const Where& where,
                        const std::vector<double>& known) {
    return Walk(book, points, sights, where).run(known);
}

}  // namespace fallwright
