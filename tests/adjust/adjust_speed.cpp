// Time and memory of one solve() on drawn networks of a given size. Not a test: tests/adjust/speed.py runs it
// beside SciPy on the same rows.
//
//   adjust_speed KIND ROWS [FILE]     FILE: the rows in binary for speed.py
//
// kinds  line      two runs of a levelling line side by side, tied to each other every 20 points; two sights
// a
//                  set-up; one collimation column that all rows share
//        sights    the same with 50 intermediate sights a set-up on points read nowhere else
//        tilts     two runs, three shared columns, two tilts with priors a set-up
//        area      set-ups on a grid, 50 points each, most of them read from up to four set-ups, tilts as
//        above parts     lines of 10 points without a datum, one after the other: one null vector each days
//        the line with an instrument column of its own for every 1000 rows
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <string>
#include <vector>

#include "adjust/adjust.h"

namespace {

using fallwright::adjust::Column;
using fallwright::adjust::Problem;
using fallwright::adjust::Term;

// A linear congruential generator with the constants of MMIX (Knuth): the same draws everywhere.
struct Draw {
    std::uint64_t state = 20240607;
    double uniform() {
        state = state * 6364136223846793005ULL + 1442695040888963407ULL;
        return static_cast<double>(state >> 11) / 9007199254740992.0;
    }
    double error() {  // sum of uniforms: near enough to normal, and the same bits everywhere
        double sum = -6;
        for (int i = 0; i < 12; ++i) sum += uniform();
        return sum;
    }
};

struct Kind {
    int shared = 1;           // columns that all rows carry
    int tilts = 0;            // columns with a prior, per set-up
    int intermediate = 0;     // sights on points read nowhere else, per set-up
    std::size_t stretch = 0;  // rows per instrument column, 0: none
};

class Network {
  public:
    Network(Kind kind, std::size_t rows) : kind_(kind), rows_(rows) {}
    Problem line();
    Problem area();
    Problem parts();

  private:
    struct SetUp {
        Column height;
        std::array<Column, 2> tilt;
    };
    void begin();
    SetUp set_up();
    void read(const SetUp& from, Column point);
    void sight(Column back, Column fore);
    bool full() const { return problem_.rows() >= rows_; }

