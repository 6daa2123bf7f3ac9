#include <algorithm>

#include "exchange/native/pdf/blocks.h"
#include "sheet/table_fit.h"

namespace fallwright::pdf {

namespace {

using sheet::Align;
using sheet::cell_padding;

constexpr double over_row = 0.55;  // and under it
constexpr double caption_gap = 1.2;

struct Column {
    double x, width;
};

// One table on its way onto the sheets.
class Placing {
  public:
    Placing(Flow& flow, const sheet::Table& table)
        : flow_(flow), table_(table), fit_(sheet::fit_of(table, flow.paper())), style_{fit_.size, false} {
        double x = flow.left();
        for (const double width : fit_.widths) {
            columns_.push_back({x, width});
            x += width;
        }
        right_ = x;
        for (const sheet::Table::Column& column : table.columns) {
            titles_.push_back(
                flow.type().lines(flow.clean(column.title), style_.size, true, room(titles_.size())));
            title_lines_ = std::max(title_lines_, titles_.back().size());
        }
    }

    bool turned() const { return fit_.turned; }
    double lead() {
        double height = caption_height() + head_height();
        for (std::size_t k = 0; k < std::min<std::size_t>(table_.rows.size(), 2); ++k)
            height += lines_of(table_.rows[k]).height;
        return height;
    }

    void place() {
        flow_.need(std::min(lead(), flow_.height()));
        caption(table_.title, "");
        head();
        const std::size_t count = table_.rows.size();
        for (std::size_t k = 0; k < count; ++k) {
            const Row row = lines_of(table_.rows[k]);
            // The last row takes the one before it along rather than go on alone.
            const double wish =
                k + 2 == count ? row.height + lines_of(table_.rows[k + 1]).height : row.height;
            if (flow_.room() < wish && rows_here_ > 0) go_on();
            put_parts(table_.rows[k], row, k + 1 == count);
        }
        if (count == 0) flow_.down(over_row);
        flow_.gap(3);
    }

  private:
    struct Row {
        std::vector<std::vector<std::string_view>> cells;
        std::size_t lines = 1;  // of its longest cell
        double height = 0;
    };

    double room(std::size_t column) const { return columns_[column].width - 2 * cell_padding; }
    double mark_width() const { return sheet::mark_room * style_.size; }
    double height_of(std::size_t lines) const {
        return static_cast<double>(lines) * style_.leading() + 2 * over_row;
    }
    double head_height() const { return height_of(title_lines_) + 0.3; }
    double caption_height() const {
        return table_.title.empty() ? 0
                                    : static_cast<double>(caption_lines_) * strong.leading() + caption_gap;
    }

    void caption(std::string_view title, std::string_view more) {
        if (title.empty()) return;
        const std::string_view text = more.empty()
                                          ? flow_.clean(title)
                                          : flow_.clean(flow_.keep(std::string(title) + std::string(more)));
        const Style style = more.empty() ? strong : small_strong;
        const auto lines = flow_.type().lines(text, style.size, true, flow_.width());
        caption_lines_ = lines.size();
        flow_.lines(lines, flow_.left(), style);
        flow_.down(caption_gap);
    }

    void head() {
        const double top = flow_.y();
        flow_.rule(flow_.left(), right_, top, 0.35);
        for (std::size_t k = 0; k < titles_.size(); ++k) {
            const double above = static_cast<double>(title_lines_ - titles_[k].size()) * style_.leading();
            cell(k, titles_[k], top + over_row + above, true, 0);
        }
        flow_.down(head_height());
        flow_.rule(flow_.left(), right_, flow_.y(), 0.35);
        rows_here_ = 0;
    }

    void go_on() {
        flow_.rule(flow_.left(), right_, flow_.y(), 0.25);
        flow_.next_sheet(flow_.turned());
        caption(table_.title, " (continued)");
        head();
    }

