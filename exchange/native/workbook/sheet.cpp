#include "exchange/native/workbook/sheet.h"

#include <algorithm>
#include <cmath>

namespace fallwright::workbook {

namespace {

constexpr std::size_t longest_text = 8000;    // bytes; a cell takes 32767 characters
constexpr std::size_t longest_in_head = 100;  // bytes; head and foot of a page take 255 characters together
constexpr std::size_t narrowest = 8, widest = 44;
constexpr int a4 = 9, us_letter = 1;
constexpr double line_height = 15;  // points
constexpr lxw_color_t head_fill = 0xECECEC;

bool inside_character(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0) == 0x80;
}

std::size_t characters_in(std::string_view text) {
    return text.size() - static_cast<std::size_t>(std::count_if(text.begin(), text.end(), inside_character));
}

std::size_t longest_word(std::string_view text) {
    std::size_t longest = 0;
    while (!text.empty()) {
        const std::size_t blank = text.find(' ');
        longest = std::max(longest, characters_in(text.substr(0, blank)));
        text = blank == std::string_view::npos ? std::string_view() : text.substr(blank + 1);
    }
    return longest;
}

// How many lines words take in a column so many characters wide.
std::size_t lines_of(std::string_view text, std::size_t width) {
    std::size_t lines = 1, room = width;
    while (!text.empty()) {
        const std::size_t blank = text.find(' ');
        const std::size_t word = characters_in(text.substr(0, blank));
        if (word > room) {
            lines += std::max<std::size_t>(1, word / width);
            room = width;
        }
        room -= std::min(room, word + 1);
        text = blank == std::string_view::npos ? std::string_view() : text.substr(blank + 1);
    }
    return lines;
}

// & begins a code in heads and feet of pages.
std::string for_head(std::string_view text) {
    std::string made;
    for (const char letter : cut(text, longest_in_head)) {
        if (static_cast<unsigned char>(letter) < ' ') continue;
        made += letter;
        if (letter == '&') made += '&';
    }
    return made;
}

}  // namespace

std::string cut(std::string_view text, std::size_t bytes) {
    if (text.size() <= bytes) return std::string(text);
    while (bytes > 0 && inside_character(text[bytes])) --bytes;
    return std::string(text.substr(0, bytes)) + "...";
}

std::string shown_with(int places) {
    return places <= 0 ? "0" : "0." + std::string(static_cast<std::size_t>(places), '0');
}

std::string cell_name(std::size_t column, std::size_t row) {
    return std::string(1, static_cast<char>('A' + column)) + std::to_string(row + 1);
}

lxw_format* Formats::made(Style style, const std::string& shown) {
    lxw_format*& format = formats_[{style, shown}];
    if (format != nullptr) return format;
    format = workbook_add_format(book_);
    const bool head = style == Style::Head || style == Style::HeadRight;
    if (style != Style::Plain && style != Style::Wrapped) format_set_bold(format);
    if (style == Style::Ruled) format_set_top(format, LXW_BORDER_THIN);
    if (head) {
        format_set_bottom(format, LXW_BORDER_THIN);
        format_set_bg_color(format, head_fill);
    }
    if (head || style == Style::Wrapped) {
        format_set_text_wrap(format);
        format_set_align(format, LXW_ALIGN_VERTICAL_TOP);
    }
    if (style == Style::HeadRight || style == Style::StrongRight) format_set_align(format, LXW_ALIGN_RIGHT);
    // Words keep off the number before them.
    if (shown.empty() && (style == Style::Plain || style == Style::Head)) format_set_indent(format, 1);
    if (!shown.empty()) format_set_num_format(format, shown.c_str());
    return format;
}

