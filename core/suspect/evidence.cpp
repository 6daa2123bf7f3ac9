#include "suspect/evidence.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace fallwright {

namespace {

constexpr double usual_expectation = 0.025;  // metres
// Of what a column carries, this much must remain for it to show; less is rounding.
constexpr double least_remainder = 1e-6;

double expectation_rule(const Book& book) {
    for (const Rule& rule : book.rules) {
        if (book.names.text(rule.name) == "expectation") return rule.sd.or_else(usual_expectation);
    }
    return usual_expectation;
}

}  // namespace

Evidence::Evidence(const Book& book, const Designs& designs, const Model& model) : model_(model) {
    const bool any = std::any_of(designs.lines.begin(), designs.lines.end(),
                                 [](const Design& design) { return design.any(); });
    if (any) expect_designs(book, designs);
    if (extended_) own_solution_ = adjust::solve(own_problem_);
}

void Evidence::expect_designs(const Book& book, const Designs& designs) {
    const double sd = expectation_rule(book);
    if (sd == 0) return;
    const ByName lines(book.lines);
    expectation_.assign(model_.points.size(), -1);
    for (const SightRow& row : model_.sights.rows) {
        const Reading& reading = book.readings[row.reading];
        if (reading.line == no_name || expectation_[static_cast<std::size_t>(row.point)] >= 0) continue;
        const std::int32_t line = lines(reading.line);
        if (line < 0 || !designs.lines[static_cast<std::size_t>(line)].any()) continue;
        if (own_problem_.rows() == 0) own_problem_ = model_.problem;
        if (expect(book, designs.lines[static_cast<std::size_t>(line)], reading, sd)) extended_ = true;
    }
}

bool Evidence::expect(const Book& book, const Design& design, const Reading& reading, double sd) {
    const std::int32_t point = model_.points.at(reading.point);
    const auto at = static_cast<std::size_t>(point);
    const adjust::Column column = model_.level_columns[at];
    const DesignLevel wanted = design.level(book.names.text(reading.what), reading.ch, reading.off);
    if (column == no_column || !wanted.has() || std::isnan(model_.levels[at].level)) return false;
    const auto before = [this](std::int32_t of) {
        const auto i = static_cast<std::size_t>(of);
        const adjust::Column own = model_.level_columns[i];
        return model_.levels[i].level -
               (own == no_column ? 0 : model_.solution.x[static_cast<std::size_t>(own)]);
    };
    std::vector<adjust::Term> terms = {{column, 1}};
    double y = wanted.constant - before(point);
    for (const Hang& hang : wanted.hangs) {
        const std::int32_t on = model_.points.at(hang.point);
        if (on < 0 || on == point || std::isnan(model_.levels[static_cast<std::size_t>(on)].level))
            return false;
        y += hang.coefficient * before(on);
        const adjust::Column own = model_.level_columns[static_cast<std::size_t>(on)];
        if (own != no_column) terms.push_back({own, -hang.coefficient});
    }
    expectation_[at] = static_cast<std::int32_t>(own_problem_.add_row(terms, y, sd));
    return true;
}

double Evidence::level(std::int32_t point) const {
    const auto at = static_cast<std::size_t>(point);
    const adjust::Column column = model_.level_columns[at];
    if (column == no_column) return model_.levels[at].level;
    const std::array<adjust::Term, 1> terms = {{{column, 1}}};
    return model_.levels[at].level + beyond_model(terms);
}

double Evidence::beyond_model(std::span<const adjust::Term> terms) const {
    if (!extended_) return 0;
    double difference = 0;
    for (const adjust::Term& term : terms) {
        const auto column = static_cast<std::size_t>(term.column);
        difference += term.coefficient * (own_solution_.x[column] - model_.solution.x[column]);
    }
    return difference;
}

std::span<const adjust::Term> Evidence::terms(std::uint32_t row, std::vector<adjust::Term>& into) const {
    const adjust::Problem& all = problem();
    into.clear();
    into.reserve(all.start[row + 1] - all.start[row]);
    for (std::size_t k = all.start[row]; k < all.start[row + 1]; ++k)
        into.push_back({all.column[k], all.coefficient[k]});
    return into;
}

std::vector<adjust::Part> Evidence::parts(std::uint32_t row) const {
    std::vector<adjust::Term> of_row;
    return solution().parts_of(terms(row, of_row));
}

