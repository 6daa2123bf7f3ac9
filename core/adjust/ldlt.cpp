#include "adjust/ldlt.h"

#include <utility>

namespace fallwright::adjust {
namespace {

class Factorisation {
  public:
    Factorisation(const ScaledRows& rows, const Tree& tree);
    Ldlt run();

  private:
    void count();
    void step(Column self);
    double gather(Column self);
    void walk(Column self, Column from);
    double eliminate(Column self, double diagonal);
    void check_pivot(Column self, double pivot);
    Mode direction(Column self);
    void clear_of_weak(Column self);
    Mode take_direction(Column self);
    void take_pivot(Column self, double pivot);

    const ScaledRows& rows_;
    const Tree& tree_;
    Ldlt l_;
    std::vector<std::size_t> end_;  // per position: end of what its column of L holds so far
    std::vector<double> work_;      // the row being worked on, 0 between rows
    std::vector<Node> visited_;     // last row of L whose pattern held the position
    std::vector<Column> path_;
    std::vector<Column> pattern_;  // of the row, topological from top_ on
    std::size_t top_ = 0;
    std::vector<double> scratch_;  // 0 between uses
    std::vector<double> error_;    // per position: bound of the rounding in its pivot
};

Factorisation::Factorisation(const ScaledRows& rows, const Tree& tree) : rows_(rows), tree_(tree) {
    const std::size_t size = rows.order.size();
    count();
    l_.row.resize(l_.start.back());
    l_.value.resize(l_.start.back());
    l_.inverse_pivot.resize(size);
    l_.strong.resize(size);
    end_.assign(l_.start.begin(), l_.start.end() - 1);
    work_.assign(size, 0.0);
    visited_.assign(size, no_node);
    pattern_.resize(size);
    scratch_.assign(size, 0.0);
    error_.resize(size);
}

// Entries of each column of L: every row of L is the part of the tree between its entries and itself.
void Factorisation::count() {
    const Column size = rows_.positions();
    l_.start.assign(static_cast<std::size_t>(size) + 1, 0);
    std::vector<Node> seen(size, no_node);
    for (Column self = 0; self < size; ++self) {
        seen[self] = self;
        for (const RowIndex row : rows_.rows_at(self))
            for (Column at : rows_.places(row))
                for (; at < self && seen[at] != self; at = tree_.parent[at]) {
                    seen[at] = self;
                    ++l_.start[at + 1];
                }
    }
    for (Column k = 0; k < size; ++k) l_.start[k + 1] += l_.start[k];
}

// Adds the path from an entry up to what is already in the pattern.
void Factorisation::walk(Column self, Column from) {
    path_.clear();
    for (; visited_[from] != self; from = tree_.parent[from]) {
        visited_[from] = self;
        path_.push_back(from);
    }
    while (!path_.empty()) {
        pattern_[--top_] = path_.back();
        path_.pop_back();
    }
}

// The column of the normal matrix above the diagonal into work_, its pattern into pattern_; returns the
// diagonal.
double Factorisation::gather(Column self) {
    double diagonal = rows_.prior[self];
    visited_[self] = self;
    top_ = pattern_.size();
    for (const RowIndex row : rows_.rows_at(self)) {
        const auto places = rows_.places(row);
        const auto values = rows_.values(row);
        double own = 0;
        for (std::size_t p = 0; p < places.size(); ++p)
            if (places[p] == self) own = values[p];
        diagonal += own * own;
        for (std::size_t p = 0; p < places.size(); ++p) {
            if (places[p] >= self) continue;
            work_[places[p]] += own * values[p];
            if (visited_[places[p]] != self) walk(self, places[p]);
        }
    }
    return diagonal;
}

// The triangular solve for one row of L; returns the pivot. The bound of its rounding runs along: what each
// subtraction rounds off, and what the pivots below have lost themselves.
double Factorisation::eliminate(Column self, double pivot) {
    double error = rounding * pivot;
    for (std::size_t p = top_; p < pattern_.size(); ++p) {
        const Column at = pattern_[p];
        const double u = work_[at];
        work_[at] = 0;
        const std::size_t end = end_[at]++;
        for (std::size_t q = l_.start[at]; q < end; ++q) work_[l_.row[q]] -= l_.value[q] * u;
        const double entry = u * l_.inverse_pivot[at];
        pivot -= entry * u;
        error += entry * (rounding * u + entry * error_[at]);
        l_.row[end] = self;
        l_.value[end] = entry;
    }
    error_[self] = error;
    return pivot;
}

// z = L^-T e within the subtree. Columns of L hold just the rows up to `self` at this moment.
Mode Factorisation::direction(Column self) {
    work_[self] = 1.0;
    for (Column at = self; at-- > tree_.first[self];) {
        double sum = 0;
        for (std::size_t q = l_.start[at]; q < end_[at]; ++q) sum -= l_.value[q] * work_[l_.row[q]];
        work_[at] = sum;
    }
    clear_of_weak(self);
    return take_direction(self);
}

// Directions are N-orthogonal to each other. Of a weak one below, the factor leaves in them its own rounding
// over the stiffness: that is taken out.
void Factorisation::clear_of_weak(Column self) {
    for (std::size_t m = l_.modes.size(); m-- > 0 && l_.modes[m].pivot() >= tree_.first[self];) {
        const Mode& weak = l_.modes[m];
        if (weak.null()) continue;
        const double share = product_of(rows_, weak, work_, scratch_) / weak.stiffness;
        for (std::size_t k = 0; k < weak.z.size(); ++k) work_[weak.place[k]] -= share * weak.z[k];
    }
}

// The direction out of work_, which is 0 again afterwards.
Mode Factorisation::take_direction(Column self) {
    Mode mode;
    mode.first = tree_.first[self];
    for (Column at = mode.first; at <= self; ++at) {
        if (work_[at] == 0) continue;
        mode.place.push_back(at);
        mode.z.push_back(work_[at]);
        work_[at] = 0;
    }
    return mode;
}

void Factorisation::take_pivot(Column self, double pivot) {
    l_.inverse_pivot[self] = 1.0 / pivot;
    l_.strong[self] = l_.inverse_pivot[self];
}

// Takes the pivot as it is, or as the rows give it, or as the mark of a soft direction.
void Factorisation::check_pivot(Column self, double pivot) {
    if (pivot >= weak_pivot && error_[self] <= pivot_error * pivot) {
        take_pivot(self, pivot);
        return;
    }
    Mode mode = direction(self);
    mode.stiffness = stiffness_of(rows_, mode, work_);
    error_[self] = rounding * mode.stiffness;
    const double largest = mode.largest();
    if (mode.stiffness >= weak_pivot * largest * largest) {
        take_pivot(self, mode.stiffness);
        return;
    }
    if (mode.stiffness < pivot_limit) mode.stiffness = 0;
    l_.inverse_pivot[self] = mode.null() ? 0.0 : 1.0 / mode.stiffness;
    l_.modes.push_back(std::move(mode));
}

void Factorisation::step(Column self) {
    const double diagonal = gather(self);
    check_pivot(self, eliminate(self, diagonal));
}

Ldlt Factorisation::run() {
    for (Column self = 0; self < rows_.positions(); ++self) step(self);
    return std::move(l_);
}

}  // namespace

Ldlt factorise(const ScaledRows& rows, const Tree& tree) {
    return Factorisation(rows, tree).run();
}

void Ldlt::solve_strong(std::vector<double>& b) const {
    const Column size = positions();
    for (Column k = 0; k < size; ++k) {
        const double known = b[k];
        for (std::size_t p = start[k]; p < start[k + 1]; ++p) b[row[p]] -= value[p] * known;
    }
    for (Column k = size; k-- > 0;) {
        double sum = b[k] * strong[k];
        for (std::size_t p = start[k]; p < start[k + 1]; ++p) sum -= value[p] * b[row[p]];
        b[k] = sum;
    }
}

}  // namespace fallwright::adjust
