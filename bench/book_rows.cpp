// The rows of a book's model for the yardstick, and the processor time of one solve() on them.
//
//   book_rows BOOK FILE     writes the rows in binary (tests/adjust/speed.py reads them), prints "seconds S
//   columns C"
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <ctime>
#include <fstream>
#include <sstream>
#include <vector>

#include "evaluation/evaluation.h"

namespace {

using namespace fallwright;

template <class T>
void write(std::FILE* file, const std::vector<T>& values) {
    const std::uint64_t count = values.size();
    std::fwrite(&count, sizeof count, 1, file);
    std::fwrite(values.data(), sizeof(T), values.size(), file);
}

double seconds_of(const adjust::Problem& problem) {
    constexpr int tries = 3;
    double best = 1e9;
    for (int i = 0; i < tries; ++i) {
        const std::clock_t begin = std::clock();
        const adjust::Solution solution = adjust::solve(problem);
        best = std::min(best, static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC);
    }
    return best;
}

}  // namespace

int main(int count, char** arguments) {
    if (count != 3) return 2;
    std::stringstream text;
    text << std::ifstream(arguments[1]).rdbuf();
    const Result<std::unique_ptr<Book>> book = read_book(text.str());
    std::FILE* file = std::fopen(arguments[2], "wb");
    if (!book || file == nullptr) return 2;
    constexpr double assumed_sight = 30;
    const auto model = build_model(**book, read_figures(**book), locate(**book, assumed_sight));
    const adjust::Problem& problem = model->problem;
    std::vector<std::uint64_t> start(problem.start.begin(), problem.start.end());
    std::vector<double> sd;
    for (std::size_t i = 0; i < problem.rows(); ++i)
        sd.push_back(std::sqrt(problem.sd[i] * problem.sd[i] + problem.folded[i]));
    write(file, start);
    write(file, problem.column);
    write(file, problem.coefficient);
    write(file, problem.y);
    write(file, sd);
    write(file, problem.prior_value);
    write(file, problem.prior_sd);
    std::fclose(file);
    std::printf("seconds %.6f columns %zu\n", seconds_of(problem), problem.columns());
    return 0;
}