Sheet::Sheet(lxw_workbook* book, Formats& formats, const char* name, const std::vector<Head>& heads)
    : sheet_(workbook_add_worksheet(book, name)), formats_(formats), widths_(heads.size(), narrowest) {
    std::size_t lines = 1;
    for (std::size_t column = 0; column < heads.size(); ++column) {
        const Head& head = heads[column];
        widen(column, longest_word(head.text));
        lines = std::max(lines, lines_of(head.text, widths_[column]));
    }
    worksheet_set_row(sheet_, 0, static_cast<double>(lines) * line_height, nullptr);
    for (std::size_t column = 0; column < heads.size(); ++column)
        worksheet_write_string(sheet_, 0, static_cast<lxw_col_t>(column), heads[column].text.c_str(),
                               formats_.text(heads[column].number ? Style::HeadRight : Style::Head));
    worksheet_freeze_panes(sheet_, 1, 1);
    worksheet_repeat_rows(sheet_, 0, 0);
    next_row();
}

void Sheet::widen(std::size_t column, std::size_t characters) {
    widths_[column] = std::clamp(characters, widths_[column], widest);
}

void Sheet::text(std::size_t column, std::string_view text, Style style) {
    if (full() || text.empty()) return;
    if (style != Style::Strong && style != Style::StrongRight) widen(column, characters_in(text) + 1);
    worksheet_write_string(sheet_, at(), static_cast<lxw_col_t>(column), cut(text, longest_text).c_str(),
                           formats_.text(style));
}

void Sheet::paragraph(std::size_t column, std::string_view text, std::size_t width) {
    if (full()) return;
    widths_[column] = width;
    const std::string words = cut(text, longest_text);
    worksheet_set_row(sheet_, at(), static_cast<double>(lines_of(words, width)) * line_height, nullptr);
    worksheet_write_string(sheet_, at(), static_cast<lxw_col_t>(column), words.c_str(),
                           formats_.text(Style::Wrapped));
}

void Sheet::number(std::size_t column, double value, const std::string& shown, Style style) {
    if (full() || !std::isfinite(value)) return;
    constexpr std::size_t room = 5;  // digits before the point, and the sign
    widen(column, shown.size() + room);
    worksheet_write_number(sheet_, at(), static_cast<lxw_col_t>(column), value,
                           formats_.number(style, shown));
}

void Sheet::formula(std::size_t column, const std::string& formula, double value, const std::string& shown,
                    Style style) {
    if (full()) return;
    worksheet_write_formula_num(sheet_, at(), static_cast<lxw_col_t>(column), formula.c_str(),
                                formats_.number(style, shown), value);
}

void Sheet::formula(std::size_t column, const std::string& formula, const std::string& value,
                    const std::string& shown, Style style) {
    if (full()) return;
    worksheet_write_formula_str(sheet_, at(), static_cast<lxw_col_t>(column), formula.c_str(),
                                formats_.number(style, shown), value.c_str());
}

void Sheet::blank(std::size_t column, Style style) {
    if (full()) return;
    worksheet_write_blank(sheet_, at(), static_cast<lxw_col_t>(column), formats_.text(style));
}

void Sheet::choose_rows() {
    if (row_ < 2) return;
    const std::size_t last = std::min<std::size_t>(row_, LXW_ROW_MAX) - 1;
    worksheet_autofilter(sheet_, 0, 0, static_cast<lxw_row_t>(last),
                         static_cast<lxw_col_t>(widths_.size() - 1));
}

void Sheet::finish(const std::string& title, const std::string& foot, bool letter) {
    for (std::size_t column = 0; column < widths_.size(); ++column) {
        constexpr double beside = 1.5;  // the arrow, and room between columns
        worksheet_set_column(sheet_, static_cast<lxw_col_t>(column), static_cast<lxw_col_t>(column),
                             static_cast<double>(widths_[column]) + beside, nullptr);
    }
    worksheet_set_landscape(sheet_);
    worksheet_set_paper(sheet_, static_cast<std::uint8_t>(letter ? us_letter : a4));
    worksheet_fit_to_pages(sheet_, 1, 0);
    worksheet_set_header(sheet_, ("&L" + for_head(title) + "&R&A").c_str());
    worksheet_set_footer(sheet_, ("&L" + for_head(foot) + "&R&P / &N").c_str());
}

}  // namespace fallwright::workbook
