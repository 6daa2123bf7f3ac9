#include "verdict/joint.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/print.h"
#include "base/stable_order.h"
#include "verdict/factors.h"
#include "verdict/lattice.h"
#include "verdict/normal_table.h"

namespace fallwright {

namespace {

constexpr double neglected = 1e-6;  // of the joint probability
constexpr double impossible = 1e-6;
constexpr double hopeless = 1e-12;  // a point's product that adds nothing
constexpr double touching = 1e-9;   // metres: a certain quantity this near a limit is at it

// Work is quantities x points; a factor of one of them costs a sixteenth of the quantity itself.
constexpr double most_work = 8e6;
constexpr double factor_work = 1.0 / 16;
constexpr double most_factor_work = 2e7;  // of finding them: quantities x rank^2
constexpr std::size_t fewest_factors = 4;
constexpr std::size_t most_factors = most_dimensions / 2;
constexpr std::size_t first_points = 512, fewest_points = 128;
// Twice as many points must move the answer by less than this share of the standard error of a million draws.
constexpr double stop_at = 0.4, draws = 1e6, least_change = 1e-5;
constexpr double root_of_two_pi = 2.5066282746310002;
constexpr double least_load = 1e-9;  // in units of a quantity's own noise

struct Load {
    std::size_t factor;
    double size;
};

// One quantity given the factors, in units of its own noise.
struct Given {
    double low, high;
    std::size_t first_load, end_load;
};

class Integrator {
  public:
    explicit Integrator(const Factors& factors)
        : factors_(factors), points_(2 * factors.rank), z_(factors.rank) {
        list_rest();
    }

    double run() {
        const std::size_t most = affordable();
        double before = NAN;
        bool steady = false;
        for (std::size_t wanted = std::min(first_points, most);; wanted *= 2) {
            while (done_ < wanted) add_points();
            const double now = sum_ / static_cast<double>(done_);
            const bool settled = has_settled(before, now);
            if ((settled && steady) || wanted == most) return now;
            steady = settled;
            before = now;
        }
    }

  private:
    std::size_t affordable() const {
        const double cost =
            static_cast<double>(factors_.own.size()) + factor_work * static_cast<double>(loads_.size());
        std::size_t most = fewest_points;
        while (most < most_points && 2 * static_cast<double>(most) * cost <= most_work) most *= 2;
        return most;
    }

    // Rounded, so that the last bits of another mathematics library decide nothing.
    static bool has_settled(double before, double now) {
        if (std::isnan(before)) return false;
        const double error = std::sqrt(std::max(0.0, now * (1 - now)) / draws);
        return rounded_to(std::fabs(now - before), 10) < rounded_to(stop_at * error + least_change, 10);
    }

    // Quantities that are no pivots, those nearest a limit first: a hopeless point is found out early.
    void list_rest() {
        std::vector<bool> is_pivot(factors_.own.size(), false);
        for (const std::size_t pivot : factors_.pivots) is_pivot[pivot] = true;
        std::vector<std::size_t> rest;
        for (std::size_t i = 0; i < factors_.own.size(); ++i) {
            if (!is_pivot[i]) rest.push_back(i);
        }
        const auto margin = [this](std::size_t i) { return std::min(-factors_.low[i], factors_.high[i]); };
        sort_stably(rest, [&](std::size_t a, std::size_t b) { return margin(a) < margin(b); });
        for (const std::size_t i : rest) add_given(i);
    }

    void add_given(std::size_t i) {
        const double own = factors_.own[i];
        const std::size_t first = loads_.size();
        for (std::size_t k = 0; k < factors_.rank; ++k) {
            const double load = factors_.loads_of(i)[k] / own;
            if (std::fabs(load) > least_load) loads_.push_back({k, load});
        }
        given_.push_back({factors_.low[i] / own, factors_.high[i] / own, first, loads_.size()});
    }

    void add_points() {
        weight_.fill(1);
        points_.next(u_);
        for (std::size_t k = 0; k < factors_.rank; ++k) draw_factor(k);
        for (std::size_t i = 0; i < given_.size() && alive(); ++i) multiply(given_[i]);
        for (const double weight : weight_) sum_ += weight;
        done_ += lanes;
    }

    bool alive() const { return *std::max_element(weight_.begin(), weight_.end()) > hopeless; }

