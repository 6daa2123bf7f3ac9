#include "evenness/straightedge.h"

#include <cmath>

namespace fallwright {

namespace {

constexpr double rounding_room = 1e-9;  // metres: an edge that was typed as long as the distance
constexpr double even_distance = 0.01;  // of the distance: two neighbours equally far

double slope(const RowLine& row, std::size_t a, std::size_t b) {
    return (row.h[b] - row.h[a]) / (row.x[b] - row.x[a]);
}

// The readings an edge from a on touches, as indices: the upper hull of those under it.
std::vector<std::size_t> touched(const RowLine& row, std::size_t a, double length) {
    std::vector<std::size_t> hull;
    for (std::size_t i = a; i < row.x.size() && row.x[i] - row.x[a] <= length + rounding_room; ++i) {
        while (hull.size() > 1 &&
               slope(row, hull[hull.size() - 2], hull.back()) <= slope(row, hull.back(), i))
            hull.pop_back();
        hull.push_back(i);
    }
    return hull;
}

void take(const RowLine& row, std::size_t a, std::size_t i, std::size_t b, Rest& to) {
    const double gap = under(row, a, i, b);
    if (gap > to.gap) to = {a, b, gap};
}

// Keeps the worse by its share of the limit.
class SpotFinder {
  public:
    SpotFinder(const RowLine& row, double longest, const std::function<double(double)>& limit)
        : row_(row), longest_(longest), limit_(limit), share_(row.x.size(), 0), worst_(row.x.size()) {}

    bool run() {
        for (std::size_t a = 0; a < row_.x.size(); ++a) {
            std::size_t last = a;
            while (last + 1 < row_.x.size() && row_.x[last + 1] - row_.x[a] <= longest_ + rounding_room)
                ++last;
            if (last - a > most_between) return false;
            look_from(a, last);
        }
        for (std::size_t i = 1; i + 1 < row_.x.size(); ++i) look_around(i);
        return true;
    }

    std::vector<Rest> take_worst() { return std::move(worst_); }

  private:
    void look_from(std::size_t a, std::size_t last) {
        double steepest = NAN;  // of all between, as seen from a
        for (std::size_t b = a + 1; b <= last; ++b) {
            const double seen = slope(row_, a, b);
            if (b > a + 1 && seen >= steepest) {
                for (std::size_t i = a + 1; i < b; ++i) weigh(a, i, b);
            }
            steepest = std::fmax(steepest, seen);
        }
    }

    void look_around(std::size_t i) {
        for (std::size_t k = 1; k <= i && i + k < row_.x.size(); ++k) {
            const double before = row_.x[i] - row_.x[i - k];
            const double after = row_.x[i + k] - row_.x[i];
            if (before + after > longest_ + rounding_room) return;
            if (std::fabs(after - before) <= even_distance * (before + after)) weigh(i - k, i, i + k);
        }
    }

    void weigh(std::size_t a, std::size_t i, std::size_t b) {
        const double gap = under(row_, a, i, b);
        const double share = std::fabs(gap) / limit_(row_.x[b] - row_.x[a]);
        if (!(share > share_[i])) return;
        share_[i] = share;
        worst_[i] = {a, b, gap};
    }

    const RowLine& row_;
    double longest_;
    const std::function<double(double)>& limit_;
    std::vector<double> share_;
    std::vector<Rest> worst_;
};

}  // namespace

double under(const RowLine& row, std::size_t a, std::size_t i, std::size_t b) {
    const double share = (row.x[i] - row.x[a]) / (row.x[b] - row.x[a]);
    return row.h[a] + share * (row.h[b] - row.h[a]) - row.h[i];
}

std::vector<Rest> gaps_under(const RowLine& row, double length) {
    std::vector<Rest> worst(row.x.size());
    for (std::size_t a = 0; a < row.x.size(); ++a) {
        const std::vector<std::size_t> hull = touched(row, a, length);
        for (std::size_t k = 1; k < hull.size(); ++k) {
            for (std::size_t i = hull[k - 1] + 1; i < hull[k]; ++i)
                take(row, hull[k - 1], i, hull[k], worst[i]);
        }
    }
    return worst;
}

bool worst_spots(const RowLine& row, double longest, const std::function<double(double)>& limit,
                 std::vector<Rest>& worst) {
    SpotFinder finder(row, longest, limit);
    const bool done = finder.run();
    worst = done ? finder.take_worst() : std::vector<Rest>();
    return done;
}

}  // namespace fallwright