// A' P c. Many rows are summed by column, so that a column that all of them carry is one term.
std::vector<adjust::Term> Evidence::carried_by(const Shifts& shifts) const {
    constexpr std::size_t many = 64, usual_terms = 4;
    const adjust::Problem& all = problem();
    std::vector<adjust::Term> sum;
    std::vector<double> by_column(shifts.size() > many ? all.columns() : 0, 0.0);
    if (by_column.empty()) sum.reserve(usual_terms * shifts.size());
    for (const Shift& shift : shifts) {
        for (std::size_t k = all.start[shift.row]; k < all.start[shift.row + 1]; ++k) {
            const double more = all.coefficient[k] * shift.by * weight(shift.row);
            if (by_column.empty()) {
                sum.push_back({all.column[k], more});
            } else {
                by_column[static_cast<std::size_t>(all.column[k])] += more;
            }
        }
    }
    for (std::size_t column = 0; column < by_column.size(); ++column) {
        if (by_column[column] != 0) sum.push_back({static_cast<adjust::Column>(column), by_column[column]});
    }
    return sum;
}

Probe Evidence::measure(Shifts shifts) const {
    shifts.erase(std::remove_if(shifts.begin(), shifts.end(),
                                [this](const Shift& shift) { return !checked(shift.row) || shift.by == 0; }),
                 shifts.end());
    if (shifts.empty()) return {};
    Probe measured;
    double carried = 0, explained = 0;
    for (const Shift& shift : shifts) {
        measured.found.pull += shift.by * pull(shift.row);
        carried += shift.by * shift.by * weight(shift.row);
    }
    measured.parts = solution().parts_of(carried_by(shifts));
    for (const adjust::Part& part : measured.parts) explained += part.coefficient * part.coefficient;
    measured.found.information = carried - explained;
    if (measured.found.information < least_remainder * carried) return {};
    measured.shifts = std::move(shifts);
    return measured;
}

namespace {

// The columns that are not zero. A cause of the whole book has nearly all of them, so the sums are given up
// first.
std::vector<adjust::Term> terms_of(std::vector<double> sums) {
    std::vector<adjust::Term> found;
    found.reserve(sums.size() - static_cast<std::size_t>(std::count(sums.begin(), sums.end(), 0.0)));
    for (std::size_t column = 0; column < sums.size(); ++column) {
        if (sums[column] != 0) found.push_back({static_cast<adjust::Column>(column), sums[column]});
    }
    return found;
}

}  // namespace

Probe Evidence::measure_readings(const Coefficient& by) const {
    Probe measured;
    std::vector<double> sum(problem().columns(), 0.0);
    std::vector<adjust::Term> terms_of_row;
    double carried = 0, explained = 0;
    for (std::uint32_t row = 0; row < model_.sights.rows.size(); ++row) {
        const double coefficient = by(row);
        if (coefficient == 0 || !checked(row)) continue;
        measured.found.pull += coefficient * pull(row);
        carried += coefficient * coefficient * weight(row);
        for (const adjust::Term& term : terms(row, terms_of_row))
            sum[static_cast<std::size_t>(term.column)] += coefficient * weight(row) * term.coefficient;
    }
    if (carried == 0) return {};
    measured.parts = solution().parts_of(terms_of(std::move(sum)));
    for (const adjust::Part& part : measured.parts) explained += part.coefficient * part.coefficient;
    measured.found.information = carried - explained;
    if (measured.found.information < least_remainder * carried) return {};
    return measured;
}

double Evidence::readings_together(const Coefficient& a, const Coefficient& b) const {
    double sum = 0;
    for (std::uint32_t row = 0; row < model_.sights.rows.size(); ++row) {
        if (checked(row)) sum += a(row) * b(row) * weight(row);
    }
    return sum;
}

double product(std::span<const adjust::Part> a, std::span<const adjust::Part> b) {
    double sum = 0;
    std::size_t q = 0;
    for (const adjust::Part& part : a) {
        while (q < b.size() && b[q].source < part.source) ++q;
        if (q == b.size()) break;
        if (b[q].source == part.source) sum += part.coefficient * b[q].coefficient;
    }
    return sum;
}

double joint_information(const Evidence& evidence, const Probe& a, const Probe& b) {
    double sum = 0;
    std::size_t q = 0;
    for (const Shift& shift : a.shifts) {
        while (q < b.shifts.size() && b.shifts[q].row < shift.row) ++q;
        if (q == b.shifts.size()) break;
        if (b.shifts[q].row == shift.row) sum += shift.by * b.shifts[q].by * evidence.weight(shift.row);
    }
    return sum - product(a.parts, b.parts);
}

double likeness(const Evidence& evidence, const Probe& a, const Probe& b) {
    if (a.found.information <= 0 || b.found.information <= 0) return 0;
    return joint_information(evidence, a, b) / std::sqrt(a.found.information * b.found.information);
}

}  // namespace fallwright
