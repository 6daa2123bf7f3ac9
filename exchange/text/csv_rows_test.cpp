#include "exchange/text/csv_rows.h"

#include <gtest/gtest.h>

namespace fallwright::text {
namespace {

using Cells = std::vector<std::vector<std::string>>;

Cells cells_of(std::string_view text, char separator = ',', const CsvLimits& limits = {}) {
    CsvRows rows(text, separator, limits);
    CsvRow row;
    Cells cells;
    while (rows.next(row)) cells.push_back(row.cells);
    return cells;
}

Findings trouble_of(std::string_view text, const CsvLimits& limits = {}) {
    CsvRows rows(text, ',', limits);
    CsvRow row;
    while (rows.next(row)) continue;
    SheetFindings findings(10);
    rows.report(findings);
    return findings.take();
}

// The grammar's own examples, RFC 4180 section 2.
TEST(CsvRows, ReadsTheExamplesOfRfc4180) {
    const Cells two = {{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}};
    EXPECT_EQ(cells_of("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"), two);
    EXPECT_EQ(cells_of("aaa,bbb,ccc\r\nzzz,yyy,xxx"), two);
    EXPECT_EQ(cells_of("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx"), two);
    EXPECT_EQ(cells_of("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx"),
              (Cells{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
    EXPECT_EQ(cells_of("\"aaa\",\"b\"\"bb\",\"ccc\""), (Cells{{"aaa", "b\"bb", "ccc"}}));
}

TEST(CsvRows, EndsRowsAtEveryKindOfLineEnd) {
    EXPECT_EQ(cells_of("a\nb\r\nc\rd\n\ne"), (Cells{{"a"}, {"b"}, {"c"}, {"d"}, {}, {"e"}}));
}

TEST(CsvRows, DropsWhiteSpaceAndEmptyCellsAtTheEnd) {
    EXPECT_EQ(cells_of(" a ,\xC2\xA0"
                       "b\xE2\x80\xAF,\" c \",,,\n,,"),
              (Cells{{"a", "b", "c"}, {}}));
}

TEST(CsvRows, TakesAQuoteInsideACellAsItIs) {
    EXPECT_EQ(cells_of("2\" pipe,\"old\" kerb"), (Cells{{"2\" pipe", "old kerb"}}));
}

TEST(CsvRows, CountsRowsAsTheSpreadsheet) {
    CsvRows rows("sep=;\r\na;\"b\nc\"\r\n\r\nd\r\n", ';', {});
    CsvRow row;
    ASSERT_TRUE(rows.next(row));
    EXPECT_EQ(row.number, 1U);
    EXPECT_EQ(row.cell(1), "b\nc");
    EXPECT_EQ(row.cell(2), "");
    ASSERT_TRUE(rows.next(row));
    ASSERT_TRUE(rows.next(row));
    EXPECT_EQ(row.number, 3U);
    EXPECT_EQ(row.cell(0), "d");
    EXPECT_FALSE(rows.next(row));
}

TEST(CsvRows, NamesTheRowAndColumnOfAnOpenQuote) {
    const Findings findings = trouble_of("a,b\nc,\"d\ne,f\n");
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_EQ(findings[0].code, Code::ImportQuote);
    EXPECT_EQ(findings[0].about, (std::vector<std::string>{"row 2", "column B"}));
}

TEST(CsvRows, StopsAtEveryLimit) {
    CsvLimits limits;
    limits.columns = 3;
    limits.cell_bytes = 5;
    limits.rows = 2;
    EXPECT_TRUE(trouble_of("a,b,c\n12345,\"12345\"", limits).empty());
    for (const char* text : {"a,b,c,d", "123456", "\"123456\"", "\"1\"\"3\"\"56\"", "a\nb\nc"}) {
        const Findings findings = trouble_of(text, limits);
        ASSERT_EQ(findings.size(), 1U) << text;
        EXPECT_EQ(findings[0].code, Code::ImportTooLarge) << text;
    }
}

TEST(CsvRows, OneLineEvensOutBlanksAndControlCharacters) {
    EXPECT_EQ(one_line(" a\r\n b\t\x01\x7F c "), "a b c");
}

}  // namespace
}  // namespace fallwright::text
