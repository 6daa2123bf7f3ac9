// random_document_test: documents of all kinds of blocks with texts that are hard to set, for tests. Inside
// pdf only.
#pragma once

#include <rapidcheck.h>

#include <string>
#include <utility>
#include <vector>

#include "sheet/document.h"

namespace fallwright::pdf {

inline rc::Gen<std::string> hard_text() {
    return rc::gen::join(rc::gen::element(
        rc::gen::element<std::string>("", "1.432", "+18.1 \xc2\xb1 2.0", "too close to call", "a\nb\tc",
                                      "\xff\xfe", "\xe2\x82\xac \xe2\x88\x92 5",
                                      "\xd7\xa9\xd7\x9c\xd7\x95\xd7\x9d", "\xe4\xb8\xad\xe6\x96\x87",
                                      "\xe2\x80\xa8", std::string(400, 'm'), "(parenthesis) \\ <b>"),
        rc::gen::map(rc::gen::inRange(1, 300), [](int words) {
            std::string text = "word";
            for (int k = 1; k < words; ++k) text += " and the next one";
            return text;
        })));
}

inline sheet::Table random_table() {
    sheet::Table table;
    table.title = *rc::gen::element<std::string>("", "Levels as laid, lengths in m");
    const int columns = *rc::gen::inRange(1, 15), rows = *rc::gen::inRange(0, 90);
    for (int k = 0; k < columns; ++k) {
        table.columns.push_back({"level m", static_cast<sheet::Align>(k % 3), k == 2});
    }
    for (int j = 0; j < rows; ++j) {
        sheet::Table::Row row;
        for (int k = 0; k < columns; ++k)
            row.cells.push_back({"49." + std::to_string(100 * j + k), j % 7 == 3, k == 1});
        row.ruled = j % 10 == 9;
        table.rows.push_back(std::move(row));
    }
    if (rows > 0 && columns > 2) table.rows.front().cells[2].text = *hard_text();
    return table;
}

inline sheet::Figure random_figure() {
    sheet::Figure figure{
        *hard_text(), *hard_text(), 1.0 * *rc::gen::inRange(5, 400), 1.0 * *rc::gen::inRange(5, 400), {}};
    sheet::Label label;
    label.at = {1, 4};
    label.text = *hard_text();
    figure.items = {{label, ""}};
    return figure;
}

inline sheet::Block random_block() {
    switch (*rc::gen::inRange(0, 9)) {
        case 0:
        case 1:
            return sheet::Heading{*rc::gen::inRange(1, 4), *hard_text()};
        case 2:
            return sheet::Statement{*hard_text(), static_cast<sheet::Tone>(*rc::gen::inRange(0, 5))};
        case 3:
            return sheet::List{{*hard_text(), *hard_text()}};
        case 4:
            return sheet::Facts{{{*hard_text(), *hard_text()}, {"Checked by", ""}}};
        case 5:
            return random_table();
        case 6:
            return sheet::Drawn{random_figure()};
        case 7:
            return sheet::Signature{
                {"name", "signed for the contractor, who has read the cautions", "\xe4\xb8\xad"}};
        default:
            return sheet::PageBreak{};
    }
}

inline sheet::Document random_document() {
    sheet::Document document;
    document.title = *hard_text();
    document.subject = *hard_text();
    document.foot = *hard_text();
    document.paper = *rc::gen::element(sheet::Paper::A4, sheet::Paper::Letter);
    const int count = *rc::gen::inRange(0, 14);
    for (int k = 0; k < count; ++k) document.blocks.push_back(random_block());
    return document;
}

}  // namespace fallwright::pdf
