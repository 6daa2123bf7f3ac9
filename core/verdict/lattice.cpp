#include "verdict/lattice.h"

#include <cassert>
#include <cmath>

namespace fallwright {

namespace {

constexpr int bits = 17;
static_assert(most_points == 1U << bits);

// Written by tools/lattice.py.
constexpr std::array<std::uint32_t, most_dimensions> generator = {
    1,      111757, 47843,  50069,  118965, 36419,  89975,  35277,  56937,  101191, 14493,  85325,  77659,
    88429,  3573,   119381, 41631,  96401,  81725,  26565,  89487,  101647, 120217, 104355, 107601, 127241,
    71657,  33487,  36927,  118459, 101849, 117151, 9601,   65711,  22011,  62995,  77349,  49231,  46517,
    52363,  123383, 12709,  24489,  41151,  39269,  102501, 379,    5087,   57713,  63829,  23507,  48419,
    75655,  42145,  129785, 103893, 78033,  74305,  5365,   67599,  5891,   35047,  119081, 23363,  21723,
    106033, 99721,  105767, 80437,  42293,  5107,   39293,  129247, 71147,  91513,  10473,  26295,  20497,
    120347, 116853, 117273, 51655,  85853,  52965,  77437,  114617, 40625,  127787, 85497,  123635, 111575,
    33165,  30079,  25057,  115477, 4677,   30917,  30959,  128275, 34505,  26025,  31489,  33357,  56709,
    71001,  46393,  54061,  61917,  40877,  60243,  92071,  101841, 127129, 58953,  118423, 10295,  1937,
    34623,  99299,  75871,  51405,  76285,  99323,  26399,  3263,   114837, 19113,  58781,  112701, 95123,
    95865,  105069, 106295, 124657, 48137,  35579,  26839,  88231,  101817, 85065,  43615,  43047,  47727,
    29047,  120057, 96825,  73263,  57839,  79985,  59441,  120673, 125663, 67151,  12569,  74559,  47791,
    37431,  56935,  64881,  40425,  18815,  99585,  40825,  74601,  26337,  117729, 119787, 86097,  35473,
    34127,  91383,  54055,  33047,  100457, 5319,   30167,  26559,  35425,  74753,  127137, 101257, 39039,
    103903, 29423,  114713, 54183,  359,    105947, 84379,  38337,  38385,  115373};

std::uint32_t reversed(std::uint32_t j) {
    std::uint32_t r = 0;
    for (int bit = 0; bit < bits; ++bit) r |= (j >> bit & 1U) << (bits - 1 - bit);
    return r;
}

bool is_prime(int n) {
    for (int d = 2; d * d <= n; ++d) {
        if (n % d == 0) return false;
    }
    return true;
}

double fraction(double x) {
    return x - std::floor(x);
}

}  // namespace

Lattice::Lattice(std::size_t dimensions) {
    assert(dimensions <= most_dimensions);
    for (int candidate = 2; shift_.size() < dimensions; ++candidate) {
        if (is_prime(candidate)) shift_.push_back(fraction(std::sqrt(static_cast<double>(candidate))));
    }
}

void Lattice::next(std::vector<Lanes>& points) {
    points.resize(shift_.size());
    for (std::size_t lane = 0; lane < lanes; ++lane) {
        const std::uint32_t at = reversed(next_++);
        for (std::size_t d = 0; d < shift_.size(); ++d) {
            // Unsigned products wrap round, which takes whole turns of the lattice away.
            const std::uint32_t turned = (at * generator[d]) % most_points;
            points[d][lane] =
                std::fabs(2 * fraction(turned / static_cast<double>(most_points) + shift_[d]) - 1);
        }
    }
}

}  // namespace fallwright