    Kind kind_;
    std::size_t rows_;
    Problem problem_;
    Draw draw_;
    std::vector<Column> shared_;
    Column stretch_ = 0;
};

void Network::begin() {
    problem_.reserve(rows_, rows_ * static_cast<std::size_t>(2 + kind_.shared + kind_.tilts));
    for (int s = 0; s < kind_.shared; ++s) shared_.push_back(problem_.add_column());
}

Network::SetUp Network::set_up() {
    SetUp result{problem_.add_column(), {0, 0}};
    for (int t = 0; t < kind_.tilts; ++t) {
        result.tilt[t] = problem_.add_column();
        problem_.add_prior(result.tilt[t], 0.0, 2e-5);
    }
    return result;
}

void Network::read(const SetUp& from, Column point) {
    if (kind_.stretch > 0 && problem_.rows() % kind_.stretch == 0) stretch_ = problem_.add_column();
    std::vector<Term> terms{{from.height, 1.0}, {point, -1.0}};
    for (int t = 0; t < kind_.tilts; ++t) terms.push_back({from.tilt[t], -40.0 + 80.0 * draw_.uniform()});
    for (const Column column : shared_) terms.push_back({column, 10.0 + 40.0 * draw_.uniform()});
    if (kind_.stretch > 0) terms.push_back({stretch_, 10.0 + 40.0 * draw_.uniform()});
    problem_.add_row(terms, 0.001 * draw_.error(), 0.001);
}

// Two lines of points, each step of each levelled there and back; tied every 20 steps and at the ends.
Problem Network::line() {
    begin();
    std::array<Column, 2> at{problem_.add_column(), problem_.add_column()};
    for (const Column column : at) problem_.add_prior(column, 0.0, 0.002);
    for (std::size_t station = 1; !full(); ++station) {
        for (Column& from : at) {
            const Column to = problem_.add_column();
            sight(from, to);
            sight(to, from);
            from = to;
        }
        if (station % 20 == 0) sight(at[0], at[1]);
    }
    return std::move(problem_);
}

// Set-ups 4 points apart on a grid, each reads 7 by 7 points around.
Problem Network::area() {
    begin();
    const auto side = static_cast<std::size_t>(1.0 + std::sqrt(static_cast<double>(rows_) / 49.0));
    const std::size_t width = 4 * side + 4;
    std::vector<Column> point(width * width, -1);
    for (std::size_t r = 0; r < side; ++r)
        for (std::size_t c = 0; c < side && !full(); ++c) {
            const SetUp instrument = set_up();
            for (std::size_t k = 0; k < 49; ++k) {
                Column& there = point[(4 * r + k / 7) * width + 4 * c + k % 7];
                if (there < 0) there = problem_.add_column();
                read(instrument, there);
            }
        }
    problem_.add_prior(point.front(), 0.0, 0.002);
    return std::move(problem_);
}

Problem Network::parts() {
    while (!full()) {
        Column from = problem_.add_column();
        for (int step = 0; step < 9; ++step) {
            const Column to = problem_.add_column();
            sight(from, to);
            sight(to, from);
            from = to;
        }
    }
    return std::move(problem_);
}

void Network::sight(Column back, Column fore) {
    const SetUp instrument = set_up();
    read(instrument, back);
    read(instrument, fore);
    for (int i = 0; i < kind_.intermediate; ++i) read(instrument, problem_.add_column());
}

Problem draw(const std::string& kind, std::size_t rows) {
    if (kind == "line") return Network({}, rows).line();
    if (kind == "sights") return Network({1, 0, 50, 0}, rows).line();
    if (kind == "tilts") return Network({3, 2, 0, 0}, rows).line();
    if (kind == "area") return Network({3, 2, 0, 0}, rows).area();
    if (kind == "parts") return Network({0, 0, 0, 0}, rows).parts();
    if (kind == "days") return Network({0, 0, 0, 1000}, rows).line();
    std::fprintf(stderr, "adjust_speed: no kind %s\n", kind.c_str());
    std::exit(2);
}

template <class T>
void put(std::FILE* file, const std::vector<T>& values) {
    const auto count = static_cast<std::uint64_t>(values.size());
    std::fwrite(&count, sizeof count, 1, file);
    std::fwrite(values.data(), sizeof(T), values.size(), file);
}

// Counts and raw arrays, for numpy.fromfile.
void write(const Problem& problem, const char* name) {
    std::FILE* const file = std::fopen(name, "wb");
    if (file == nullptr) std::exit(2);
    const std::vector<std::uint64_t> start(problem.start.begin(), problem.start.end());
    put(file, start);
    put(file, problem.column);
    put(file, problem.coefficient);
    put(file, problem.y);
    put(file, problem.sd);
    put(file, problem.prior_value);
    put(file, problem.prior_sd);
    std::fclose(file);
}

// The most memory this process has held, in KiB; getrusage() would include what its parent held.
long resident_kib() {
    std::ifstream status("/proc/self/status");
    for (std::string word; status >> word;)
        if (word == "VmHWM:") {
            long kib = 0;
            status >> kib;
            return kib;
        }
    return 0;
}

// Processor time: other work on the machine counts less than on a clock.
double best_of(const Problem& problem, int times) {
    double best = 1e9;
    for (int k = 0; k < times; ++k) {
        const std::clock_t begin = std::clock();
        const fallwright::adjust::Solution solution = solve(problem);
        best = std::min(best, static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC);
        if (solution.x.size() != problem.columns()) std::exit(2);
    }
    return best;
}

}  // namespace

int main(int count, char** words) {
    if (count < 3) return 2;
    const Problem problem = draw(words[1], static_cast<std::size_t>(std::atoll(words[2])));
    const long before = resident_kib();
    const double first = best_of(problem, 1);
    const double bytes = 1024.0 * static_cast<double>(resident_kib() - before);
    const auto rows = static_cast<double>(problem.rows());
    std::printf("rows %zu columns %zu seconds %.4f bytes_a_row %.0f\n", problem.rows(), problem.columns(),
                std::min(first, best_of(problem, 4)), bytes / rows);
    if (count > 3) write(problem, words[3]);
    return 0;
}
