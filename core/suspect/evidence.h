// evidence: what the readings say of a shift added to some of them.
//
// The model's problem, and beside it one weak row for every station of a line that has a design: its level is
// expected at the design within a rule's sd (25 mm unless the book says other). A lone sight is checked by
// nothing else. These rows never count in the global test, which would hide a misclosure behind them; with no
// design at all the model's own solution serves.
//
// For a column c of shifts (what a cause of size 1 adds to the left-hand side of rows), P = diag(1/V),
// M = P - P A N^-1 A' P:
//   pull         c' M y = sum of c t / V          (t: full residuals)
//   information  c' M c = c' P c - |z|^2,  z = L^-1 A' P c  as independent parts (adjust/adjust.h)
//   estimate     pull / information, its sd 1 / sqrt(information); statistic pull^2 / information
// Rows with redundancy 0 have nothing to say and drop out. Metres; a shift's unit is that of its cause.
//
// Source: the linear model with a bias column, as in reliability theory after W. Baarda (from memory).
#pragma once

#include <cstdint>
#include <functional>
#include <span>
#include <vector>

#include "design/design.h"
#include "model/model.h"

namespace fallwright {

// One row's share of a cause of size 1, `row` counted in the evidence's problem.
struct Shift {
    std::uint32_t row;
    double by;
};
using Shifts = std::vector<Shift>;  // by ascending row, each once

struct Pull {
    double pull = 0;
    double information = 0;  // 0: nothing would show
};

// A column measured, with what it takes to compare it with others.
struct Probe {
    Pull found;
    Shifts shifts;                    // of rows that are checked
    std::vector<adjust::Part> parts;  // z
};

class Evidence {
  public:
    // All outlive it.
    Evidence(const Book& book, const Designs& designs, const Model& model);

    const adjust::Problem& problem() const { return extended_ ? own_problem_ : model_.problem; }
    const adjust::Solution& solution() const { return extended_ ? own_solution_ : model_.solution; }
    // Row of the expectation of a point (index in Model::points); -1 where none.
    std::int32_t expectation_of(std::int32_t point) const {
        return extended_ ? expectation_[static_cast<std::size_t>(point)] : -1;
    }
    // Level of a point by this solution; NaN where undetermined.
    double level(std::int32_t point) const;
    // How much a sum of columns differs between this solution and the model's.
    double beyond_model(std::span<const adjust::Term> terms) const;

    bool checked(std::uint32_t row) const { return solution().redundancy[row] > 0; }
    double weight(std::uint32_t row) const { return 1 / variance(row); }
    double variance(std::uint32_t row) const {
        const adjust::Problem& all = problem();
        return all.sd[row] * all.sd[row] + all.folded[row];
    }
    // t / V of a row.
    double pull(std::uint32_t row) const {
        const double sd = problem().sd[row];
        return solution().residual[row] / (sd * sd);
    }
    // A shift of 1 on one row: without a solve.
    Pull one(std::uint32_t row) const {
        const double sd = problem().sd[row];
        return {pull(row), solution().redundancy[row] / (sd * sd)};
    }
    std::span<const adjust::Term> terms(std::uint32_t row, std::vector<adjust::Term>& into) const;
    // z of one row with weight 1/V: parts of its terms.
    std::vector<adjust::Part> parts(std::uint32_t row) const;
    Probe measure(Shifts shifts) const;
    // The same for a column of every reading of the book, by its coefficient: nothing of the column's length
    // is kept. shifts stay empty.
    using Coefficient = std::function<double(std::uint32_t)>;
    Probe measure_readings(const Coefficient& by) const;
    // c_a' P c_b of two such columns.
    double readings_together(const Coefficient& a, const Coefficient& b) const;
    // z of all shifts, rows that nothing checks too: what they do to the unknowns.
    std::vector<adjust::Part> response(const Shifts& shifts) const {
        return solution().parts_of(carried_by(shifts));
    }

  private:
    std::vector<adjust::Term> carried_by(const Shifts& shifts) const;
    void expect_designs(const Book& book, const Designs& designs);
    bool expect(const Book& book, const Design& design, const Reading& reading, double sd);

    const Model& model_;
    bool extended_ = false;
    adjust::Problem own_problem_;
    adjust::Solution own_solution_;
    std::vector<std::int32_t> expectation_;  // per point
};

// Products of two sums' parts, and of two columns after projection.
double product(std::span<const adjust::Part> a, std::span<const adjust::Part> b);
double joint_information(const Evidence& evidence, const Probe& a, const Probe& b);
// Correlation of what two columns do to the readings: 1 or -1 where no reading could tell them apart. 0 where
// one of them shows nowhere.
double likeness(const Evidence& evidence, const Probe& a, const Probe& b);

}  // namespace fallwright
