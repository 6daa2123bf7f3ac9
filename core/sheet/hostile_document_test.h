// hostile_document_test: random documents with hostile texts, for tests. Inside sheet only.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "sheet/document.h"
#include "sheet/hostile_test.h"

namespace fallwright::sheet {

// Every text of a document that must be read somewhere in what is rendered, table cells one by one.
std::vector<std::string> texts_of(const Document& document);

inline Table random_table() {
    Table table;
    table.title = *hostile_text();
    const int columns = *rc::gen::inRange(1, 9), rows = *rc::gen::inRange(0, 6);
    for (int k = 0; k < columns; ++k) {
        table.columns.push_back(
            {*hostile_text(), static_cast<Align>(*rc::gen::inRange(0, 3)), *rc::gen::arbitrary<bool>()});
    }
    for (int j = 0; j < rows; ++j) {
        Table::Row row;
        for (int k = 0; k < columns; ++k) {
            row.cells.push_back({*hostile_text(), *rc::gen::arbitrary<bool>(), *rc::gen::arbitrary<bool>(),
                                 static_cast<Mark>(*rc::gen::inRange(0, 12)), Ink::Dig});
        }
        row.ruled = *rc::gen::arbitrary<bool>();
        table.rows.push_back(std::move(row));
    }
    return table;
}

inline Block random_block() {
    switch (*rc::gen::inRange(0, 8)) {
        case 0:
            return Heading{*rc::gen::inRange(1, 4), *hostile_text()};
        case 1:
            return Statement{*hostile_text(), static_cast<Tone>(*rc::gen::inRange(0, 5))};
        case 2:
            return List{*rc::gen::container<std::vector<std::string>>(hostile_text())};
        case 3:
            return Facts{{{*hostile_text(), *hostile_text()}, {*hostile_text(), ""}}};
        case 4:
            return random_table();
        case 5:
            return Drawn{random_figure()};
        case 6:
            return Signature{{*hostile_text(), *hostile_text()}};
        default:
            return PageBreak{};
    }
}

inline Document random_document() {
    Document document;
    document.title = *hostile_text();
    document.subject = *hostile_text();
    document.foot = *hostile_text();
    document.paper = *rc::gen::element(Paper::A4, Paper::Letter);
    const int count = *rc::gen::inRange(0, 10);
    for (int k = 0; k < count; ++k) document.blocks.push_back(random_block());
    return document;
}

}  // namespace fallwright::sheet
