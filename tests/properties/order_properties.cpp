#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "book/join.h"
#include "properties/answers.h"
#include "properties/transform.h"

namespace fallwright::properties {

namespace {

Draw any_draw() {
    return Draw(*rc::gen::noShrink(rc::gen::arbitrary<std::uint64_t>()).as("order"));
}

Wishes told() {
    Wishes wishes;
    wishes.told = true;
    return wishes;
}

void sort_rows(Json& rows) {
    if (!rows.is_array()) return;
    std::vector<Json> all(rows.begin(), rows.end());
    std::sort(all.begin(), all.end(), [](const Json& a, const Json& b) { return a.dump() < b.dump(); });
    rows = all;
}

// The answer with its rows in an order that does not depend on the book's. Pages and closures stand in the
// order of time and stay; of findings the sentences may list names in another order.
std::string sorted_rows(Json answer) {
    for (Json& line : answer["lines"]) {
        for (auto& [key, rows] : line.items()) sort_rows(rows);
    }
    for (Json& found : answer["findings"]) {
        found.erase("message");
        sort_rows(found["about"]);
    }
    for (const char* part : {"levels", "setups", "readings", "lines", "findings", "cautions"})
        sort_rows(answer[part]);
    return answer.dump();
}

}  // namespace

RC_GTEST_PROP(I05, OrderOfLinesChangesNoValue, ()) {
    const RandomBook book = any_book(told());
    Draw draw = any_draw();
    const Evaluation a = evaluated(book);
    const Evaluation b = evaluated(mixed(book, draw));
    RC_ASSERT(same_levels(levels_of(a), levels_of(b)));
    RC_ASSERT(a.model->summary.dof == b.model->summary.dof);
    RC_ASSERT(alike(a.model->summary.chi2, b.model->summary.chi2, 1e-7));
    RC_ASSERT(a.pages.pages.size() == b.pages.pages.size());
    RC_ASSERT(a.pages.closures.size() == b.pages.closures.size());
}

RC_GTEST_PROP(I13, NumbersAsPrintedDoNotDependOnTheOrderOfLines, ()) {
    const RandomBook book = any_book(told());
    Draw draw = any_draw();
    RC_ASSERT(sorted_rows(answer_json(book)) == sorted_rows(answer_json(mixed(book, draw))));
}

RC_GTEST_PROP(I06, ABookSplitInTwoAndJoinedGivesTheLevelsOfTheWhole, ()) {
    Wishes wishes;
    wishes.told = *rc::gen::arbitrary<bool>();
    const RandomBook book = any_book(wishes);
    std::vector<std::size_t> setups;
    for (std::size_t i = 0; i < book.lines.size(); ++i) {
        if (book.lines[i]["kind"] == "setup" && !book.lines[i].contains("head")) setups.push_back(i);
    }
    const std::size_t cut = *rc::gen::elementOf(setups);
    const auto at = [&](std::size_t i) { return book.lines.begin() + static_cast<std::ptrdiff_t>(i); };
    const RandomBook first{{book.lines.begin(), at(cut)}};
    RandomBook second{{book.lines.begin(), at(setups.front())}};
    second.lines.insert(second.lines.end(), at(cut), book.lines.end());
    const Result<std::string> joined = join_books({{"first", first.text()}, {"second", second.text()}});
    RC_ASSERT(static_cast<bool>(joined));
    RC_LOG(*joined);
    RC_ASSERT(same_levels(levels_of(evaluated(book)), levels_of(evaluated(*joined))));
}

RC_GTEST_PROP(I06, ABookJoinedWithItselfIsThatBook, ()) {
    Wishes wishes;
    wishes.told = *rc::gen::arbitrary<bool>();
    const std::string text = any_book(wishes).text();
    const Result<std::string> alone = join_books({{"book", text}});
    const Result<std::string> twice = join_books({{"book", text}, {"copy", text}});
    RC_ASSERT(static_cast<bool>(alone));
    RC_ASSERT(static_cast<bool>(twice));
    RC_ASSERT(*twice == *alone);
    const Result<std::string> again = join_books({{"joined", *alone}, {"book", text}});
    RC_ASSERT(static_cast<bool>(again));
    RC_ASSERT(*again == *alone);
    RC_ASSERT(same_levels(levels_of(evaluated(text)), levels_of(evaluated(*twice))));
}

RC_GTEST_PROP(I17, HowLinesEndAndWhatIsTornChangesNothingElse, ()) {
    const std::string text = any_book(told()).text();
    std::string other = "\xEF\xBB\xBF";
    for (const char c : text) other += c == '\n' ? std::string("\r\n") : std::string(1, c);
    other += "{\"kind\":\"reading\",\"point\":\"P1\",\"sta" + std::string(3, '\0');
    Json whole = Json::parse(answer_to(text));
    Json torn = Json::parse(answer_to(other));
    const auto is_torn = [](const Json& found) { return found["code"] == "torn-line"; };
    std::vector<Json> rest;
    for (const Json& found : torn["findings"]) {
        if (!is_torn(found)) rest.push_back(found);
    }
    RC_ASSERT(rest.size() + 1 == torn["findings"].size());
    torn["findings"] = rest;
    RC_ASSERT(torn == whole);
}

}  // namespace fallwright::properties
