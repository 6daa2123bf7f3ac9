// Certified regressions run on the engine: certified FILE.reg...
//
// Prints the digits in which each value agrees with the certified one, -log10 of the relative difference, at
// most
// 15. Exit 1 where fewer agree than the file wants, 2 where a file cannot be read.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "adjust/adjust.h"

namespace {

namespace adjust = fallwright::adjust;

struct Certified {
    std::vector<int> powers;
    double digits = 0;
    std::vector<double> value, sd;
    double residual_sd = 0;
    long long dof = 0;
    std::vector<double> y, x;
};

bool read_certified(std::istream& line, Certified& into) {
    std::string name, word;
    double value = 0, sd = 0;
    if (!(line >> name >> value)) return false;
    if (name == "residual_sd")
        into.residual_sd = value;
    else if (name == "dof")
        into.dof = static_cast<long long>(value);
    else if (line >> word >> sd && word == "sd") {
        into.value.push_back(value);
        into.sd.push_back(sd);
    } else
        return false;
    return true;
}

bool read_line(const std::string& text, Certified& into) {
    std::istringstream line(text);
    std::string word;
    if (!(line >> word) || word[0] == '#') return true;
    if (word == "certified") return read_certified(line, into);
    if (word == "digits") return static_cast<bool>(line >> into.digits);
    if (word == "powers") {
        for (int power = 0; line >> power;) into.powers.push_back(power);
        return !into.powers.empty();
    }
    double y = 0, x = 0;
    if (word != "reading" || !(line >> y >> x)) return false;
    into.y.push_back(y);
    into.x.push_back(x);
    return true;
}

bool read_file(const char* name, Certified& into) {
    std::ifstream file(name);
    std::string text;
    while (std::getline(file, text))
        if (!read_line(text, into)) return false;
    return into.digits >= 9 && into.value.size() == into.powers.size() && into.y.size() > into.value.size();
}

adjust::Problem problem_of(const Certified& data) {
    adjust::Problem problem;
    for (std::size_t k = 0; k < data.powers.size(); ++k) problem.add_column();
    for (std::size_t i = 0; i < data.y.size(); ++i) {
        std::vector<adjust::Term> terms;
        for (std::size_t k = 0; k < data.powers.size(); ++k) {
            double term = 1;
            for (int power = 0; power < data.powers[k]; ++power) term *= data.x[i];
            terms.push_back({static_cast<adjust::Column>(k), term});
        }
        problem.add_row(terms, data.y[i], 1.0);
    }
    return problem;
}

double agreeing_digits(double got, double certified) {
    const double off = std::abs(got - certified) / std::abs(certified);
    return off == 0 ? 15.0 : std::min(15.0, -std::log10(off));
}

// Prints the line and tells whether enough digits agree.
bool enough(const std::string& what, double got, double certified, double wanted) {
    const double digits = agreeing_digits(got, certified);
    std::printf("  %-14s %22.15g  certified %22.15g  digits %4.1f\n", what.c_str(), got, certified, digits);
    return digits >= wanted;
}

bool run(const char* name) {
    Certified data;
    if (!read_file(name, data)) {
        std::fprintf(stderr, "certified: %s is no regression file\n", name);
        std::exit(2);
    }
    const adjust::Solution solution = solve(problem_of(data));
    const double spread = std::sqrt(solution.chi2 / static_cast<double>(solution.dof));
    std::printf("%s, wanted: %g digits\n", name, data.digits);
    bool good = solution.dof == data.dof;
    for (std::size_t k = 0; k < data.value.size(); ++k) {
        const std::string label = "B" + std::to_string(data.powers[k]);
        good = enough(label, solution.x[k], data.value[k], data.digits) && good;
        const double sd = spread * std::sqrt(solution.variance[k]);
        good = enough(label + " sd", sd, data.sd[k], data.digits) && good;
    }
    return enough("residual sd", spread, data.residual_sd, data.digits) && good;
}

}  // namespace

int main(int count, char** names) {
    bool good = count > 1;
    for (int k = 1; k < count; ++k) good = run(names[k]) && good;
    std::printf(good ? "all agree\n" : "some do not agree\n");
    return good ? 0 : 1;
}
