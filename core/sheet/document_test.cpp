#include "sheet/document.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cctype>

#include "sheet/hostile_document_test.h"
#include "sheet/html_style.h"
#include "sheet/markup.h"
#include "sheet/render.h"
#include "sheet/table_fit.h"
#include "sheet/xml_check.h"

namespace fallwright::sheet {

namespace {

void add_texts(std::vector<std::string>& out, const Heading& heading) {
    out.push_back(heading.text);
}
void add_texts(std::vector<std::string>& out, const Statement& statement) {
    out.push_back(statement.text);
}
void add_texts(std::vector<std::string>& out, const List& list) {
    out.insert(out.end(), list.items.begin(), list.items.end());
}
void add_texts(std::vector<std::string>& out, const Facts& facts) {
    for (const Facts::Fact& fact : facts.facts) {
        out.push_back(fact.name);
        out.push_back(fact.value);
    }
}
void add_texts(std::vector<std::string>& out, const Table& table) {
    out.push_back(table.title);
    for (const Table::Column& column : table.columns) out.push_back(column.title);
    for (const Table::Row& row : table.rows) {
        for (const Cell& cell : row.cells) out.push_back(cell.text);
    }
}
void add_texts(std::vector<std::string>& out, const Drawn& drawn) {
    out.push_back(drawn.figure.title);
    out.push_back(drawn.figure.said);
}
void add_texts(std::vector<std::string>& out, const Signature& signature) {
    out.insert(out.end(), signature.under.begin(), signature.under.end());
}
void add_texts(std::vector<std::string>& /*out*/, const PageBreak& /*nothing*/) {}

// What is left when white space does not count: lines may break anywhere between words.
std::string letters_of(std::string_view text) {
    std::string plain, out;
    append_plain(plain, text);
    for (const char c : plain) {
        if (std::isspace(static_cast<unsigned char>(c)) == 0) out += c;
    }
    return out;
}

Document small_document() {
    Document document;
    document.title = "Back lane";
    document.subject = "Record of levels";
    document.foot = "Back lane; \"1f3a\"</style>";
    document.blocks = {
        Heading{1, "Levels"}, Statement{"deeper than 1.2 m", Tone::Caution},
        Facts{{{"Datum", "stated"}, {"Checked by", ""}}},
        Table{"As laid, lengths in m",
              {{"point", Align::Left, false}, {"level m", Align::Right, false}, {"why", Align::Left, true}},
              {{{{"S1"}, {"49.741"}, {"read once"}}, false},
               {{{"S2"}, {"9.8", true, true, Mark::DigWedge, Ink::Dig}, {""}}, true}}},
        Signature{{"name", "date"}}};
    return document;
}

std::size_t count_of(const std::string& text, std::string_view what) {
    std::size_t count = 0;
    for (std::size_t at = text.find(what); at != text.npos; at = text.find(what, at + 1)) ++count;
    return count;
}

}  // namespace

std::vector<std::string> texts_of(const Document& document) {
    std::vector<std::string> out{document.title, document.subject, document.foot};
    for (const Block& block : document.blocks) {
        std::visit([&](const auto& what) { add_texts(out, what); }, block);
    }
    return out;
}

TEST(Html, SaysWhatReadersNeed) {
    const std::string html = html_of(small_document());
    for (const char* part :
         {"<html lang=\"en-GB\">", "<meta charset=\"utf-8\">", "<title>Back lane</title>",
          "<meta name=\"viewport\"", "<h1>Back lane</h1>", "<h2 id=\"c1\">Levels</h2>",
          "<p class=\"caution\"><strong>Caution: </strong>deeper than 1.2 m</p>",
          "<dt>Datum</dt>\n<dd>stated</dd>", "<dd class=\"blank\">\xc2\xa0</dd>",
          "<p class=\"caption\" id=\"t1\">As laid, lengths in m</p>", "role=\"group\" aria-labelledby=\"t1\"",
          "<th scope=\"col\" class=\"r\">level m</th>",
          "<th scope=\"row\">S1</th><td class=\"r\">49.741</td><td class=\"w\">read once</td>",
          "<tr class=\"ruled\"><th scope=\"row\">S2</th><td class=\"r\"><svg", "<b class=\"s\">9.8</b>",
          "<p>name</p>", "<footer>Back lane; &quot;1f3a&quot;&lt;/style&gt;</footer>"}) {
        EXPECT_NE(html.find(part), html.npos) << part;
    }
    EXPECT_EQ(count_of(html, "</style>"), 1U);
}

TEST(Html, ChaptersAreLinkedWhereThereAreMany) {
    Document document;
    document.blocks.assign(3, Heading{1, "Falls"});
    EXPECT_EQ(html_of(document).find("<nav"), std::string::npos);
    document.blocks.emplace_back(Heading{1, "Who signs"});
    const std::string html = html_of(document);
    EXPECT_NE(html.find("<a href=\"#c4\">Who signs</a>"), html.npos);
    EXPECT_NE(html.find("<h2 id=\"c4\">"), html.npos);
}

TEST(Html, PagesAreOfTheDocumentsPaper) {
    Document document = small_document();
    EXPECT_NE(html_style(document).find("@page{size:210mm 297mm;margin:18mm"), std::string::npos);
    EXPECT_NE(html_style(document).find("@page turned{size:297mm 210mm"), std::string::npos);
    document.paper = Paper::Letter;
    EXPECT_NE(html_style(document).find("@page{size:215.9mm 279.4mm"), std::string::npos);
    EXPECT_NE(
        html_style(document).find("content:\"Back\\000020lane\\00003b\\000020\\0000221f3a\\000022\\00003c"),
        std::string::npos);
}

TEST(Html, WideFiguresAndTablesTurnTheirPage) {
    Document document;
    Figure figure;
    figure.width = 174;
    figure.height = 100;
    document.blocks = {Drawn{figure}};
    EXPECT_NE(html_of(document).find("<figure>"), std::string::npos);
    figure.width = 174.5;
    document.blocks = {Drawn{figure}};
    EXPECT_NE(html_of(document).find("<figure class=\"turned\">"), std::string::npos);
}

RC_GTEST_PROP(Html, AnyDocumentIsBalancedSafeAndComplete, ()) {
    const Document document = random_document();
    const std::string html = html_of(document);
    const XmlSeen seen = read_xml(html, true);
    RC_ASSERT(seen.trouble == std::string());
    for (const std::string& text : texts_of(document)) {
        const std::string wanted = letters_of(text);
        RC_ASSERT(std::any_of(seen.texts.begin(), seen.texts.end(),
                              [&](const std::string& each) { return letters_of(each) == wanted; }) ||
                  wanted.empty());
    }
    for (const char* active :
         {"script", "iframe", "link", "object", "img", "image", "form", "input", "base"}) {
        RC_ASSERT(std::find(seen.tags.begin(), seen.tags.end(), active) == seen.tags.end());
    }
    RC_ASSERT(std::count(seen.tags.begin(), seen.tags.end(), "style") == 1);
    RC_ASSERT(std::count(seen.tags.begin(), seen.tags.end(), "h1") == 1);
    const std::string style = html_style(document);
    RC_ASSERT(style.find("url(") == style.npos && style.find("@import") == style.npos);
}

TEST(Text, IsReadByPeople) {
    Document document = small_document();
    document.foot = "";
    EXPECT_EQ(text_of(document),
              "Back lane\n"
              "=========\n"
              "Record of levels\n"
              "\n"
              "## Levels\n"
              "\n"
              "Caution: deeper than 1.2 m\n"
              "\n"
              "Datum:       stated\n"
              "Checked by:  ________________________\n"
              "\n"
              "As laid, lengths in m\n"
              "\n"
              "point  level m  why\n"
              "-----  -------  ---------\n"
              "S1      49.741  read once\n"
              "S2         9.8\n"
              "\n"
              "________________________________________  name\n"
              "\n"
              "________________________________________  date\n");
}

TEST(Text, LongTextWrapsInItsColumn) {
    Document document;
    Table table{"", {{"at", Align::Right, false}, {"why", Align::Left, true}}, {}};
    table.rows.push_back(
        {{{"1.000"}, {"read twice from S3, the two agree within 1.2 mm, so the pipe is out"}}, false});
    document.blocks = {table};
    EXPECT_NE(text_of(document).find("1.000  read twice from S3, the two agree within 1.2\n"
                                     "       mm, so the pipe is out\n"),
              std::string::npos);
}

RC_GTEST_PROP(Text, AnyDocumentIsCompleteAndHasNoControlCharacters, ()) {
    const Document document = random_document();
    const std::string text = text_of(document), letters = letters_of(text);
    for (const char c : text) RC_ASSERT(static_cast<unsigned char>(c) >= 0x20 || c == '\n');
    RC_ASSERT(text.empty() || text.back() == '\n');
    std::vector<std::string> words = texts_of(document);
    for (const std::string& each : words) {
        std::string plain;
        append_plain(plain, each);
        // Cells of one row stand beside each other line by line: word by word is what can be asked.
        for (std::size_t at = 0; at < plain.size();) {
            const std::size_t end = std::min(plain.find(' ', at), plain.size());
            RC_ASSERT(letters.find(letters_of(plain.substr(at, end - at))) != letters.npos);
            at = end + 1;
        }
    }
}

TEST(TableFit, TakesTheLargestTypeThatFits) {
    Table table;
    const auto with_columns = [&](std::size_t count) {
        table.columns.assign(count, {"level m", Align::Right, false});
        table.rows = {{std::vector<Cell>(count, {"1234.567"}), false}};
        return fit_of(table, size_of(Paper::A4));
    };
    EXPECT_EQ(with_columns(6).size, table_sizes[0]);
    EXPECT_FALSE(with_columns(6).turned);
    EXPECT_EQ(with_columns(13).size, table_sizes[2]);
    EXPECT_TRUE(with_columns(16).turned);
    EXPECT_EQ(with_columns(16).size, table_sizes[0]);
    EXPECT_FALSE(with_columns(60).fits);
    double sum = 0;
    for (const double width : with_columns(60).widths) sum += width;
    EXPECT_NEAR(sum, 297 - 36, 1e-9);
    EXPECT_TRUE(with_columns(0).widths.empty());
}

TEST(TableFit, LongTextTakesWhatIsLeft) {
    Table table{"", {{"at", Align::Right, false}, {"why", Align::Left, true}}, {}};
    std::string text = "a slip";
    for (int k = 0; k < 60; ++k) text += " of many words";
    table.rows.push_back({{{"1.000"}, {text}}, false});
    const TableFit fit = fit_of(table, size_of(Paper::A4));
    EXPECT_NEAR(fit.widths[0] + fit.widths[1], 174, 1e-9);
    EXPECT_LT(fit.widths[0], 15);
    EXPECT_FALSE(fit.turned);
}

RC_GTEST_PROP(TableFit, NeverWiderThanItsSheet, ()) {
    const Table table = random_table();
    const Paper paper = *rc::gen::element(Paper::A4, Paper::Letter);
    const TableFit fit = fit_of(table, size_of(paper));
    double sum = 0;
    for (const double width : fit.widths) sum += width;
    RC_ASSERT(fit.widths.size() == table.columns.size());
    RC_ASSERT(sum <= (fit.turned ? size_of(paper).height : size_of(paper).width) - 36 + 1e-9);
}

}  // namespace fallwright::sheet
