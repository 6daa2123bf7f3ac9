// Runs every pair cases/import/NAME.csv + NAME.expected. An .expected file:
//
//   # what the case shows, and its source
//   option KEY VALUE          fields of CsvOptions, see set_option() below
//   lines:
//   {...}                     the complete lines expected, none where the import is refused
//   findings:
//   5:C import-differs        ROW:COLUMN CODE in order, "-" where a finding has no row or no column
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "exchange/text/level_csv.h"

namespace fallwright::text {
namespace {

namespace fs = std::filesystem;

fs::path case_folder() {
    return fs::path(__FILE__).parent_path() / ".." / ".." / "cases" / "import";
}

std::vector<std::string> case_names() {
    std::vector<std::string> names;
    for (const fs::directory_entry& entry : fs::directory_iterator(case_folder())) {
        if (entry.path().extension() == ".csv") names.push_back(entry.path().stem().string());
    }
    std::sort(names.begin(), names.end());
    return names;
}

std::string content(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

struct Expected {
    CsvOptions options;
    std::vector<std::string> lines;
    std::vector<std::string> findings;
    std::vector<std::string> unknown;
};

bool set_option(CsvOptions& options, const std::string& key, const std::string& value) {
    if (key == "new_book")
        options.new_book = value == "yes";
    else if (key == "title")
        options.title = value;
    else if (key == "datum")
        options.datum = value;
    else if (key == "unit")
        options.unit = value;
    else if (key == "sheet_name")
        options.sheet_name = value;
    else if (key == "date")
        options.date = value;
    else if (key == "sheet_unit")
        options.sheet_unit = value;
    else if (key == "separator")
        options.separator = value.front();
    else if (key == "decimal_mark")
        options.decimal_mark = value.front();
    else if (key == "setup_prefix")
        options.setup_prefix = value;
    else if (key == "setup_in_use")
        options.setups_in_use.push_back(value);
    else if (key == "point_in_use")
        options.points_in_use.push_back(value);
    else if (key == "instrument")
        options.instrument = value;
    else if (key == "instrument_type")
        options.instrument_type = value;
    else if (key == "instrument_in_book")
        options.instrument_in_book = value == "yes";
    else if (key == "line")
        options.line = value;
    else if (key == "what")
        options.what = value;
    else if (key == "line_in_book")
        options.line_in_book = value == "yes";
    else
        return false;
    return true;
}

Expected read_expected(const std::string& text) {
    Expected expected;
    std::vector<std::string>* list = nullptr;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) {
        if (line.empty() || line.front() == '#') continue;
        if (line == "lines:") {
            list = &expected.lines;
        } else if (line == "findings:") {
            list = &expected.findings;
        } else if (list != nullptr) {
            list->push_back(line);
        } else {
            std::istringstream words(line);
            std::string option, key, value;
            words >> option >> key >> std::ws;
            std::getline(words, value);
            if (option != "option" || value.empty() || !set_option(expected.options, key, value))
                expected.unknown.push_back(line);
        }
    }
    return expected;
}

// "row 7", "column C, FS" -> 7:C
std::string place_and_code(const Finding& found) {
    std::string row = "-";
    std::string column = "-";
    for (const std::string& about : found.about) {
        if (about.rfind("row ", 0) == 0) row = about.substr(4);
        if (about.rfind("column ", 0) == 0) column = about.substr(7, about.find(',') - 7);
    }
    return row + ":" + column + " " + std::string(catalogue(found.code).text);
}

std::vector<std::string> places_and_codes(const Findings& findings) {
    std::vector<std::string> out;
    for (const Finding& found : findings) out.push_back(place_and_code(found));
    return out;
}

std::string joined(const std::vector<std::string>& lines) {
    std::string text;
    for (const std::string& line : lines) text += line + "\n";
    return text;
}

std::string sentences(const Findings& findings) {
    std::string text;
    for (const Finding& found : findings) text += one_line(found) + "\n";
    return text;
}

class LevelCsvCase : public testing::TestWithParam<std::string> {};

TEST_P(LevelCsvCase, GivesTheExpectedLinesAndFindings) {
    const fs::path base = case_folder() / GetParam();
    const Expected expected = read_expected(content(base.string() + ".expected"));
    ASSERT_EQ(joined(expected.unknown), "") << "lines of the .expected file that mean nothing";
    ASSERT_FALSE(expected.lines.empty() && expected.findings.empty()) << "a case that expects nothing";
    const ImportedBook book = import_level_csv(content(base.string() + ".csv"), expected.options);
    EXPECT_EQ(joined(book.lines), joined(expected.lines));
    EXPECT_EQ(joined(places_and_codes(book.findings)), joined(expected.findings)) << sentences(book.findings);
}

INSTANTIATE_TEST_SUITE_P(Files, LevelCsvCase, testing::ValuesIn(case_names()),
                         [](const testing::TestParamInfo<std::string>& file) {
                             std::string name = file.param;
                             std::replace(name.begin(), name.end(), '-', 'x');
                             return name;
                         });

TEST(LevelCsvCases, EveryExpectedFileHasItsSheet) {
    std::size_t expected_files = 0;
    for (const fs::directory_entry& entry : fs::directory_iterator(case_folder())) {
        if (entry.path().extension() != ".expected") continue;
        ++expected_files;
        EXPECT_TRUE(fs::exists(fs::path(entry.path()).replace_extension(".csv"))) << entry.path();
    }
    EXPECT_EQ(expected_files, case_names().size());
    EXPECT_GE(expected_files, 25U);
}

}  // namespace
}  // namespace fallwright::text
