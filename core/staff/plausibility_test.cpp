#include "staff/plausibility.h"

#include <gtest/gtest.h>

#include <string>
#include <utility>
#include <vector>

namespace fallwright::staff {

namespace {

Decimal m(double metres) {
    return Decimal::metres(metres);
}

Kit five_metre_staff() {
    Kit kit;
    kit.length = m(5);
    kit.least_step = m(0.001);
    kit.window = m(0.050);
    return kit;
}

AsRead upright(double metres) {
    AsRead reading;
    reading.staff = m(metres);
    return reading;
}

AsRead receiver(double mark) {
    AsRead reading;
    reading.mark = m(mark);
    return reading;
}

AsRead wires(double top, double middle, double bottom) {
    AsRead reading = upright(middle);
    reading.top = m(top);
    reading.bottom = m(bottom);
    return reading;
}

std::vector<Code> codes(const AsRead& reading, const Kit& kit = five_metre_staff()) {
    std::vector<Code> found;
    for (const Finding& each : judge(reading, kit)) found.push_back(each.code);
    return found;
}

using Codes = std::vector<Code>;

}  // namespace

TEST(Plausibility, PossibleReadingsGiveNoFinding) {
    for (int mm = 0; mm <= 5000; ++mm) {
        EXPECT_TRUE(codes(upright(mm / 1000.0)).empty()) << mm;
        EXPECT_TRUE(codes(upright(-mm / 1000.0)).empty()) << mm;
    }
    AsRead high = receiver(1.450);
    high.high = m(0.0184);
    EXPECT_TRUE(codes(high).empty());
    EXPECT_TRUE(codes(wires(1.131, 0.858, 0.586)).empty());
}

TEST(Plausibility, BeyondTheStaffEitherWay) {
    EXPECT_EQ(codes(upright(5.001)), Codes{Code::BeyondStaff});
    EXPECT_EQ(codes(upright(-5.001)), Codes{Code::BeyondStaff});
    EXPECT_EQ(codes(receiver(5.001)), Codes{Code::BeyondStaff});
    EXPECT_EQ(codes(receiver(-0.001)), Codes{Code::BeyondStaff});
    EXPECT_EQ(codes(wires(5.2, 5.0, 4.8)), Codes{Code::BeyondStaff});
}

TEST(Plausibility, UnknownStaffIsTenMetres) {
    EXPECT_TRUE(codes(upright(10), {}).empty());
    EXPECT_EQ(codes(upright(10.001), {}), Codes{Code::BeyondStaff});
}

TEST(Plausibility, LightBeyondTheStaffThoughTheMarkIsOnIt) {
    AsRead low = receiver(4.990);
    low.low = m(0.020);
    EXPECT_EQ(codes(low), Codes{Code::BeyondStaff});
    low.inverted = true;
    EXPECT_TRUE(codes(low).empty());
    AsRead high = receiver(0.010);
    high.high = m(0.020);
    EXPECT_EQ(codes(high), Codes{Code::BeyondStaff});
    AsRead offset = receiver(0.010);
    offset.offset = m(-0.020);
    EXPECT_EQ(codes(offset), Codes{Code::BeyondStaff});
}

TEST(Plausibility, OutsideTheReceiversWindow) {
    AsRead high = receiver(1.5);
    high.high = m(0.050);
    EXPECT_TRUE(codes(high).empty());
    high.high = m(0.051);
    EXPECT_EQ(codes(high), Codes{Code::OutsideWindow});
    AsRead offset = receiver(1.5);
    offset.offset = m(-0.051);
    EXPECT_EQ(codes(offset), Codes{Code::OutsideWindow});
    AsRead clamped;
    clamped.low = m(0.051);
    EXPECT_EQ(codes(clamped), Codes{Code::OutsideWindow});
    EXPECT_TRUE(codes(offset, {}).empty());
}

TEST(Plausibility, FinerThanTheLeastStep) {
    EXPECT_EQ(codes(upright(1.4325)), Codes{Code::FinerThanStep});
    EXPECT_EQ(codes(upright(-1.4325)), Codes{Code::FinerThanStep});
    EXPECT_EQ(codes(receiver(1.4325)), Codes{Code::FinerThanStep});
    EXPECT_EQ(codes(wires(1.1315, 0.858, 0.5855)), Codes{Code::FinerThanStep});
    EXPECT_TRUE(codes(upright(1.4325), {}).empty());
}

TEST(Plausibility, ReceiversFiguresMayBeFinerThanTheStaff) {
    AsRead high = receiver(1.45);
    high.high = m(0.0123);
    EXPECT_TRUE(codes(high).empty());
}

TEST(Plausibility, StepInFeetIsExact) {
    Kit kit;
    kit.least_step = m(0.01 * metres_per_foot);
    for (int hundredth = 0; hundredth <= 1600; ++hundredth) {
        EXPECT_TRUE(codes(upright(hundredth / 100.0 * metres_per_foot), kit).empty()) << hundredth;
    }
    EXPECT_EQ(codes(upright(4.735 * metres_per_foot), kit), Codes{Code::FinerThanStep});
}

TEST(Plausibility, HighAndLowTogether) {
    AsRead both = receiver(1.5);
    both.high = m(0.010);
    both.low = m(0.010);
    EXPECT_EQ(codes(both), Codes{Code::HighAndLow});
}

TEST(Plausibility, HighAndLowAreCountedFromZeroUp) {
    AsRead high = receiver(1.5);
    high.high = m(-0.010);
    ASSERT_EQ(codes(high), Codes{Code::OutOfRange});
    EXPECT_NE(judge(high, five_metre_staff()).front().cure.find("low"), std::string::npos);
}

TEST(Plausibility, WiresInTheWrongOrder) {
    EXPECT_EQ(codes(wires(0.586, 0.858, 1.131)), Codes{Code::WireOrder});
    EXPECT_EQ(codes(wires(1.131, 0.586, 0.858)), Codes{Code::WireOrder});
    EXPECT_EQ(codes(wires(0.858, 0.858, 0.858)), Codes{Code::WireOrder});
    EXPECT_EQ(codes(wires(0.2, 0.05, -0.1)), Codes{Code::WireOrder});
}

TEST(Plausibility, UpsideDownWiresMayBeBookedEitherWay) {
    for (const auto& [top, bottom] : {std::pair(1.131, 0.585), std::pair(0.585, 1.131)}) {
        AsRead reading = wires(top, 0.858, bottom);
        reading.inverted = true;
        EXPECT_TRUE(codes(reading).empty());
        EXPECT_TRUE(codes(wires(-top, -0.858, -bottom)).empty());
    }
}

// TW-01 and TW-02, Ghilani and Wolf, Elementary Surveying, problems 5.24 and 5.25: the intervals of the
// metric back sights differ by 9 and 10 mm, more than wires read to a millimetre can; all the others are
// sound.
TEST(Plausibility, SpreadOfPublishedWires) {
    EXPECT_EQ(codes(wires(1.076, 0.829, 0.573)), Codes{Code::WireSpread});
    EXPECT_EQ(codes(wires(0.989, 0.767, 0.555)), Codes{Code::WireSpread});
    EXPECT_TRUE(codes(wires(1.131, 0.858, 0.586)).empty());
    EXPECT_TRUE(codes(wires(1.089, 0.851, 0.611)).empty());
    constexpr double ft = metres_per_foot;
    for (const auto& each :
         {wires(4.898 * ft, 4.146 * ft, 3.396 * ft), wires(6.504 * ft, 5.487 * ft, 4.472 * ft),
          wires(5.875 * ft, 4.948 * ft, 4.023 * ft), wires(5.874 * ft, 5.026 * ft, 4.176 * ft)}) {
        EXPECT_TRUE(codes(each, {}).empty());
    }
}

// Three times sqrt(1 + 4 + 1) standard deviations: 7.3 mm at a millimetre a wire.
TEST(Plausibility, SpreadIsJudgedByTheInstrument) {
    EXPECT_TRUE(codes(wires(1.207, 1.0, 0.8)).empty());
    EXPECT_EQ(codes(wires(1.208, 1.0, 0.8)), Codes{Code::WireSpread});
    Kit coarse = five_metre_staff();
    coarse.reading_sd = 0.002;
    EXPECT_TRUE(codes(wires(1.214, 1.0, 0.8), coarse).empty());
    EXPECT_EQ(codes(wires(1.215, 1.0, 0.8), coarse), Codes{Code::WireSpread});
}

TEST(Plausibility, SignAndFieldSayTheSame) {
    for (const double figure : {0.5, 1.4325, 5.5}) {
        AsRead by_field = upright(figure);
        by_field.inverted = true;
        EXPECT_EQ(codes(by_field), codes(upright(-figure)));
    }
}

TEST(Plausibility, FindingsSayWhatAndTheCure) {
    const Findings found = judge(upright(5.2), five_metre_staff());
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].message, "the reading 5.200 is beyond the end of the staff, 5.000 m");
    EXPECT_FALSE(found[0].cure.empty());
    AsRead feet = upright(17 * metres_per_foot);
    feet.unit = Unit::Foot;
    EXPECT_EQ(judge(feet, five_metre_staff())[0].message,
              "the reading 17.00 is beyond the end of the staff, 16.4042 ft");
}

}  // namespace fallwright::staff
