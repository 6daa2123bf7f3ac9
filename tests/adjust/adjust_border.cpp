// The engine's border as text: a problem on standard input, its solution on standard output, 17 digits.
//
//   columns N                                    once, first
//   prior COLUMN VALUE SD
//   row Y SD FOLDED PRIVATE [COLUMN COEFFICIENT]...
//   ask [COLUMN COEFFICIENT]...                  a sum whose variance is wanted
//   ask2 COLUMN COLUMN                           an element of the inverse
// answers, in this order:
//   count OBSERVATIONS UNKNOWNS DOF CHI2
//   column X VARIANCE                            one line a column
//   row RESIDUAL REDUNDANCY                      one line a row
//   null [COLUMN COMPONENT]...                   one line a null vector
//   ask VARIANCE, ask2 COVARIANCE                one line a question, in the order asked
// nan where undetermined. Exit 2 on a line that is none of these.
#include <cstdio>
#include <iostream>
#include <limits>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "adjust/adjust.h"

namespace {

using fallwright::adjust::Column;
using fallwright::adjust::Problem;
using fallwright::adjust::Solution;
using fallwright::adjust::Term;

using Terms = std::vector<Term>;

struct Input {
    Problem problem;
    std::vector<Terms> sums;
    std::vector<std::pair<Column, Column>> elements;
};

bool read_terms(std::istream& line, const Problem& problem, Terms& terms) {
    Term term{};
    while (line >> term.column) {
        if (!(line >> term.coefficient)) return false;
        if (term.column < 0 || static_cast<std::size_t>(term.column) >= problem.columns()) return false;
        terms.push_back(term);
    }
    return line.eof();
}

bool read_row(std::istream& line, Problem& problem) {
    double y = 0, sd = 0, folded = 0;
    int privates = 0;
    Terms terms;
    if (!(line >> y >> sd >> folded >> privates) || !read_terms(line, problem, terms)) return false;
    problem.add_row(terms, y, sd, folded, privates);
    return true;
}

bool read_line(const std::string& text, Input& input) {
    std::istringstream line(text);
    std::string word;
    line >> word;
    if (word == "row") return read_row(line, input.problem);
    if (word == "ask") return read_terms(line, input.problem, input.sums.emplace_back());
    if (word == "ask2") {
        auto& pair = input.elements.emplace_back();
        return static_cast<bool>(line >> pair.first >> pair.second);
    }
    if (word == "prior") {
        Column column = 0;
        double value = 0, sd = 0;
        if (!(line >> column >> value >> sd)) return false;
        input.problem.add_prior(column, value, sd);
        return true;
    }
    int columns = 0;
    if (word != "columns" || !(line >> columns)) return false;
    for (int j = 0; j < columns; ++j) input.problem.add_column();
    return true;
}

void write(const Solution& solution) {
    std::printf("count %lld %lld %lld %.17g\n", static_cast<long long>(solution.observations),
                static_cast<long long>(solution.unknowns), static_cast<long long>(solution.dof),
                solution.chi2);
    for (std::size_t j = 0; j < solution.x.size(); ++j)
        std::printf("column %.17g %.17g\n", solution.x[j], solution.variance[j]);
    for (std::size_t i = 0; i < solution.residual.size(); ++i)
        std::printf("row %.17g %.17g\n", solution.residual[i], solution.redundancy[i]);
    for (const auto& null : solution.nulls) {
        std::printf("null");
        for (const Term& move : null.moves) std::printf(" %d %.17g", move.column, move.coefficient);
        std::printf("\n");
    }
}

}  // namespace

int main() {
    Input input;
    std::string text;
    for (int number = 1; std::getline(std::cin, text); ++number)
        if (!text.empty() && !read_line(text, input)) {
            std::fprintf(stderr, "adjust_border: line %d is no line of a problem\n", number);
            return 2;
        }
    const Solution solution = solve(input.problem);
    write(solution);
    for (const Terms& sum : input.sums) std::printf("ask %.17g\n", solution.variance_of(sum));
    for (const auto& [a, b] : input.elements) std::printf("ask2 %.17g\n", solution.covariance_of(a, b));
    return 0;
}
