#include "suspect/tripod_pulls.h"

#include <algorithm>

namespace fallwright {

namespace {

// Of what a column carries, this much must remain for it to show; less is rounding.
constexpr double least_remainder = 1e-6;

}  // namespace

TripodPulls::TripodPulls(const Evidence& evidence, const Causes& causes)
    : evidence_(evidence), causes_(causes), sum_(evidence.problem().columns(), 0.0) {}

Pull TripodPulls::from(std::int32_t row) {
    take_tripod(row);
    return steps_[causes_.place_on_tripod(row)].from_here;
}

Pull TripodPulls::run(std::int32_t row, std::size_t count) {
    if (count == 1) return evidence_.one(static_cast<std::uint32_t>(row));
    take_tripod(row);
    const std::span<const std::uint32_t> rows =
        causes_.on_tripod(static_cast<std::size_t>(causes_.sight(row).setup));
    const std::size_t at = causes_.place_on_tripod(row);
    Pull sum;
    double carried = 0;
    for (std::size_t i = at; i < at + count; ++i) {
        if (!steps_[i].checked) continue;
        sum.pull += evidence_.pull(rows[i]);
        carried += evidence_.weight(rows[i]);
        sum.information -= steps_[i].beside[0];
        for (std::size_t j = i + 1; j < at + count; ++j) sum.information -= 2 * steps_[i].beside[j - i];
    }
    sum.information += carried;
    return sum.information < least_remainder * carried ? Pull{} : sum;
}

void TripodPulls::take_tripod(std::int32_t row) {
    const auto setup = static_cast<std::size_t>(causes_.sight(row).setup);
    const std::int32_t tripod = causes_.where().tripods[setup];
    if (tripod == tripod_) return;
    tripod_ = tripod;
    const std::span<const std::uint32_t> rows = causes_.on_tripod(setup);
    parts_.assign(rows.size(), {});
    steps_.assign(rows.size(), {});
    for (std::size_t i = 0; i < rows.size(); ++i) {
        steps_[i].checked = evidence_.checked(rows[i]);
        if (!steps_[i].checked) continue;
        parts_[i] = evidence_.parts(rows[i]);
        for (adjust::Part& part : parts_[i]) part.coefficient *= evidence_.weight(rows[i]);
    }
    sum_backwards(rows);
    multiply_neighbours(rows);
}

// Keeps |z|^2 beside z.
void TripodPulls::add(std::span<const adjust::Part> parts, double factor, double& squares) {
    for (const adjust::Part& part : parts) {
        double& z = sum_[static_cast<std::size_t>(part.source)];
        const double more = factor * part.coefficient;
        squares += (2 * z + more) * more;
        z += more;
        touched_.push_back(part.source);
    }
}

void TripodPulls::clear_sum() {
    for (const std::int32_t source : touched_) sum_[static_cast<std::size_t>(source)] = 0;
    touched_.clear();
}

Pull TripodPulls::of(std::int32_t row, const Shifts& shifts) {
    take_tripod(row);
    Pull sum;
    double carried = 0, explained = 0;
    for (const Shift& shift : shifts) {
        if (!evidence_.checked(shift.row)) continue;
        sum.pull += shift.by * evidence_.pull(shift.row);
        carried += shift.by * shift.by * evidence_.weight(shift.row);
        add(parts_[causes_.place_on_tripod(static_cast<std::int32_t>(shift.row))], shift.by, explained);
    }
    clear_sum();
    sum.information = carried - explained;
    return sum.information < least_remainder * carried ? Pull{} : sum;
}

void TripodPulls::sum_backwards(std::span<const std::uint32_t> rows) {
    Pull sum;
    double carried = 0, explained = 0;
    for (std::size_t i = rows.size(); i-- > 0;) {
        if (steps_[i].checked) {
            sum.pull += evidence_.pull(rows[i]);
            carried += evidence_.weight(rows[i]);
            add(parts_[i], 1, explained);
        }
        sum.information = carried - explained;
        steps_[i].from_here = sum.information < least_remainder * carried ? Pull{} : sum;
    }
    clear_sum();
}

void TripodPulls::multiply_neighbours(std::span<const std::uint32_t> rows) {
    for (std::size_t i = 0; i < rows.size(); ++i) {
        for (std::size_t j = i; j < std::min(i + steps_[i].beside.size(), rows.size()); ++j) {
            if (steps_[i].checked && steps_[j].checked)
                steps_[i].beside[j - i] = product(parts_[i], parts_[j]);
        }
    }
}

}  // namespace fallwright