    // The pivot's whole error within its limits, then the factor given that error.
    void draw_factor(std::size_t k) {
        const std::size_t i = factors_.pivots[k];
        const auto loads = factors_.loads_of(i);
        const double own = factors_.own[i];
        const double total = std::sqrt(loads[k] * loads[k] + own * own);
        Lanes mean{};
        for (std::size_t j = 0; j < k; ++j) {
            if (loads[j] == 0) continue;
            for (std::size_t lane = 0; lane < lanes; ++lane) mean[lane] += loads[j] * z_[j][lane];
        }
        for (std::size_t lane = 0; lane < lanes; ++lane) {
            const double low = table_.cdf((factors_.low[i] - mean[lane]) / total);
            const double chance = table_.cdf((factors_.high[i] - mean[lane]) / total) - low;
            weight_[lane] *= std::max(chance, 0.0);
            const double error = table_.quantile(low + u_[k][lane] * chance);
            const double noise = table_.quantile(u_[factors_.rank + k][lane]);
            z_[k][lane] = (loads[k] * error + own * noise) / total;
        }
    }

    void multiply(const Given& given) {
        Lanes mean{};
        for (std::size_t at = given.first_load; at < given.end_load; ++at) {
            const Load& load = loads_[at];
            const Lanes& z = z_[load.factor];
            for (std::size_t lane = 0; lane < lanes; ++lane) mean[lane] += load.size * z[lane];
        }
        for (std::size_t lane = 0; lane < lanes; ++lane)
            weight_[lane] *= table_.cdf(given.high - mean[lane]) - table_.cdf(given.low - mean[lane]);
    }

    const Factors& factors_;
    NormalTable table_;
    Lattice points_;
    std::vector<Given> given_;
    std::vector<Load> loads_;
    std::vector<Lanes> u_, z_;
    Lanes weight_{};
    double sum_ = 0;
    std::size_t done_ = 0;
};

// One factor: given it the quantities are independent, and the product is smooth on the scale of the least
// own noise, so that evenly spaced points are exact once they are finer than that.
double over_one_factor(const Factors& factors) {
    constexpr double reach = 8, points_per_own = 3, fewest = 200;
    const NormalTable table;
    const double own = *std::min_element(factors.own.begin(), factors.own.end());
    const auto half = static_cast<int>(std::max(fewest, reach * points_per_own / own));
    const double step = reach / half;
    double sum = 0;
    for (int j = -half; j <= half; ++j) {
        const double z = j * step;
        double product = std::exp(-z * z / 2) * step / root_of_two_pi;
        for (std::size_t i = 0; i < factors.own.size() && product > hopeless; ++i) {
            const double mean = factors.load[i] * z;
            product *= table.cdf((factors.high[i] - mean) / factors.own[i]) -
                       table.cdf((factors.low[i] - mean) / factors.own[i]);
        }
        sum += product > hopeless * step ? product : 0;
    }
    return sum;
}

struct Single {
    double outside;
    std::size_t sum;
};

double sd_of(const LimitedSum& sum) {
    double variance = 0;
    for (const adjust::Part& part : sum.parts) variance += part.coefficient * part.coefficient;
    return std::sqrt(variance);
}

// Drops what cannot matter, beginning with what is outside least probably.
std::vector<LimitedSum> keep_those_that_matter(std::vector<LimitedSum>& sums, std::vector<Single> singles) {
    sort_stably(singles, [](const Single& a, const Single& b) {
        return rounded_to(a.outside, 10) < rounded_to(b.outside, 10);
    });
    double dropped = 0;
    std::vector<LimitedSum> kept;
    for (const Single& single : singles) {
        dropped += single.outside;
        if (rounded_to(dropped, 10) > neglected) kept.push_back(std::move(sums[single.sum]));
    }
    return kept;
}

double integrate(const std::vector<LimitedSum>& sums) {
    const auto affordable =
        static_cast<std::size_t>(std::sqrt(most_factor_work / static_cast<double>(sums.size())));
    const Factors factors = factors_of(sums, std::clamp(affordable, fewest_factors, most_factors));
    return factors.rank == 1 ? over_one_factor(factors) : Integrator(factors).run();
}

}  // namespace

double joint_probability(std::vector<LimitedSum> sums) {
    std::vector<Single> singles;
    for (std::size_t i = 0; i < sums.size(); ++i) {
        const double sd = sd_of(sums[i]);
        Limits limits = sums[i].limits;
        if (sd == 0) limits = {limits.below - touching, limits.above + touching};
        const double p = probability_within(0, sd, limits);
        if (p < impossible) return 0;
        if (sd > 0) singles.push_back({1 - p, i});
    }
    const std::vector<LimitedSum> kept = keep_those_that_matter(sums, std::move(singles));
    if (kept.empty()) return 1;
    if (kept.size() == 1) return probability_within(0, sd_of(kept[0]), kept[0].limits);
    return integrate(kept);
}

}  // namespace fallwright
