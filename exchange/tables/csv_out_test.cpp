#include "exchange/tables/csv_out.h"

#include <gtest/gtest.h>

#include <cmath>

#include "exchange/text/csv_rows.h"

namespace fallwright::tables {
namespace {

TEST(CsvOut, RowsEndAsRfc4180Wants) {
    CsvOut out({"point", "level (m)"});
    out.text("BM1").number(47.655, 5).end();
    out.text("a, \"b\"\nc").number(NAN, 5).end();
    EXPECT_EQ(out.take(), "point,level (m)\r\nBM1,47.655\r\n\"a, \"\"b\"\"\nc\",\r\n");
}

// What a spreadsheet would run is text; a number is a number, negative or not.
TEST(CsvOut, NoCellIsRun) {
    CsvOut out({"point", "off (m)"});
    out.text("=1+1").number(-3.5, 3).end();
    out.text("-5").number(2, 3).end();
    out.text("@SUM(A1)").written("-0.25").end();
    EXPECT_EQ(out.take(), "point,off (m)\r\n'=1+1,-3.5\r\n'-5,2\r\n'@SUM(A1),-0.25\r\n");
}

TEST(CsvOut, GuardsComeOffAgain) {
    for (const char* text : {"=x", "+x", "-x", "@x", "\tx", "\rx", "'=x", "''-", "x", "'x", "", "'", "a=b"})
        EXPECT_EQ(without_guard(safe_cell(text)), text);
    EXPECT_EQ(safe_cell("=x"), "'=x");
    EXPECT_EQ(safe_cell("'=x"), "''=x");
    EXPECT_EQ(safe_cell("'x"), "'x");
}

TEST(CsvOut, LettersBeyondAsciiHaveTheMark) {
    CsvOut out({"point"});
    out.text("H\xC3\xB6he").end();
    EXPECT_EQ(out.take(), "\xEF\xBB\xBFpoint\r\nH\xC3\xB6he\r\n");
}

TEST(CsvOut, OurOwnReaderReadsIt) {
    CsvOut out({"a", "b"});
    out.text("x,\"y\"\r\nz").text("=1").end();
    const std::string text = out.take();
    text::CsvRows rows(text, ',', {});
    text::CsvRow row;
    ASSERT_TRUE(rows.next(row));
    ASSERT_TRUE(rows.next(row));
    ASSERT_EQ(row.cells.size(), 2U);
    EXPECT_EQ(row.cells[0], "x,\"y\"\r\nz");
    EXPECT_EQ(without_guard(row.cells[1]), "=1");
}

}  // namespace
}  // namespace fallwright::tables
