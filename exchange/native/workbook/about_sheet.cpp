#include "exchange/native/workbook/sheets.h"

namespace fallwright::workbook {

namespace {

std::string joined(const std::vector<std::string>& names) {
    std::string all;
    for (const std::string& name : names) all += (all.empty() ? "" : ", ") + name;
    return all;
}

void line(Sheet& sheet, std::string_view name, std::string_view about, std::string_view text) {
    constexpr std::size_t wide = 90;
    sheet.paragraph(2, text, wide);
    sheet.text(0, name, Style::Wrapped);
    sheet.text(1, about, Style::Wrapped);
    sheet.next_row();
}

}  // namespace

std::vector<Head> about_heads() {
    return {{"What", false}, {"About", false}, {"In words", false}};
}

void write_about(const Evaluation& evaluation, const std::vector<Fact>& facts, Sheet& sheet) {
    for (const Fact& fact : facts) line(sheet, fact.name, "", fact.text);
    for (const UsedPreset& used : evaluation.presets)
        line(sheet, "rests on", used.name, used.source + ", " + used.edition);
    for (const Finding& found : evaluation.findings)
        line(sheet, severity_word(catalogue(found.code).severity), joined(found.about),
             found.message + "; " + found.cure);
    for (const Caution& caution : evaluation.cautions.all)
        line(sheet, "caution", joined(caution.about), caution.text);
}

}  // namespace fallwright::workbook
