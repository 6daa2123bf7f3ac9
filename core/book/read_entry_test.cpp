#include "book/read_entry.h"

#include <gtest/gtest.h>

#include "book/written.h"

namespace fallwright {

namespace {

// All kinds of one book in feet: what is a length is converted, what is none stays.
const char* const in_feet =
    R"({"kind":"benchmark","point":"BM","level":100,"sd":0.01,"source":"plate on the church"}
{"kind":"instrument","name":"L","type":"pipe-laser","reading_sd":0.01,"sd_per_m":0.00001,"tilt":[1e-5,-2e-5],"tilt_sd":1e-5,"aim_sd":0.25,"grade_step":0.0001,"grade_limit":[0.1,0.05],"range":1000,"cone":3e-5,"keypad":{"main_plus":"falls","cross_plus":"falls","cross_side":"left","grade_unit":"permille","axes":"nested"}}
{"kind":"staff","name":"E","length":16,"to":0.01,"zero":0.02,"scale":1e-4,"joints":[{"at":4,"step_sd":0.001}]}
{"kind":"receiver","name":"R","window":0.1,"dead_band":0.005}
{"kind":"line","name":"D1","plan":[[0,0],[0,100]]}
{"kind":"place","point":"P","line":"D1","ch":10,"off":-2}
{"kind":"setup","name":"S","instrument":"L","place":{"e":5,"n":20},"plane":{"main":"1 in 80 fall","cross":null,"bearing":30},"shown":{"cross":"-0.5 %"},"clamp":4,"staff":"E","receiver":"R"}
{"kind":"setup","name":"T","instrument":"L","head":"S","head_sd":0.02}
{"kind":"reading","setup":"S","line":"D1","ch":10,"off":-2.5,"what":"laid","mark":4,"low":0.1,"dist":50,"dist_sd":0.5,"sd":0.01,"shoe":0.25,"on":"crown","sight":"fore","to":0.005,"with":"E","receiver":"R"}
{"kind":"reading","point":"P","planned":true,"across":-7}
{"kind":"step","from":"P","to":"Q","rise":-1,"sd":0.1}
{"kind":"what","name":"slab","foot_sd":0.01}
{"kind":"remark","text":"so"}
)";

constexpr double foot = 0.3048;  // exact, international yard and pound agreement of 1959

}  // namespace

TEST(ReadEntry, LengthsOfInstrumentsAndStaffsAreConvertedRatiosAreNot) {
    const Written book(in_feet, R"(,"unit":"ft")");
    EXPECT_TRUE(book->findings.empty());
    EXPECT_EQ(book->benchmarks[0].level, Decimal::metres(30.48));
    EXPECT_DOUBLE_EQ(book->benchmarks[0].sd, 0.01 * foot);
    EXPECT_EQ(book.name(book->benchmarks[0].source), "plate on the church");
    const Instrument& laser = book->instruments[0];
    EXPECT_EQ(laser.type, InstrumentType::PipeLaser);
    EXPECT_DOUBLE_EQ(laser.reading_sd.value, 0.01 * foot);
    EXPECT_EQ(laser.sd_per_m.value, 0.00001);
    EXPECT_EQ(laser.tilt[1], -2e-5);
    EXPECT_EQ(laser.aim_sd.value, 0.25);
    EXPECT_EQ(laser.grade_step, 0.0001);
    EXPECT_EQ(laser.grade_limit[1].value, 0.05);
    EXPECT_DOUBLE_EQ(laser.range.value, 304.8);
    EXPECT_EQ(laser.cone, 3e-5);
    EXPECT_FALSE(laser.cone_sd.has());
    const Keypad& keys = laser.keypad;
    EXPECT_FALSE(keys.main_plus_rises || keys.cross_plus_rises || keys.cross_right);
    EXPECT_TRUE(keys.permille && keys.nested);
    const Staff& staff = book->staffs[0];
    EXPECT_DOUBLE_EQ(staff.length.value, 16 * foot);
    EXPECT_DOUBLE_EQ(staff.zero, 0.02 * foot);
    EXPECT_EQ(staff.scale, 1e-4);
    EXPECT_DOUBLE_EQ(staff.joints.at(0).at, 4 * foot);
    EXPECT_DOUBLE_EQ(staff.joints.at(0).step_sd, 0.001 * foot);
    EXPECT_DOUBLE_EQ(book->receivers[0].window.value, 0.1 * foot);
    EXPECT_DOUBLE_EQ(book->whats[0].foot_sd.value, 0.01 * foot);
    EXPECT_EQ(book.name(book->remarks[0].text), "so");
}

