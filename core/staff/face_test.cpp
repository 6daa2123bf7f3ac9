#include "staff/face.h"

#include <gtest/gtest.h>

#include <array>
#include <string>

namespace fallwright::staff {

namespace {

Decimal m(double metres) {
    return Decimal::metres(metres);
}

Block metric(double metres) {
    return block(block_of(m(metres), Unit::Metre), Unit::Metre);
}

std::string read(double metres) {
    return how_to_read(m(metres), Unit::Metre, false);
}

// The reading that a sentence describes, worked out from its words alone, in units of the staff.
double reading_from(const std::string& sentence, double block_height) {
    const std::array<std::string, 10> ordinals = {"",      "first", "second",  "third",  "fourth",
                                                  "fifth", "sixth", "seventh", "eighth", "ninth"};
    double value = 0;
    const std::size_t is = sentence.find("the light is ") + 13;
    const std::size_t colon = sentence.find(": ");
    const std::string words = sentence.substr(is, colon - is);
    if (words.find(" the foot of the staff") == std::string::npos) {
        value = std::stod(words.substr(words.rfind(' ')));
    }
    for (std::size_t i = 1; i < ordinals.size(); ++i) {
        if (words.find(" " + ordinals[i] + " block past ") == std::string::npos) continue;
        value += static_cast<double>(i) * block_height;
    }
    const bool off_the_edge = words.rfind("on ", 0) != 0 && words.rfind("at ", 0) != 0;
    if (off_the_edge) value += std::stod(words) / (words.find(" mm ") == std::string::npos ? 1 : 1000);
    return value;
}

}  // namespace

// STF-07 University of the Highlands and Islands, levelling tutorial 1.7: blocks of 10 mm, figures every 100
// mm, the lower 50 mm of each 100 mm joined, the colour changes each metre. Second source
// (builtenvironmenthand.co.uk): forward E in even decimetres, reversed in odd ones.
TEST(Face, MetricFaceIsTheEPatternPublished) {
    EXPECT_EQ(block_height(Unit::Metre), m(0.010));
    for (int number = 0; number < 500; ++number) {
        const Block each = block(number, Unit::Metre);
        EXPECT_EQ(each.bottom, m(number / 100.0));
        EXPECT_EQ(each.top - each.bottom, m(0.010));
        EXPECT_EQ(each.dark, number % 2 == 0);
        EXPECT_EQ(each.paint == Paint::Red, (number / 100) % 2 == 1);
        const bool lower_half = number % 10 < 5;
        EXPECT_EQ(each.spine != Spine::None, lower_half);
        EXPECT_EQ(each.spine == Spine::Left, lower_half && (number / 10) % 2 == 0);
        EXPECT_EQ(figure_stands_under(number), number > 0 && number % 10 == 0);
    }
    EXPECT_EQ(figure_under(140, Unit::Metre).text, "1.4");
    EXPECT_EQ(figure_under(140, Unit::Metre).at, m(1.4));
    EXPECT_EQ(figure_under(140, Unit::Metre).paint, Paint::Red);
    EXPECT_EQ(figure_under(200, Unit::Metre).text, "2.0");
}

// Common practice, no source.
TEST(Face, FeetAndTenths) {
    EXPECT_EQ(block_height(Unit::Foot), m(0.003048));
    const Block each = block(block_of(m(4.735 * metres_per_foot), Unit::Foot), Unit::Foot);
    EXPECT_EQ(each.number, 473);
    EXPECT_FALSE(each.dark);
    EXPECT_EQ(each.spine, Spine::None);
    EXPECT_EQ(figure_under(470, Unit::Foot).text, "4.7");
    EXPECT_EQ(figure_under(470, Unit::Foot).paint, Paint::Black);
    EXPECT_EQ(figure_under(500, Unit::Foot).text, "5.0");
    EXPECT_EQ(figure_under(500, Unit::Foot).paint, Paint::Red);
}

TEST(Face, ALineBelongsToTheBlockAboveIt) {
    EXPECT_EQ(metric(1.430).number, 143);
    EXPECT_EQ(metric(1.4299999).number, 142);
    EXPECT_EQ(metric(0).number, 0);
}

TEST(Face, SentencesOfEveryKind) {
    EXPECT_EQ(read(1.432), "the light is 2 mm above the top of the third block past 1.4: 1.432");
    EXPECT_EQ(read(1.430), "the light is at the top of the third block past 1.4: 1.430");
    EXPECT_EQ(read(1.402), "the light is 2 mm above the line at 1.4: 1.402");
    EXPECT_EQ(read(1.400), "the light is on the line at 1.4: 1.400");
    EXPECT_EQ(read(0.032),
              "the light is 2 mm above the top of the third block past the foot of the staff: 0.032");
    EXPECT_EQ(read(0.002), "the light is 2 mm above the foot of the staff: 0.002");
    EXPECT_EQ(read(0), "the light is on the foot of the staff: 0.000");
    EXPECT_EQ(read(1.4325), "the light is 2.5 mm above the top of the third block past 1.4: 1.4325");
    EXPECT_EQ(how_to_read(m(1.432), Unit::Metre, true),
              "upside down, the light is 2 mm below the bottom of the third block past 1.4: 1.432, booked as "
              "-1.432");
    EXPECT_EQ(how_to_read(m(4.735 * metres_per_foot), Unit::Foot, false),
              "the light is 0.005 ft above the top of the third block past 4.7: 4.735");
    EXPECT_EQ(how_to_read(m(4.73 * metres_per_foot), Unit::Foot, false),
              "the light is at the top of the third block past 4.7: 4.73");
}

TEST(Face, EverySentenceDescribesItsReading) {
    for (int mm = 0; mm <= 5000; ++mm) {
        for (const bool inverted : {false, true}) {
            const std::string sentence = how_to_read(m(mm / 1000.0), Unit::Metre, inverted);
            ASSERT_NEAR(reading_from(sentence, 0.010), mm / 1000.0, 1e-9) << sentence;
            ASSERT_EQ(sentence.find("above") != std::string::npos && inverted, false) << sentence;
        }
    }
}

TEST(Face, EverySentenceInFeetDescribesItsReading) {
    for (int thousandth = 0; thousandth <= 16000; thousandth += 3) {
        const double feet = thousandth / 1000.0;
        const std::string sentence = how_to_read(m(feet * metres_per_foot), Unit::Foot, false);
        ASSERT_NEAR(reading_from(sentence, 0.01), feet, 1e-9) << sentence;
    }
}

TEST(Face, FiguresForPeopleShowWhatIsThere) {
    EXPECT_EQ(figure_text(m(1.4), Unit::Metre), "1.400");
    EXPECT_EQ(figure_text(m(1.4325), Unit::Metre), "1.4325");
    EXPECT_EQ(figure_text(m(1.432567), Unit::Metre), "1.43257");
    EXPECT_EQ(figure_text(m(-1.432), Unit::Metre), "-1.432");
    EXPECT_EQ(figure_text(m(4.7 * metres_per_foot), Unit::Foot), "4.70");
    EXPECT_EQ(figure_text(m(4.735 * metres_per_foot), Unit::Foot), "4.735");
}

}  // namespace fallwright::staff
