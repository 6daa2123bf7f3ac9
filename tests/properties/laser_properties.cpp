#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "properties/answers.h"

namespace fallwright::properties {

namespace {

constexpr double reading_sd = 1e-4;

// A book of a laser whose only errors are its tilt and the readings' own, read at points "A", "B", ... that
// are found without error.
class LaserBook {
  public:
    explicit LaserBook(double tilt_sd) {
        book_.lines = {{{"kind", "book"}, {"format", "fallwright"}, {"version", 1}, {"curvature", false}},
                       {{"kind", "instrument"}, {"name", "L"}, {"type", "rotating-laser"}},
                       {{"kind", "what"}, {"name", "mark"}, {"foot_sd", 0}},
                       {{"kind", "benchmark"}, {"point", "A"}, {"level", 10}}};
        Json& laser = book_.lines[1];
        laser["reading_sd"] = reading_sd;
        laser["tilt_sd"] = tilt_sd;
        for (const char* field : {"setting_tilt_sd", "cone_sd", "aim_sd", "grade_sd"}) laser[field] = 0;
    }

    void place(const std::string& point, double e, double n) {
        book_.lines.push_back({{"kind", "place"}, {"point", point}, {"e", e}, {"n", n}});
    }
    void setup(double e, double n, double bearing) {
        book_.lines.push_back(
            {{"kind", "setup"}, {"name", "U" + std::to_string(++setups_)}, {"instrument", "L"}});
        book_.lines.back()["place"] = {{"e", e}, {"n", n}};
        book_.lines.back()["plane"] = {{"bearing", bearing}};
    }
    void read(const std::string& point, double staff) {
        book_.lines.push_back({{"kind", "reading"}, {"point", point}, {"what", "mark"}, {"staff", staff}});
    }
    double sd_of(const std::string& point) const { return levels_of(evaluated(book_)).at(point).sd; }

  private:
    RandomBook book_;
    int setups_ = 0;
};

double metres(int low, int high) {
    return static_cast<double>(*rc::gen::inRange(low * 10, high * 10)) / 10;
}

double bearing() {
    return static_cast<double>(*rc::gen::inRange(0, 3600)) / 10;
}

double tilt() {
    return static_cast<double>(*rc::gen::inRange(1, 30)) * 1e-5;
}

}  // namespace

RC_GTEST_PROP(I10, TiltCostsTheDistanceBetweenThePointsWhereverTheLaserStands, ()) {
    const double tilt_sd = tilt();
    const double e = metres(-60, 60);
    const double n = metres(-60, 60);
    LaserBook book(tilt_sd);
    book.place("A", 0, 0);
    book.place("B", e, n);
    book.setup(metres(-200, 200), metres(-200, 200), bearing());
    book.read("A", 1.5);
    book.read("B", 1.7);
    const double expected = tilt_sd * tilt_sd * (e * e + n * n) + 2 * reading_sd * reading_sd;
    RC_ASSERT(alike(book.sd_of("B"), std::sqrt(expected), 1e-7));
}

// From A over C to B, each leg the same way and as long. Turned half round the body's tilt enters with the
// other sign; not turned it costs the whole way.
RC_GTEST_PROP(I11, AHalfTurnBetweenEqualLegsCancelsTheTilt, ()) {
    const double tilt_sd = tilt();
    const double e = metres(-60, 60);
    const double n = metres(-60, 60);
    const double first = bearing();
    const bool half_turn = *rc::gen::arbitrary<bool>();
    LaserBook book(tilt_sd);
    book.place("A", 0, 0);
    book.place("C", e, n);
    book.place("B", 2 * e, 2 * n);
    book.setup(metres(-100, 100), metres(-100, 100), first);
    book.read("A", 1.5);
    book.read("C", 1.7);
    book.setup(metres(-100, 100), metres(-100, 100), first + (half_turn ? 180 : 0));
    book.read("C", 1.2);
    book.read("B", 1.1);
    const double tilts = half_turn ? 0 : tilt_sd * tilt_sd * 4 * (e * e + n * n);
    RC_ASSERT(alike(book.sd_of("B"), std::sqrt(tilts + 4 * reading_sd * reading_sd), 1e-6));
}

RC_GTEST_PROP(I12, RepeatsInOneSetUpDoNotAverageTheTiltAway, ()) {
    const double tilt_sd = tilt();
    const double apart = metres(1, 60);
    const int repeats = *rc::gen::inRange(1, 60);
    LaserBook book(tilt_sd);
    book.place("A", 0, 0);
    book.place("B", apart, 0);
    book.setup(metres(-100, 100), metres(-100, 100), bearing());
    for (int i = 0; i < repeats; ++i) {
        book.read("A", 1.5 + 0.0001 * (i % 3));
        book.read("B", 1.7 - 0.0001 * (i % 2));
    }
    const double floor = tilt_sd * apart;
    const double sd = book.sd_of("B");
    RC_ASSERT(sd > floor);
    RC_ASSERT(alike(sd, std::sqrt(floor * floor + 2 * reading_sd * reading_sd / repeats), 1e-6));
}

}  // namespace fallwright::properties
