#include "exchange/text/level_csv.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <random>
#include <string>
#include <vector>

namespace fallwright::text {
namespace {

bool has_error(const Findings& findings) {
    return std::any_of(findings.begin(), findings.end(), [](const Finding& found) {
        return catalogue(found.code).severity == Severity::Error;
    });
}

bool has(const Findings& findings, Code code) {
    return std::any_of(findings.begin(), findings.end(),
                       [=](const Finding& found) { return found.code == code; });
}

const std::string plain =
    "Point,BS,IS,FS,RL,Dist,Remarks\nBM1,1.5,,,20.0,30,\nA,,1.2,,20.3,20,\"a "
    "\"\"nail\"\"\"\nB,,,1,20.5,25,\n";

TEST(LevelCsv, WritesTheBookAsTheOptionsSay) {
    CsvOptions options;
    options.title = "Hay \"Lane\"";
    options.datum = "site";
    options.sheet_name = "hay.csv";
    options.setup_prefix = "Q";
    options.instrument = "rot 1";
    options.instrument_type = "rotating-laser";
    const ImportedBook book = import_level_csv(plain, options);
    ASSERT_GE(book.lines.size(), 6U);
    EXPECT_EQ(
        book.lines[0],
        R"({"kind":"book","format":"fallwright","version":1,"title":"Hay \"Lane\"","datum":"site","unit":"m"})");
    EXPECT_EQ(book.lines[1], R"({"kind":"remark","text":"imported from hay.csv"})");
    EXPECT_EQ(book.lines[2], R"({"kind":"instrument","name":"rot 1","type":"rotating-laser"})");
    EXPECT_EQ(book.lines[3], R"({"kind":"benchmark","point":"BM1","level":20,"source":"row 2 of hay.csv"})");
    EXPECT_EQ(book.lines[4], R"({"kind":"setup","name":"Q1","instrument":"rot 1"})");
    EXPECT_TRUE(book.findings.empty());
}

TEST(LevelCsv, AddsNoBookAndNoInstrumentToABookThatHasThem) {
    CsvOptions options;
    options.new_book = false;
    options.instrument_in_book = true;
    const ImportedBook book = import_level_csv(plain, options);
    ASSERT_FALSE(book.lines.empty());
    EXPECT_EQ(nlohmann::json::parse(book.lines[0])["kind"], "benchmark");
}

TEST(LevelCsv, RefusesUnitsItDoesNotKnow) {
    CsvOptions options;
    options.unit = "yd";
    EXPECT_TRUE(has(import_level_csv(plain, options).findings, Code::ImportUnit));
    options.unit = "m";
    options.sheet_unit = "cubit";
    EXPECT_TRUE(has(import_level_csv(plain, options).findings, Code::ImportUnit));
}

TEST(LevelCsv, RefusesAFileBeyondTheLimits) {
    CsvOptions options;
    options.limits.bytes = plain.size() - 1;
    const ImportedBook large = import_level_csv(plain, options);
    EXPECT_TRUE(large.lines.empty());
    EXPECT_TRUE(has(large.findings, Code::ImportTooLarge));
    options.limits.bytes = plain.size();
    EXPECT_FALSE(import_level_csv(plain, options).lines.empty());
    options.limits.rows = 3;
    EXPECT_TRUE(has(import_level_csv(plain, options).findings, Code::ImportTooLarge));
}

TEST(LevelCsv, ListsABoundedNumberOfFindingsAndSaysHowManyMore) {
    std::string sheet = "Point,BS,FS\n";
    for (int i = 0; i < 250; ++i) sheet += "P,x,\n";
    CsvOptions options;
    options.limits.findings_per_code = 20;
    const ImportedBook book = import_level_csv(sheet, options);
    ASSERT_EQ(book.findings.size(), 21U);
    EXPECT_EQ(book.findings.back().message, "230 more of this kind are not listed");
}

// An entry of the book has 64 KiB at most (contract, section 1).
TEST(LevelCsv, WritesNoEntryLongerThanABookTakes) {
    const std::string quotes(4000, '\'');
    const std::string slashes(4090, '\\');
    const std::string sheet =
        "Title " + slashes + "\nPoint,BS,FS,Remarks\n" + slashes + ",1.5,," + quotes + "\nB,,1,\n";
    const ImportedBook book = import_level_csv(sheet, {});
    ASSERT_FALSE(book.lines.empty());
    for (const std::string& line : book.lines) EXPECT_LE(line.size(), 65536U);
    const std::string longer = "Point,BS,FS,Notes,Remarks\nA,1.5,," + std::string(8000, 'n') + "," +
                               std::string(8000, 'r') + "\nB,,1,,\n";
    EXPECT_TRUE(has(import_level_csv(longer, {}).findings, Code::ImportTooLarge));
}

// What holds for any bytes: all or nothing, and every line is JSON of a known kind.
void expect_all_or_nothing(const std::string& bytes, const CsvOptions& options) {
    const ImportedBook book = import_level_csv(bytes, options);
    ASSERT_EQ(book.lines.empty(), has_error(book.findings)) << bytes;
    for (const std::string& line : book.lines) {
        const nlohmann::json entry = nlohmann::json::parse(line, nullptr, false);
        ASSERT_TRUE(entry.is_object()) << line;
        ASSERT_TRUE(entry.contains("kind")) << line;
    }
}

TEST(LevelCsv, GivesAllOrNothingForAnyBytes) {
    const std::vector<std::string> sheets = {
        plain,
        "sep=;\nPunkt;R\xC3\xBC"
        "ckblick;Zwischenblick;Vorblick;H\xC3\xB6he;bekannt\nHP;1,5;;;20,0;x\nWP;1,2;;1,1;20,4;\nWP;;0,9;;20,"
        "7;\nSumme;2,7;;1,1;;\n",
        "Chainage,Offset,Point,BS (ft),IS (ft),FS (ft),Elev\n,,BM,4.5,,,100\n0+40,L "
        "3.5,,,3.25,,\n0+80,CL,CP,4,,5.5,\nSum,,,8.5,,5.5,\n",
        "Pt\tSight\tStaff\tRise/Fall\nA\tBS\t1,5\t\nB\tIS\t-2,25\t3,75\nC\tFS\t1,234\t\n",
    };
    const std::string tokens[] = {
        "\"",    "\"\"", ",", ";", "\n", "\r", "\xFF\xFE",          "\xC3", "Sum", "known",
        "1,234", "-",    "=", "#", "CP", "BS", std::string(1, '\0')};
    std::mt19937 random(20260504);
    for (int round = 0; round < 4000; ++round) {
        std::string bytes = sheets[random() % sheets.size()];
        for (std::size_t change = random() % 6; change-- > 0;) {
            const std::size_t at = random() % (bytes.size() + 1);
            switch (random() % 4) {
                case 0:
                    bytes.insert(at, tokens[random() % std::size(tokens)]);
                    break;
                case 1:
                    bytes.erase(at, random() % 8);
                    break;
                case 2:
                    bytes.insert(at, bytes.substr(random() % (bytes.size() + 1), random() % 40));
                    break;
                default:
                    if (at < bytes.size()) bytes[at] = static_cast<char>(random() % 256);
            }
        }
        CsvOptions options;
        if (random() % 2 == 0) options.line = "R1";
        if (random() % 4 == 0) options.unit = "ft";
        options.limits.findings_per_code = 3;
        expect_all_or_nothing(bytes, options);
        if (testing::Test::HasFatalFailure()) return;
    }
}

TEST(LevelCsv, GivesAllOrNothingForSheetsOfOneKindOfByte) {
    for (const char* piece :
         {",", "\"", "\n", "\r\n", "a", "\xFF\xFE", "\xC3", "0", "Sum\n", "Point,BS\n", "a,", "\"a\"\n"}) {
        std::string bytes;
        while (bytes.size() < 200000) bytes += piece;
        expect_all_or_nothing(bytes, {});
        expect_all_or_nothing("Point,BS,IS,FS\n" + bytes, {});
    }
}

}  // namespace
}  // namespace fallwright::text
