#include "shells/cli/people_page.h"

#include "shells/cli/table.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

namespace {

Table page_table() {
    return Table({{"back"},
                  {"inter"},
                  {"fore"},
                  {"rise"},
                  {"fall"},
                  {"collimation"},
                  {"level"},
                  {"adjusted"},
                  {"point", Align::Left},
                  {"set-up", Align::Left},
                  {"remark", Align::Left}});
}

std::string page_text(const Evaluation& evaluation, const Page& page) {
    const Book& book = *evaluation.book;
    Table table = page_table();
    for (const PageRow& row : page.rows) {
        table.add({level(row.back, book.unit), level(row.inter, book.unit), level(row.fore, book.unit),
                   level(row.rise, book.unit), level(row.fall, book.unit), level(row.collimation, book.unit),
                   level(row.level.metres(), book.unit), level(row.adjusted, book.unit),
                   book.name(book.readings[row.reading].point),
                   book.name(book.setups[static_cast<std::size_t>(row.setup)].name),
                   std::string(page.sloped ? "" : remark_of(page, row))});
    }
    if (page.sloped) return table.text();
    table.rule();
    const auto sum = [&](Decimal value) { return level(value.metres(), book.unit); };
    table.add({sum(page.sum_back), "", sum(page.sum_fore), sum(page.sum_rise), sum(page.sum_fall), "", "", "",
               "", "", ""});
    return table.text() + "  " + page_check(page, book.unit) + "\n";
}

}  // namespace

std::string pages_text(const Evaluation& evaluation) {
    std::string text;
    for (const Page& page : evaluation.pages.pages) {
        text += page.sloped ? "\nSloped plane (collimation: the plane's level here, as dialled; no sums)\n"
                            : "\nBooked page\n";
        text += page_text(evaluation, page);
    }
    return text;
}

}  // namespace fallwright::cli