    Row lines_of(const sheet::Table::Row& row) {
        Row out;
        std::size_t most = 1;
        for (std::size_t k = 0; k < table_.columns.size() && k < row.cells.size(); ++k) {
            const sheet::Cell& cell = row.cells[k];
            const std::string_view text = flow_.clean(cell.text);
            const double width = room(k) - (cell.has_mark ? mark_width() : 0);
            // One line where it fits, or where it was promised to: the guess of the widths is a generous one.
            const bool whole = !table_.columns[k].wraps && fit_.fits &&
                               flow_.type().width(text, style_.size, cell.strong) <= width + 2 * cell_padding;
            out.cells.push_back(
                whole ? std::vector<std::string_view>{text}
                      : flow_.type().lines(text, style_.size, cell.strong, std::max(width, style_.size)));
            most = std::max(most, out.cells.back().size());
        }
        out.lines = most;
        out.height = height_of(most);
        return out;
    }

    void cell(std::size_t k, const std::vector<std::string_view>& lines, double top, bool bold,
              double indent) {
        const Align align = table_.columns[k].align;
        double y = top + style_.drop();
        for (const std::string_view line : lines) {
            const double spare = align == Align::Left || line.empty()
                                     ? 0
                                     : room(k) - indent - flow_.type().width(line, style_.size, bold);
            const double x =
                columns_[k].x + cell_padding + indent + (align == Align::Centre ? spare / 2 : spare);
            const Setting setting = table_.columns[k].wraps ? Setting::Fine : Setting::Quick;
            if (!line.empty()) flow_.put(Words{{x, y}, line, style_.size, bold, setting});
            y += style_.leading();
        }
    }

    // A row that is longer than a sheet goes on under a further head.
    void put_parts(const sheet::Table::Row& row, const Row& lines, bool last) {
        const double left = flow_.height() - caption_height() - head_height() - 2 * over_row;
        const auto full = static_cast<std::size_t>(std::max(1.0, left / style_.leading()));
        for (std::size_t begin = 0; begin < lines.lines; begin += full) {
            if (begin > 0) go_on();
            if (lines.lines <= full) return put(row, lines, last);
            Row part;
            for (const auto& cell : lines.cells) {
                const auto at = [&](std::size_t k) {
                    return cell.begin() + static_cast<std::ptrdiff_t>(std::min(k, cell.size()));
                };
                part.cells.emplace_back(at(begin), at(begin + full));
            }
            part.lines = std::min(full, lines.lines - begin);
            part.height = height_of(part.lines);
            put(row, part, last);
        }
    }

    void put(const sheet::Table::Row& row, const Row& lines, bool last) {
        const double top = flow_.y() + over_row;
        for (std::size_t k = 0; k < lines.cells.size(); ++k) {
            const sheet::Cell& cell = row.cells[k];
            if (cell.has_mark)
                flow_.put(CellMark{&cell,
                                   {columns_[k].x + cell_padding, top + style_.drop() - 0.8 * style_.size},
                                   0.85 * style_.size});
            this->cell(k, lines.cells[k], top, cell.strong, cell.has_mark ? mark_width() : 0);
        }
        flow_.down(lines.height);
        const bool ruled = row.ruled || last;
        flow_.rule(flow_.left(), right_, flow_.y(), ruled ? 0.25 : 0.1,
                   ruled ? sheet::Ink::Line : sheet::Ink::Faint);
        ++rows_here_;
    }

    Flow& flow_;
    const sheet::Table& table_;
    sheet::TableFit fit_;
    Style style_;
    std::vector<Column> columns_;
    double right_ = 0;
    std::vector<std::vector<std::string_view>> titles_;
    std::size_t title_lines_ = 1, caption_lines_ = 1, rows_here_ = 0;
};

}  // namespace

double lead_of(Flow& flow, const sheet::Table& table) {
    return Placing(flow, table).lead();
}

bool turns(Flow& flow, const sheet::Table& table) {
    return sheet::fit_of(table, flow.paper()).turned;
}

void place(Flow& flow, const sheet::Table& table) {
    Placing(flow, table).place();
}

}  // namespace fallwright::pdf
