#include "evenness/roughness_check.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/print.h"
#include "evenness/quarter_car.h"
#include "preset/roughness.h"

namespace fallwright {

namespace {

constexpr double even_spacing = 0.02;    // of the interval: chainages as people tape them
constexpr double interval_room = 0.001;  // metres, of the longest interval
constexpr double per_km = 1000;

// Successive readings of a row at one interval.
struct Stretch {
    std::size_t first, last;
    double interval;
};

std::vector<Stretch> even_stretches(const std::vector<double>& x) {
    std::vector<Stretch> all;
    for (std::size_t i = 1; i < x.size(); ++i) {
        const double interval = x[i] - x[i - 1];
        const bool goes_on =
            !all.empty() && std::fabs(interval - all.back().interval) <= even_spacing * all.back().interval;
        if (goes_on) {
            all.back().last = i;
        } else {
            all.push_back({i - 1, i, interval});
        }
    }
    for (Stretch& each : all)
        each.interval = (x[each.last] - x[each.first]) / static_cast<double>(each.last - each.first);
    return all;
}

class RoughnessChecker {
  public:
    RoughnessChecker(const EvennessBasis& basis, const RowOfReadings& row) : basis_(basis), row_(row) {}

    void run(EvenRow& to) const {
        const std::vector<double>& x = row_.line.x;
        std::string why;
        double refused = -1;  // length of the longest stretch that is
        for (const Stretch& stretch : even_stretches(x)) {
            std::string reason = reason_against(stretch);
            const double length = x[stretch.last] - x[stretch.first];
            if (reason.empty()) {
                to.roughness.push_back(roughness_of(stretch));
            } else if (length > refused) {
                refused = length;
                why = std::move(reason);
            }
        }
        to.roughness_refused = std::move(why);
    }

  private:
    std::string words(double metres) const {
        return trimmed(basis_.book.in_unit(metres), 3) + (basis_.book.unit == Unit::Foot ? " ft" : " m");
    }

    std::string reason_against(const Stretch& stretch) const {
        const double from = row_.line.x[stretch.first];
        const double to = row_.line.x[stretch.last];
        if (stretch.interval > preset::longest_interval_m + interval_room)
            return "readings stand " + words(stretch.interval) + " apart; the index needs " +
                   words(tyre_base) + ", " + words(preset::longest_interval_m) + " at most";
        if (to - from >= start_up - least_chainage) return "";
        const bool whole = stretch.first == 0 && stretch.last + 1 == row_.line.x.size();
        std::string text =
            "from " + fixed(basis_.book.in_unit(from), 3) + " to " + fixed(basis_.book.in_unit(to), 3);
        text += whole ? " it was read" : " it was read at one interval, then at another or not at all";
        return text + ": shorter than the " + words(start_up) + " the index needs to begin";
    }

    Roughness roughness_of(const Stretch& stretch) const {
        const auto begin = row_.line.h.begin();
        const std::vector<double> heights(begin + static_cast<std::ptrdiff_t>(stretch.first),
                                          begin + static_cast<std::ptrdiff_t>(stretch.last) + 1);
        const QuarterCar car(stretch.interval);
        Roughness found;
        found.from = row_.line.x[stretch.first];
        found.to = row_.line.x[stretch.last];
        found.spacing = stretch.interval;
        found.index = car.index(heights);
        std::vector<double> weights(row_.line.x.size(), 0);
        const std::vector<double> change = car.sensitivity(heights);
        std::copy(change.begin(), change.end(), weights.begin() + static_cast<std::ptrdiff_t>(stretch.first));
        found.sd = std::sqrt(variance_in(basis_.model, row_, weights));
        found.level_sd = own_sd(stretch);
        found.noise = found.level_sd * car.index_of_noise(heights.size());
        const double rest = found.index * found.index - found.noise * found.noise;
        found.without_noise = rest > 0 ? std::sqrt(rest) : NAN;
        classify(found);
        return found;
    }

    // What neighbours do not share: a reading against the middle of its neighbours has 1.5 times its
    // variance.
    double own_sd(const Stretch& stretch) const {
        constexpr std::size_t enough = 50;
        constexpr double of_a_chord = 1.5;
        const std::size_t count = stretch.last - stretch.first - 1;
        const std::size_t every = std::max<std::size_t>(1, count / enough);
        double sum = 0;
        int looked_at = 0;
        for (std::size_t i = stretch.first + 1; i < stretch.last; i += every, ++looked_at)
            sum += variance_of_rest(basis_.model, row_, i - 1, i, i + 1) / of_a_chord;
        return looked_at == 0 ? NAN : std::sqrt(sum / looked_at);
    }

    // By the error of the index that the readings leave: its sd, and what their noise adds to it.
    static void classify(Roughness& found) {
        const auto classes = preset::staff_classes(found.index * per_km);
        for (std::size_t i = 0; i < classes.size(); ++i)
            found.asks.at(i) = classes.at(i).resolution_mm / per_km;
        const double added = found.index - found.without_noise;
        const double error = std::sqrt(added * added + found.sd * found.sd);
        for (const preset::StaffClass& each : classes) {
            const bool close = found.spacing <= each.interval_m + interval_room;
            // Written so that what is not there (NaN) is in no class.
            if (!close || !(error <= each.largest_error * found.index)) continue;
            found.staff_class = each.number;
            return;
        }
    }

    const EvennessBasis& basis_;
    const RowOfReadings& row_;
};

}  // namespace

void check_roughness(const EvennessBasis& basis, const RowOfReadings& row, EvenRow& to) {
    RoughnessChecker(basis, row).run(to);
}

}  // namespace fallwright
