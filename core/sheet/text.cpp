#include <algorithm>
#include <cstddef>
#include <string_view>
#include <variant>

#include "sheet/markup.h"
#include "sheet/render.h"

namespace fallwright::sheet {

namespace {

constexpr std::size_t line_width = 100, column_of_text = 44;

// Characters, not bytes.
std::size_t length_of(std::string_view text) {
    std::size_t count = 0;
    for (std::size_t at = 0; at < text.size(); ++count) next_character(text, at);
    return count;
}

// Broken between words; a word longer than the width stays whole. One empty line for no text.
std::vector<std::string> wrapped(std::string_view text, std::size_t width) {
    std::string plain;
    append_plain(plain, text);
    std::vector<std::string> lines{""};
    std::string_view rest = plain;
    while (!rest.empty()) {
        const std::size_t end = std::min(rest.find(' '), rest.size());
        const std::string_view word = rest.substr(0, end);
        rest.remove_prefix(std::min(end + 1, rest.size()));
        if (word.empty()) continue;
        std::string& line = lines.back();
        if (line.empty()) {
            line = word;
        } else if (length_of(line) + 1 + length_of(word) <= width) {
            (line += ' ') += word;
        } else {
            lines.emplace_back(word);
        }
    }
    return lines;
}

// A table's cells as lines of text, a vector for each column.
using Lines = std::vector<std::vector<std::string>>;

class Text {
  public:
    std::string take() {
        // Blocks end with a blank line; the document needs none after the last.
        while (out_.size() > 1 && out_[out_.size() - 2] == '\n') out_.pop_back();
        return std::move(out_);
    }

    void title(const Document& document) {
        for (const std::string& line : wrapped(document.title, line_width)) out_ += line + "\n";
        out_.append(std::min(length_of(document.title), line_width), '=');
        out_ += "\n";
        if (!document.subject.empty()) paragraph(document.subject);
        out_ += "\n";
    }
    void foot(const std::string& foot) {
        if (foot.empty()) return;
        write(PageBreak{});
        paragraph(foot);
    }

    void write(const Heading& heading) {
        out_.append(static_cast<std::size_t>(std::clamp(heading.depth, 1, 3)) + 1, '#');
        out_ += ' ';
        append_plain(out_, heading.text);
        out_ += "\n\n";
    }
    void write(const Statement& statement) {
        paragraph(word_before(statement) + statement.text);
        out_ += "\n";
    }
    void write(const List& list) {
        for (const std::string& item : list.items) hanging("- ", item);
        if (!list.items.empty()) out_ += "\n";
    }
    void write(const Facts& facts) {
        std::size_t widest = 0;
        for (const Facts::Fact& fact : facts.facts) widest = std::max(widest, length_of(fact.name));
        for (const Facts::Fact& fact : facts.facts) {
            std::string name;
            append_plain(name, fact.name);
            name += ':';
            name.append(widest - length_of(fact.name) + 2, ' ');
            hanging(name, fact.value.empty() ? std::string(24, '_') : fact.value);
        }
        if (!facts.facts.empty()) out_ += "\n";
    }
    void write(const Drawn& drawn) {
        paragraph("[" + drawn.figure.title + "] " + drawn.figure.said);
        out_ += "\n";
    }
    void write(const Signature& signature) {
        for (const std::string& under : signature.under) {
            out_ += std::string(40, '_') + "  ";
            append_plain(out_, under);
            out_ += "\n\n";
        }
    }
    void write(const PageBreak& /*unused*/) { out_ += std::string(line_width, '-') + "\n\n"; }

    void write(const Table& table) {
        if (!table.title.empty()) {
            paragraph(table.title);
            out_ += "\n";
        }
        std::vector<std::vector<std::string>> titles;
        for (const Table::Column& column : table.columns) titles.push_back(words_of(column.title));
        std::vector<Lines> rows;
        for (const Table::Row& row : table.rows) rows.push_back(lines_of(table, row));
        const std::vector<std::size_t> widths = widths_of(titles, rows);
        // Headings stand on their last line.
        for (auto& title : titles) {
            std::size_t deepest = 0;
            for (const auto& each : titles) deepest = std::max(deepest, each.size());
            title.insert(title.begin(), deepest - title.size(), "");
        }
        row_of(table, titles, widths);
        rule(widths);
        for (std::size_t k = 0; k < rows.size(); ++k) {
            row_of(table, rows[k], widths);
            if (table.rows[k].ruled && k + 1 < rows.size()) rule(widths);
        }
        out_ += "\n";
    }

  private:
    void paragraph(std::string_view text) { hanging("", text); }

    void hanging(const std::string& head, std::string_view text) {
        const std::size_t indent = length_of(head), least = 30;
        const std::size_t room = indent + least < line_width ? line_width - indent : least;
        bool first = true;
        for (const std::string& line : wrapped(text, room)) {
            out_ += first ? head : std::string(indent, ' ');
            out_ += line;
            out_ += '\n';
            first = false;
        }
    }

    // A heading of several words stands in as few lines as half its length gives.
    static std::vector<std::string> words_of(const std::string& title) {
        constexpr std::size_t short_enough = 8;
        return wrapped(title, std::max(short_enough, length_of(title) / 2));
    }

    static Lines lines_of(const Table& table, const Table::Row& row) {
        Lines lines;
        for (std::size_t k = 0; k < table.columns.size(); ++k) {
            const std::string_view text = k < row.cells.size() ? std::string_view(row.cells[k].text) : "";
            if (table.columns[k].wraps) {
                lines.push_back(wrapped(text, column_of_text));
            } else {
                lines.push_back({std::string()});
                append_plain(lines.back().front(), text);
            }
        }
        return lines;
    }

    static std::vector<std::size_t> widths_of(const Lines& titles, const std::vector<Lines>& rows) {
        std::vector<std::size_t> widths(titles.size());
        const auto widen = [&](const Lines& lines) {
            for (std::size_t k = 0; k < lines.size(); ++k) {
                for (const std::string& line : lines[k]) widths[k] = std::max(widths[k], length_of(line));
            }
        };
        widen(titles);
        for (const Lines& row : rows) widen(row);
        return widths;
    }

    void row_of(const Table& table, const Lines& row, const std::vector<std::size_t>& widths) {
        std::size_t deepest = 0;
        for (const auto& lines : row) deepest = std::max(deepest, lines.size());
        for (std::size_t line = 0; line < deepest; ++line) {
            std::string text;
            for (std::size_t k = 0; k < row.size(); ++k) {
                const std::string cell = line < row[k].size() ? row[k][line] : "";
                const std::size_t room = widths[k] - length_of(cell);
                const Align align = table.columns[k].align;
                const std::size_t before = align == Align::Left ? 0 : align == Align::Right ? room : room / 2;
                text += std::string(before, ' ') + cell + std::string(room - before + 2, ' ');
            }
            text.erase(text.find_last_not_of(' ') + 1);
            out_ += text + "\n";
        }
    }

    void rule(const std::vector<std::size_t>& widths) {
        for (std::size_t k = 0; k < widths.size(); ++k) {
            out_ += std::string(widths[k], '-') + (k + 1 < widths.size() ? "  " : "");
        }
        out_ += "\n";
    }

    std::string out_;
};

}  // namespace

std::string text_of(const Document& document) {
    Text text;
    text.title(document);
    for (const Block& block : document.blocks) {
        std::visit([&](const auto& what) { text.write(what); }, block);
    }
    text.foot(document.foot);
    return text.take();
}

}  // namespace fallwright::sheet
