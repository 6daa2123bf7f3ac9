#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <map>

#include "exchange/native/pdf/random_document_test.h"
#include "exchange/native/pdf/sheets.h"
#include "sheet/markup.h"
#include "sheet/table_fit.h"
#include "sheet/type.h"

namespace fallwright::pdf {

namespace {

struct Box {
    double left, top, right, bottom;
};

Box box_of(const Words& words, Type& type) {
    return {words.at.x, words.at.y - 0.8 * words.size,
            words.at.x + type.width(words.text, words.size, words.bold), words.at.y + 0.3 * words.size};
}
Box box_of(const Rule& rule, Type& /*type*/) {
    return {std::min(rule.from.x, rule.to.x), std::min(rule.from.y, rule.to.y),
            std::max(rule.from.x, rule.to.x), std::max(rule.from.y, rule.to.y)};
}
Box box_of(const CellMark& mark, Type& /*type*/) {
    return {mark.at.x, mark.at.y, mark.at.x + mark.size, mark.at.y + mark.size};
}
Box box_of(const Picture& picture, Type& /*type*/) {
    return {picture.at.x, picture.at.y, picture.at.x + picture.scale * picture.figure->width,
            picture.at.y + picture.scale * picture.figure->height};
}

// How often each byte that is no space stands in what is laid out.
std::map<char, int> letters_of(std::string_view text) {
    std::string plain;
    sheet::append_plain(plain, text);
    std::map<char, int> count;
    for (const char c : plain) {
        if (std::isspace(static_cast<unsigned char>(c)) == 0) ++count[c];
    }
    return count;
}

std::string all_texts(const sheet::Block& block) {
    std::string out;
    const auto add = [&](const std::string& text) { out += text; };
    if (const auto* heading = std::get_if<sheet::Heading>(&block)) add(heading->text);
    if (const auto* statement = std::get_if<sheet::Statement>(&block))
        add(word_before(*statement) + statement->text);
    if (const auto* drawn = std::get_if<sheet::Drawn>(&block)) add(drawn->figure.title + drawn->figure.said);
    if (const auto* list = std::get_if<sheet::List>(&block)) {
        for (const std::string& item : list->items) add(item + "\xe2\x80\xa2");
    }
    if (const auto* facts = std::get_if<sheet::Facts>(&block)) {
        for (const auto& fact : facts->facts) add(fact.name + fact.value);
    }
    if (const auto* signature = std::get_if<sheet::Signature>(&block)) {
        for (const std::string& under : signature->under) add(under);
    }
    if (const auto* table = std::get_if<sheet::Table>(&block)) {
        for (const auto& row : table->rows) {
            for (const auto& cell : row.cells) add(cell.text);
        }
    }
    return out;
}

sheet::Table plain_table(int rows) {
    sheet::Table table{
        "Levels", {{"at", sheet::Align::Left, false}, {"level", sheet::Align::Right, false}}, {}};
    for (int k = 0; k < rows; ++k) table.rows.push_back({{{std::to_string(k)}, {"49.741"}}, false});
    return table;
}

std::vector<std::size_t> sheets_with(const Laid& laid, std::string_view text) {
    std::vector<std::size_t> out;
    for (std::size_t k = 0; k < laid.sheets.size(); ++k) {
        for (const auto& piece : laid.sheets[k].pieces) {
            const auto* words = std::get_if<Words>(&piece);
            if (words != nullptr && words->text == text) out.push_back(k);
        }
    }
    return out;
}

}  // namespace

TEST(PdfType, GuessedWidthsHoldForTheFontThatIsUsed) {
    // Printable ASCII one by one; the font comes with the packages that ./run installs.
    Type type;
    ASSERT_TRUE(type.usable());
    for (const bool bold : {false, true}) {
        for (char c = ' '; c <= '~'; ++c) {
            const std::string text(1, c);
            EXPECT_NEAR(type.width(text, 1, bold), sheet::text_width(text, 1, bold), 0.002) << text << bold;
        }
        for (const char* text :
             {"\xc2\xb1", "\xc2\xb0", "\xc3\x97", "\xe2\x88\x92", "\xc3\xa9", "\xc3\x84"}) {
            EXPECT_LE(type.width(text, 1, bold), sheet::text_width(text, 1, bold) + 0.06) << text << bold;
        }
    }
}

TEST(PdfType, LinesBreakBetweenWords) {
    Type type;
    const double column = type.width("the pipe itself", 3, false);
    const auto lines = type.lines("the pipe itself  is out", 3, false, column);
    ASSERT_EQ(lines.size(), 2U);
    EXPECT_EQ(lines[0], "the pipe itself");
    EXPECT_EQ(lines[1], "is out");
    EXPECT_EQ(type.lines("", 3, false, 10).size(), 1U);
    EXPECT_EQ(type.lines("mmmmmm", 1, false, 2.6).size(), 2U) << "a word wider than the column is broken";
}

RC_GTEST_PROP(PdfType, LinesHoldEveryWordAndFitTheirColumn, ()) {
    Type type;
    std::string text;
    sheet::append_plain(text, *hard_text());
    const double column = *rc::gen::inRange(5, 200);
    std::string joined;
    for (const std::string_view line : type.lines(text, 3.5, false, column)) {
        joined += line;
        RC_ASSERT(type.width(line, 3.5, false) <= column + 0.02);
    }
    RC_ASSERT(letters_of(joined) == letters_of(text));
}

RC_GTEST_PROP(PdfLayout, EveryWordIsOnASheetAndWithinItsMargins, ()) {
    const sheet::Document document = random_document();
    const sheet::PaperSize paper = sheet::size_of(document.paper);
    Type type;
    const Laid laid = lay_out(document, type);
    RC_ASSERT(!laid.sheets.empty());
    std::map<char, int> laid_out, wanted = letters_of(document.title + document.subject);
    for (const Sheet& each : laid.sheets) {
        const double width = each.turned ? paper.height : paper.width,
                     height = each.turned ? paper.width : paper.height;
        for (const auto& piece : each.pieces) {
            const Box box = std::visit([&](const auto& what) { return box_of(what, type); }, piece);
            // Frames and the drop of a last line may use a little of the margin.
            const double beyond = 3;
            RC_ASSERT(box.left >= paper.margin - 0.01 && box.right <= width - paper.margin + 2.5);
            RC_ASSERT(box.top >= paper.margin - beyond && box.bottom <= height - paper.margin + beyond);
            if (const auto* words = std::get_if<Words>(&piece)) {
                for (const auto& [c, count] : letters_of(words->text)) laid_out[c] += count;
            }
        }
    }
    for (const sheet::Block& block : document.blocks) {
        for (const auto& [c, count] : letters_of(all_texts(block))) wanted[c] += count;
    }
    // Heads of tables are repeated, so there may be more.
    for (const auto& [c, count] : wanted) RC_ASSERT(laid_out[c] >= count);
}

TEST(PdfLayout, TablesRepeatTheirHeadsAndLeaveNoRowAlone) {
    sheet::Document document;
    document.title = "Back lane";
    for (int rows = 40; rows < 60; ++rows) {
        document.blocks = {plain_table(rows)};
        Type type;
        const Laid laid = lay_out(document, type);
        EXPECT_EQ(sheets_with(laid, "level").size(), laid.sheets.size()) << rows;
        EXPECT_EQ(sheets_with(laid, std::to_string(rows - 1)), sheets_with(laid, std::to_string(rows - 2)))
            << rows;
        EXPECT_EQ(sheets_with(laid, "Levels (continued)").size(), laid.sheets.size() - 1) << rows;
    }
}

TEST(PdfLayout, HeadingsStayWithWhatFollows) {
    sheet::Document document;
    document.title = "Back lane";
    for (int before = 30; before < 50; ++before) {
        document.blocks.assign(static_cast<std::size_t>(before), sheet::Statement{"A line."});
        document.blocks.emplace_back(sheet::Heading{1, "Levels"});
        document.blocks.emplace_back(sheet::Heading{2, "As laid"});
        document.blocks.emplace_back(plain_table(20));
        Type type;
        const Laid laid = lay_out(document, type);
        EXPECT_EQ(sheets_with(laid, "Levels").front(), sheets_with(laid, "1").front()) << before;
        EXPECT_EQ(sheets_with(laid, "As laid"), std::vector{sheets_with(laid, "0").front()}) << before;
        ASSERT_EQ(laid.bookmarks.size(), 2U);
        EXPECT_EQ(laid.bookmarks[0].sheet, sheets_with(laid, "As laid").front());
    }
}

TEST(PdfLayout, WideFiguresTurnTheirSheetAndKeepTheirSize) {
    sheet::Document document;
    document.title = "Back lane";
    sheet::Figure figure{"Long section", "A drain.", 250, 120, {}};
    document.blocks = {sheet::Heading{1, "Drawings"}, sheet::Drawn{figure},
                       sheet::Statement{"Levels as laid.", sheet::Tone::Small},
                       sheet::Statement{"After it."}};
    Type type;
    const Laid laid = lay_out(document, type);
    ASSERT_EQ(laid.sheets.size(), 3U);
    EXPECT_FALSE(laid.sheets[0].turned);
    EXPECT_TRUE(laid.sheets[1].turned);
    EXPECT_FALSE(laid.sheets[2].turned);
    EXPECT_EQ(sheets_with(laid, "Drawings"), std::vector<std::size_t>{1});
    EXPECT_EQ(sheets_with(laid, "Levels as laid."), std::vector<std::size_t>{1});
    EXPECT_EQ(sheets_with(laid, "After it."), std::vector<std::size_t>{2});
    for (const auto& piece : laid.sheets[1].pieces) {
        const auto* picture = std::get_if<Picture>(&piece);
        EXPECT_TRUE(picture == nullptr || picture->scale == 1);
    }
}

TEST(PdfLayout, AFigureLargerThanAnySheetSaysThatItIsReduced) {
    sheet::Document document;
    sheet::Figure figure{"Plan", "", 600, 100, {}};
    document.blocks = {sheet::Drawn{figure}};
    Type type;
    const Laid laid = lay_out(document, type);
    // 261 mm of 600.
    EXPECT_EQ(
        sheets_with(laid, "Drawn at 44 % of its size to fit the sheet: scales stated in it do not hold.")
            .size(),
        1U);
}

}  // namespace fallwright::pdf
