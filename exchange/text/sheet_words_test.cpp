#include "exchange/text/sheet_words.h"

#include <gtest/gtest.h>

#include "exchange/text/known_level.h"

namespace fallwright::text {
namespace {

TEST(SheetWords, FoldsCapitalsDotsAndAccents) {
    EXPECT_EQ(folded("B.S."), "bs");
    EXPECT_EQ(folded("Back-Sight"), "backsight");
    EXPECT_EQ(folded("R\xC3\xBC"
                     "ckblick"),
              "ruckblick");
    EXPECT_EQ(folded("Ru\xCC\x88"
                     "ckblick"),
              "ruckblick");  // the accent as a character of its own
    EXPECT_EQ(folded("VIS\xC3\x89"
                     "E"),
              "visee");
    EXPECT_EQ(folded("\xCE\xA3 BS"), "sumbs");
    EXPECT_EQ(folded("\xE2\x88\x91"), "sum");
    EXPECT_EQ(folded("\xC3"), "");
}

TEST(SheetWords, AWordIsOneOfAListOnlyAsAWhole) {
    EXPECT_TRUE(one_of("bs", "fs bs is"));
    EXPECT_FALSE(one_of("s", "fs bs is"));
    EXPECT_FALSE(one_of("", "fs bs is"));
    EXPECT_FALSE(one_of("bs is", "fs bsis"));
}

TEST(SheetWords, KnowsTheCommonNamesOfColumns) {
    EXPECT_EQ(column_named("backsight"), Column::Back);
    EXPECT_EQ(column_named("zwischenblick"), Column::Inter);
    EXPECT_EQ(column_named("vorblick"), Column::Fore);
    EXPECT_EQ(column_named("reducedlevel"), Column::Level);
    EXPECT_EQ(column_named("entfernung"), Column::Distance);
    EXPECT_EQ(column_named("observaciones"), Column::Remark);
    EXPECT_EQ(column_named("weather"), Column::Unknown);
}

TEST(SheetWords, KnowsBenchmarksByTheirName) {
    for (const char* name : {"bm", "bm2", "tbm", "obm12", "festpunkt7", "benchmark"})
        EXPECT_TRUE(names_benchmark(name));
    for (const char* name : {"bmx", "b", "atbm", "pbm"}) EXPECT_FALSE(names_benchmark(name)) << name;
}

KnownLevel known(std::string_view level, std::string_view in_known, std::string_view remark) {
    return read_known_level({level, in_known, remark, "P", {}, LengthUnit::Metre, LengthUnit::Metre});
}

TEST(KnownLevel, TakesAFigureOrAYesInTheColumnKnown) {
    EXPECT_EQ(known("29.67", "29.66", "").known.written(LengthUnit::Metre), "29.66");
    EXPECT_FALSE(known("29.67", "29.66", "").known_is_booked);
    EXPECT_EQ(known("29.67", "x", "").known.written(LengthUnit::Metre), "29.67");
    EXPECT_TRUE(known("29.67", "x", "").known_is_booked);
    EXPECT_FALSE(known("29.67", "no", "").known);
    EXPECT_TRUE(known("", "yes", "").known_without_level);
    EXPECT_EQ(known("29.67", "maybe", "").known_fault, NumberFault::NotANumber);
}

TEST(KnownLevel, TakesWhatTheRemarkOrTheLevelSays) {
    EXPECT_EQ(known("29.67", "", "BM2 RL 29.66 known").known.written(LengthUnit::Metre), "29.66");
    EXPECT_EQ(known("29.67", "", "OBM2 (RL 29.66)").known.written(LengthUnit::Metre), "29.66");
    EXPECT_EQ(known("29.67", "", "known benchmark").known.written(LengthUnit::Metre), "29.67");
    EXPECT_EQ(known("29.66 known", "", "").known.written(LengthUnit::Metre), "29.66");
    EXPECT_EQ(known("29.66 (BM)", "", "").booked.written(LengthUnit::Metre), "29.66");
}

TEST(KnownLevel, IsNotMadeOfOtherRemarks) {
    for (const char* remark :
         {"not known", "RL 29.66", "near BM2", "BM2 29.66", "unknown", "nail 0.5 m from BM"}) {
        EXPECT_FALSE(known("29.67", "", remark).known) << remark;
    }
    EXPECT_EQ(known("29.66 about", "", "").level_fault, NumberFault::NotANumber);
}

}  // namespace
}  // namespace fallwright::text
