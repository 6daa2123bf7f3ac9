#include "record/writer.h"

#include <cassert>
#include <cmath>

#include "base/print.h"

namespace fallwright::record {

namespace {

constexpr int fine_places = 4;

}  // namespace

Rows::Rows(std::string title, std::vector<sheet::Table::Column> columns) {
    table_.title = std::move(title);
    table_.columns = std::move(columns);
}

void Rows::add(std::vector<std::string> cells) {
    std::vector<sheet::Cell> row;
    row.reserve(cells.size());
    for (std::string& text : cells) row.push_back({std::move(text)});
    add_cells(std::move(row));
}

void Rows::add_cells(std::vector<sheet::Cell> cells) {
    assert(cells.size() == table_.columns.size());
    table_.rows.push_back({std::move(cells), false});
}

void Rows::rule() {
    if (!table_.rows.empty()) table_.rows.back().ruled = true;
}

Rows Rows::beside(Rows left, Rows right) {
    sheet::Table& table = left.table_;
    const std::size_t width = table.columns.size();
    for (sheet::Table::Column& column : right.table_.columns) table.columns.push_back(std::move(column));
    table.rows.resize(std::max(table.rows.size(), right.table_.rows.size()));
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        std::vector<sheet::Cell>& cells = table.rows[i].cells;
        cells.resize(width);
        if (i < right.table_.rows.size()) {
            for (sheet::Cell& cell : right.table_.rows[i].cells) cells.push_back(std::move(cell));
        }
        cells.resize(table.columns.size());
    }
    return left;
}

sheet::Table Rows::take() && {
    for (std::size_t column = table_.columns.size(); column-- > 0;) {
        bool any = false;
        for (const sheet::Table::Row& row : table_.rows) any = any || !row.cells[column].text.empty();
        if (any) continue;
        const auto place = static_cast<std::ptrdiff_t>(column);
        table_.columns.erase(table_.columns.begin() + place);
        for (sheet::Table::Row& row : table_.rows) row.cells.erase(row.cells.begin() + place);
    }
    return std::move(table_);
}

sheet::Table::Column words_column(std::string title) {
    return {std::move(title), sheet::Align::Left, false};
}

sheet::Table::Column text_column(std::string title) {
    return {std::move(title), sheet::Align::Left, true};
}

sheet::Table::Column figure_column(std::string title) {
    return {std::move(title), sheet::Align::Right, false};
}

sheet::Cell verdict_cell(const Judgement& judged, double deviation) {
    if (judged.verdict == Verdict::Untested) return {};
    sheet::Cell cell{said(judged.verdict)};
    cell.has_mark = true;
    switch (judged.verdict) {
        case Verdict::Outside:
            cell.strong = true;
            cell.mark = deviation < 0 ? sheet::Mark::FillWedge : sheet::Mark::DigWedge;
            cell.ink = deviation < 0 ? sheet::Ink::Fill : sheet::Ink::Dig;
            break;
        case Verdict::Undecided:
            cell.mark = sheet::Mark::Undecided;
            break;
        default:
            cell.mark = sheet::Mark::OnBar;
            break;
    }
    return cell;
}

void Writer::heading(int depth, std::string text) {
    while (!due_.empty() && due_.back().depth >= depth) due_.pop_back();
    due_.push_back({depth, std::move(text)});
}

void Writer::add(sheet::Block block) {
    for (sheet::Heading& heading : due_) blocks_.emplace_back(std::move(heading));
    due_.clear();
    blocks_.push_back(std::move(block));
}

void Writer::say(std::string text, sheet::Tone tone) {
    if (!text.empty()) add(sheet::Statement{std::move(text), tone});
}

void Writer::list(std::vector<std::string> items) {
    if (!items.empty()) add(sheet::List{std::move(items)});
}

void Writer::facts(std::vector<sheet::Facts::Fact> facts) {
    if (!facts.empty()) add(sheet::Facts{std::move(facts)});
}

void Writer::table(Rows rows) {
    if (rows.empty()) return;
    sheet::Table table = std::move(rows).take();
    const std::size_t all = table.rows.size();
    if (all > most_rows) table.rows.resize(most_rows);
    add(std::move(table));
    if (all > most_rows)
        say("The first " + std::to_string(most_rows) + " of " + std::to_string(all) +
            " rows; the book has them all.");
}

void Writer::figures(std::vector<sheet::Figure> figures) {
    for (sheet::Figure& figure : figures) add(sheet::Drawn{std::move(figure)});
}

Room Writer::upright() const {
    constexpr double heading = 22;
    const sheet::PaperSize size = sheet::size_of(paper_);
    return {size.width - 2 * size.margin, size.height - 2 * size.margin - heading};
}

Room Writer::turned() const {
    constexpr double title = 12;
    const sheet::PaperSize size = sheet::size_of(paper_);
    return {size.height - 2 * size.margin, size.width - 2 * size.margin - title};
}

void Writer::signature(std::vector<std::string> under) {
    add(sheet::Signature{std::move(under)});
}

void Writer::page_break() {
    if (!blocks_.empty()) blocks_.emplace_back(sheet::PageBreak{});
}

std::string Writer::mm(double metres) const {
    return small(std::fabs(metres), unit) + " " + small_unit(unit);
}

std::string Writer::fine(double metres) const {
    return std::isnan(metres) ? "" : fixed(book.in_unit(metres), fine_places);
}

std::string Writer::signed_fine(double metres) const {
    const std::string text = fine(metres);
    const bool above = !text.empty() && rounded_to(book.in_unit(metres), fine_places) > 0;
    return above ? "+" + text : text;
}

}  // namespace fallwright::record
