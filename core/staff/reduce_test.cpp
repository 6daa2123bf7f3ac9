#include "staff/reduce.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "quantity/unit.h"

namespace fallwright::staff {

namespace {

Decimal m(double metres) {
    return Decimal::metres(metres);
}

Decimal ft(double feet) {
    return Decimal::metres(feet * metres_per_foot);
}

// Level of the point: height of collimation minus the reading as booked.
Decimal level(Decimal plane, Decimal figure, bool inverted) {
    return plane - as_booked(figure, inverted);
}

}  // namespace

TEST(Reduce, HighStandsAboveTheLightAndLowBelowIt) {
    EXPECT_EQ(from_high(m(1.450), m(0.018), false), m(1.432));
    EXPECT_EQ(from_low(m(1.450), m(0.018), false), m(1.468));
}

TEST(Reduce, UpsideDownTheFiguresGrowDownwards) {
    EXPECT_EQ(from_high(m(1.450), m(0.018), true), m(1.468));
    EXPECT_EQ(from_low(m(1.450), m(0.018), true), m(1.432));
}

TEST(Reduce, OffsetGoesTowardsTheLargerFiguresEitherWay) {
    EXPECT_EQ(from_offset(m(1.450), m(0.018)), m(1.468));
    EXPECT_EQ(from_offset(m(1.450), m(-0.018)), m(1.432));
}

// A receiver on the light reads the same whichever way its difference is told.
TEST(Reduce, ReceiverConsistency) {
    for (int mm = -60; mm <= 60; ++mm) {
        const Decimal above = m(mm / 1000.0);
        for (const bool inverted : {false, true}) {
            const Decimal light = m(1.5);
            const Decimal mark = inverted ? light - above : light + above;
            const Decimal read =
                mm >= 0 ? from_high(mark, above, inverted) : from_low(mark, -above, inverted);
            EXPECT_EQ(read, light) << mm;
            EXPECT_EQ(from_offset(mark, light - mark), light) << mm;
        }
    }
}

// TW-01 C. D. Ghilani and P. R. Wolf, Elementary Surveying, problem 5.24 (solution line: sums 1.5963
// and 1.7087).
TEST(Reduce, ThreeWiresInMetresPublished) {
    const Decimal back =
        mean_of_wires(m(1.076), m(0.829), m(0.573)) + mean_of_wires(m(0.989), m(0.767), m(0.555));
    const Decimal fore =
        mean_of_wires(m(1.131), m(0.858), m(0.586)) + mean_of_wires(m(1.089), m(0.851), m(0.611));
    EXPECT_NEAR(mean_of_wires(m(1.076), m(0.829), m(0.573)).metres(), 0.826, 0.0001);
    EXPECT_NEAR(mean_of_wires(m(0.989), m(0.767), m(0.555)).metres(), 0.7703, 0.0001);
    EXPECT_NEAR(mean_of_wires(m(1.131), m(0.858), m(0.586)).metres(), 0.8583, 0.0001);
    EXPECT_NEAR(mean_of_wires(m(1.089), m(0.851), m(0.611)).metres(), 0.8503, 0.0001);
    EXPECT_NEAR(back.metres(), 1.5963, 0.0001);
    EXPECT_NEAR(fore.metres(), 1.7087, 0.0001);
    EXPECT_NEAR((m(83.097) + back - fore).metres(), 82.9847, 0.0001);
}

// TW-02 the same, problem 5.25, feet (readings seen, answers recomputed).
TEST(Reduce, ThreeWiresInFeetPublished) {
    const std::array<std::array<double, 3>, 4> wires = {
        {{4.898, 4.146, 3.396}, {6.504, 5.487, 4.472}, {5.875, 4.948, 4.023}, {5.874, 5.026, 4.176}}};
    const std::array<double, 4> means = {4.1467, 5.4877, 4.9487, 5.0253};
    std::array<Decimal, 4> mean;
    for (std::size_t i = 0; i < wires.size(); ++i) {
        mean[i] = mean_of_wires(ft(wires[i][0]), ft(wires[i][1]), ft(wires[i][2]));
        EXPECT_NEAR(mean[i].metres() / metres_per_foot, means[i], 0.0001);
    }
    const Decimal level = ft(543.56) + mean[0] + mean[1] - mean[2] - mean[3];
    EXPECT_NEAR(level.metres() / metres_per_foot, 543.2203, 0.0001);
}

// TW-03 US Army FM 3-34.331 (2001), table 7-1: the middle wire is corrected by a third of the difference of
// the intervals.
TEST(Reduce, MiddleWireIsCorrectedByAThirdPublished) {
    const std::array<double, 4> difference = {0.0, 0.001, 0.002, 0.003};
    const std::array<double, 4> correction = {0.0, 0.0003, 0.0007, 0.001};
    for (std::size_t i = 0; i < difference.size(); ++i) {
        const Decimal middle = m(1.5);
        const Decimal mean = mean_of_wires(middle + m(0.2 + difference[i]), middle, middle - m(0.2));
        EXPECT_NEAR((mean - middle).metres(), correction[i], 5e-5);
    }
}

TEST(Reduce, DistanceIsAHundredTimesTheOuterInterval) {
    EXPECT_EQ(distance_of_wires(m(1.076), m(0.573)), m(50.3));
    EXPECT_EQ(distance_of_wires(m(0.573), m(1.076)), m(50.3));
}

// INV-01 mine-surveying teaching text: three roof points and one floor point from one set-up, heights
// printed.
TEST(Reduce, RoofPointsPublished) {
    const Decimal plane = m(160.528) + m(2.185);
    EXPECT_EQ(plane, m(162.713));
    EXPECT_EQ(level(plane, m(3.045), true), m(165.758));
    EXPECT_EQ(level(plane, m(1.276), true), m(163.989));
    EXPECT_EQ(level(plane, m(3.412), true), m(166.125));
    EXPECT_EQ(level(plane, m(2.508), false), m(160.205));
}

// INV-03 worked answer (civinnovate.com): back sight to a roof benchmark.
TEST(Reduce, BackSightToARoofBenchmarkPublished) {
    const Decimal plane = m(100.0) + as_booked(m(3.5), true);
    EXPECT_EQ(plane, m(96.5));
    EXPECT_EQ(level(plane, m(1.2), false), m(95.3));
}

// INV-04 two graduate-entrance items (cdquestions.com, gkseries.com): soffits over a station.
TEST(Reduce, SoffitOverAStationPublished) {
    EXPECT_EQ(level(m(130.565) + m(2.55), m(3.665), true), m(136.780));
    EXPECT_EQ(level(m(112.565) + m(1.32), m(2.835), true), m(116.720));
}

// INV-05 examination items (cdquestions.com, curioustab.com): clear height from floor to beam; the beam of
// the first is recomputed.
TEST(Reduce, ClearHeightUnderABeamPublished) {
    const Decimal plane = m(36.0) + m(1.4);
    EXPECT_EQ(level(plane, m(3.67), true), m(41.07));
    EXPECT_EQ(level(plane, m(3.67), true) - m(36.0), m(5.07));
    const Decimal second = m(99.995) + m(1.505);
    EXPECT_EQ(level(second, m(1.795), true), m(103.295));
    EXPECT_EQ(level(second, m(1.795), true) - m(99.995), m(3.3));
}

// STF-08 examination note (curioustab.com): the zero error of a staff cancels between two upright sights and
// counts twice between an upright and an inverted one.
TEST(Reduce, ZeroErrorCancelsUprightAndDoublesUpsideDownPublished) {
    const Corrections worn{m(0.004), 0, {}};
    const Decimal first = m(1.500), second = m(2.250);
    const Decimal booked = as_booked(first, false) - as_booked(second, false);
    const Decimal taken_off =
        as_booked(corrected(first, {}, worn), false) - as_booked(corrected(second, {}, worn), false);
    EXPECT_EQ(booked, taken_off);
    const Decimal mixed = as_booked(first, false) - as_booked(second, true);
    const Decimal mixed_off =
        as_booked(corrected(first, {}, worn), false) - as_booked(corrected(second, {}, worn), true);
    EXPECT_EQ(mixed - mixed_off, m(0.008));
}

TEST(Reduce, ShoeAddsToTheFigure) {
    EXPECT_EQ(corrected(m(1.432), m(0.050), {}), m(1.482));
}

TEST(Reduce, ScaleGoesByTheFigureWithoutTheShoe) {
    const Corrections stretched{{}, 1e-3, {}};
    EXPECT_EQ(corrected(m(2.0), {}, stretched), m(1.998));
    EXPECT_EQ(corrected(m(2.0), m(0.5), stretched), m(2.498));
}

TEST(Reduce, JointsCountAboveThemOnly) {
    const Corrections jointed{{}, 0, {{m(1.0), m(0.001)}, {m(2.0), m(-0.0005)}}};
    EXPECT_EQ(corrected(m(0.999), {}, jointed), m(0.999));
    EXPECT_EQ(corrected(m(1.0), {}, jointed), m(1.0));
    EXPECT_EQ(corrected(m(1.5), {}, jointed), m(1.499));
    EXPECT_EQ(corrected(m(2.5), {}, jointed), m(2.4995));
}

}  // namespace fallwright::staff