TEST(ReadEntry, LengthsOfSetUpsAndReadingsAreConvertedAnglesAndGradientsAreNot) {
    const Written book(in_feet, R"(,"unit":"ft")");
    const auto& setup = book->setups[0];
    EXPECT_EQ(setup.position.kind, Position::Kind::Grid);
    EXPECT_DOUBLE_EQ(setup.position.n, 20 * foot);
    EXPECT_DOUBLE_EQ(setup.plane[0].dialled, -0.0125);
    EXPECT_TRUE(setup.plane[1].matched && !setup.plane[0].matched);
    EXPECT_EQ(setup.bearing.value, 30);
    EXPECT_FALSE(setup.shown[0].has());
    EXPECT_DOUBLE_EQ(setup.shown[1].value, -0.005);
    EXPECT_DOUBLE_EQ(setup.clamp.value, 4 * foot);
    EXPECT_EQ(book->setups[1].head_at, 0);
    EXPECT_DOUBLE_EQ(book->setups[1].head_sd, 0.02 * foot);
    EXPECT_DOUBLE_EQ(book->places[0].position.off, -2 * foot);
    const Reading& reading = book->readings[0];
    EXPECT_DOUBLE_EQ(reading.ch, 10 * foot);
    EXPECT_DOUBLE_EQ(reading.off, -2.5 * foot);
    EXPECT_EQ(book.name(reading.point), "D1 10.000 L2.500 laid");
    EXPECT_EQ(reading.figure.form, Form::Mark);
    EXPECT_EQ(reading.figure.deviation, Deviation::Low);
    EXPECT_EQ(reading.figure.a, Decimal::metres(4 * foot));
    EXPECT_EQ(reading.figure.b, Decimal::metres(0.1 * foot));
    EXPECT_DOUBLE_EQ(reading.dist.value, 50 * foot);
    EXPECT_DOUBLE_EQ(reading.dist_sd.value, 0.5 * foot);
    EXPECT_DOUBLE_EQ(reading.sd.value, 0.01 * foot);
    EXPECT_DOUBLE_EQ(reading.shoe, 0.25 * foot);
    EXPECT_DOUBLE_EQ(reading.least_step.value, 0.005 * foot);
    EXPECT_EQ(reading.on, On::Crown);
    EXPECT_EQ(reading.sight, Sight::Fore);
    EXPECT_DOUBLE_EQ(book->readings[1].along.value, 0);
    EXPECT_DOUBLE_EQ(book->readings[1].across.value, -7 * foot);
    EXPECT_DOUBLE_EQ(book->steps[0].rise, -foot);
    EXPECT_DOUBLE_EQ(book->steps[0].sd, 0.1 * foot);
}

TEST(ReadEntry, WhatIsNotGivenIsAbsentOrItsDefault) {
    const Written book(
        R"({"kind":"instrument","name":"L","type":"rotating-laser","sd_per_m":null}
{"kind":"setup","name":"S","instrument":"L"}
{"kind":"setup","name":"T","instrument":"L","head":"S"}
{"kind":"step","from":"A","to":"B","rise":1}
{"kind":"reading","point":"A","staff":1}
)");
    EXPECT_FALSE(book->instruments[0].sd_per_m.has());
    EXPECT_FALSE(book->instruments[0].keypad.permille);
    EXPECT_TRUE(book->instruments[0].keypad.main_plus_rises);
    EXPECT_EQ(book->setups[0].position.kind, Position::Kind::None);
    EXPECT_FALSE(book->setups[0].plane[0].matched);
    EXPECT_EQ(book->setups[0].plane[0].dialled, 0);
    EXPECT_EQ(book->setups[1].head_sd, 0.001);
    EXPECT_EQ(book->steps[0].sd, 0.002);
    EXPECT_FALSE(book->readings[0].dist.has() || book->readings[0].along.has());
    EXPECT_EQ(book->readings[0].sight, Sight::Default);
}

// What an instrument forgives is said once and the default is taken; nothing else is lost.
TEST(ReadEntry, AnUncertaintyThatCannotBeIsAbsentAndOneUnderAPicometreIsNone) {
    const Written book(
        R"({"kind":"instrument","name":"L","type":"optical-level","reading_sd":0,"tilt_sd":-1,"cone_sd":1e-13,"collimation_sd":1e-12}
{"kind":"step","from":"A","to":"B","rise":1,"sd":0}
)");
    EXPECT_EQ(book.count(Code::BadSd), 3);
    const Instrument& level = book->instruments.at(0);
    EXPECT_FALSE(level.reading_sd.has() || level.tilt_sd.has());
    EXPECT_EQ(level.cone_sd.value, 0);
    EXPECT_EQ(level.collimation_sd.value, 1e-12);
    EXPECT_EQ(book->steps.at(0).sd, 0.002);
}

TEST(ReadEntry, EverythingThatIsWrongIsSaidAtOnce) {
    const Written book(
        R"({"kind":"setup","name":7,"place":{"e":1},"plane":{"main":"steep","turned":1},"clamp":"high"}
)");
    EXPECT_TRUE(book->setups.empty());
    EXPECT_EQ(book.count(Code::WrongType), 3);     // name, plane.main, clamp
    EXPECT_EQ(book.count(Code::MissingField), 2);  // instrument, place.n
    EXPECT_EQ(book.said(Code::UnknownField).message, "field plane.turned is not known; it is kept, not used");
}

TEST(ReadEntry, NumbersAreTakenUpToTheLimitAndNoFurther) {
    const std::string start = R"({"kind":"benchmark","point":"A","level":)";
    EXPECT_EQ(Written(start + "1000000000}\n")->benchmarks.at(0).level, Decimal::metres(1e9));
    EXPECT_EQ(Written(start + "-1000000000}\n")->benchmarks.size(), 1u);
    for (const char* level : {"1000000000.1", "-1e10", "1e300"}) {
        const Written book(start + level + "}\n");
        EXPECT_TRUE(book->benchmarks.empty()) << level;
        EXPECT_EQ(book.count(Code::OutOfRange), 1) << level;
    }
    // A foot is shorter: more of them fit.
    EXPECT_EQ(Written(start + "3280000000}\n", R"(,"unit":"ft")")->benchmarks.size(), 1u);
    EXPECT_EQ(Written(start + "3290000000}\n", R"(,"unit":"ft")")->benchmarks.size(), 0u);
}

TEST(ReadEntry, EveryKindHasItsWord) {
    for (int kind = 0; kind < static_cast<int>(Kind::Unknown); ++kind)
        EXPECT_EQ(kind_of(kind_word(static_cast<Kind>(kind))), static_cast<Kind>(kind));
    EXPECT_EQ(kind_of("Reading"), Kind::Unknown);
    EXPECT_EQ(kind_of(""), Kind::Unknown);
}

}  // namespace fallwright
