#include <algorithm>
#include <string_view>
#include <variant>

#include "base/print.h"
#include "sheet/html_style.h"
#include "sheet/markup.h"
#include "sheet/render.h"
#include "sheet/svg.h"
#include "sheet/table_fit.h"

namespace fallwright::sheet {

namespace {

class Html {
  public:
    explicit Html(const Document& document) : document_(document) {}

    std::string page() {
        head();
        out_ += "<body>\n<main>\n";
        element("h1", "", document_.title);
        if (!document_.subject.empty()) element("p", "subject", document_.subject);
        contents();
        for (const Block& block : document_.blocks) {
            std::visit([&](const auto& what) { write(what); }, block);
        }
        if (!document_.foot.empty()) element("footer", "", document_.foot);
        out_ += "</main>\n</body>\n</html>\n";
        return std::move(out_);
    }

  private:
    void open(std::string_view name, std::string_view kind = "") {
        out_ += '<';
        out_ += name;
        if (!kind.empty()) attribute(out_, "class", kind);
        out_ += '>';
    }
    void close(std::string_view name) {
        out_ += "</";
        out_ += name;
        out_ += ">\n";
    }
    void element(std::string_view name, std::string_view kind, std::string_view text) {
        open(name, kind);
        append_escaped(out_, text);
        close(name);
    }

    void head() {
        out_ += "<!DOCTYPE html>\n<html";
        attribute(out_, "lang", document_.language);
        out_ += ">\n<head>\n<meta charset=\"utf-8\">\n";
        out_ +=
            "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
            "'unsafe-inline'\">\n";
        out_ += "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n";
        if (!document_.subject.empty()) {
            out_ += "<meta name=\"description\"";
            attribute(out_, "content", document_.subject);
            out_ += ">\n";
        }
        element("title", "", document_.title);
        out_ += "<style>";
        out_ += html_style(document_);
        out_ += "</style>\n</head>\n";
    }

    // Links to the chapters, where there are enough to be lost in.
    void contents() {
        constexpr std::ptrdiff_t enough = 4;
        const auto is_chapter = [](const Block& block) {
            const auto* heading = std::get_if<Heading>(&block);
            return heading != nullptr && heading->depth <= 1;
        };
        if (std::count_if(document_.blocks.begin(), document_.blocks.end(), is_chapter) < enough) return;
        out_ += "<nav aria-label=\"Chapters\">\n<ul>\n";
        int number = 0;
        for (const Block& block : document_.blocks) {
            if (!is_chapter(block)) continue;
            out_ += "<li><a href=\"#c" + std::to_string(++number) + "\">";
            append_escaped(out_, std::get<Heading>(block).text);
            out_ += "</a></li>\n";
        }
        out_ += "</ul>\n</nav>\n";
    }

    void write(const Heading& heading) {
        constexpr int deepest = 3;
        const std::string name = "h" + std::to_string(std::clamp(heading.depth, 1, deepest) + 1);
        out_ += '<' + name;
        if (heading.depth <= 1) attribute(out_, "id", "c" + std::to_string(++chapters_));
        out_ += '>';
        append_escaped(out_, heading.text);
        close(name);
    }

    void write(const Statement& statement) {
        switch (statement.tone) {
            case Tone::Plain:
                return element("p", "", statement.text);
            case Tone::Small:
                return element("p", "small", statement.text);
            case Tone::Strong:
                out_ += "<p><strong>";
                append_escaped(out_, statement.text);
                out_ += "</strong></p>\n";
                return;
            case Tone::Caution:
            case Tone::Finding:
                break;
        }
        open("p", statement.tone == Tone::Caution ? "caution" : "finding");
        const std::string word = word_before(statement);
        if (!word.empty()) out_ += "<strong>" + word + "</strong>";
        append_escaped(out_, statement.text);
        close("p");
    }

    void write(const List& list) {
        if (list.items.empty()) return;
        out_ += "<ul>\n";
        for (const std::string& item : list.items) element("li", "", item);
        out_ += "</ul>\n";
    }

    void write(const Facts& facts) {
        if (facts.facts.empty()) return;
        out_ += "<dl>\n";
        for (const Facts::Fact& fact : facts.facts) {
            out_ += "<div>";
            element("dt", "", fact.name);
            const std::string_view no_break_space = "\xc2\xa0";
            element("dd", fact.value.empty() ? "blank" : "",
                    fact.value.empty() ? no_break_space : fact.value);
            out_ += "</div>\n";
        }
        out_ += "</dl>\n";
    }

    void write(const Table& table) {
        const TableFit fit = fit_of(table, size_of(document_.paper));
        const std::string id = "t" + std::to_string(++tables_);
        if (fit.turned) out_ += "<div class=\"turned\">\n";
        if (!table.title.empty()) {
            out_ += "<p class=\"caption\" id=\"" + id + "\">";
            append_escaped(out_, table.title);
            close("p");
        }
        // What scrolls must be reached by the keyboard too, and then have a name; tables are no landmarks.
        out_ += "<div class=\"scroll\" tabindex=\"0\" role=\"group\" ";
        out_ += table.title.empty() ? "aria-label=\"Table\"" : "aria-labelledby=\"" + id + "\"";
        out_ += ">\n<table";
        const auto* size = std::find(std::begin(table_sizes), std::end(table_sizes), fit.size);
        if (size != std::begin(table_sizes)) {
            attribute(out_, "class", "s" + std::to_string(size - std::begin(table_sizes)));
        }
        if (!table.title.empty()) attribute(out_, "aria-labelledby", id);
        out_ += ">\n<thead><tr>";
        for (const Table::Column& column : table.columns) {
            out_ += column.title.empty() ? "<td" : "<th scope=\"col\"";
            kind(column, false);
            append_escaped(out_, column.title);
            out_ += column.title.empty() ? "</td>" : "</th>";
        }
        out_ += "</tr></thead>\n<tbody>\n";
        for (const Table::Row& row : table.rows) write_row(table, row);
        out_ += "</tbody>\n</table>\n</div>\n";
        if (fit.turned) out_ += "</div>\n";
    }

    void kind(const Table::Column& column, bool body) {
        std::string kind = column.align == Align::Right ? "r" : column.align == Align::Centre ? "c" : "";
        if (column.wraps && body) kind += kind.empty() ? "w" : " w";
        if (!kind.empty()) attribute(out_, "class", kind);
        out_ += '>';
    }

    void write_row(const Table& table, const Table::Row& row) {
        out_ += row.ruled ? "<tr class=\"ruled\">" : "<tr>";
        for (std::size_t k = 0; k < row.cells.size() && k < table.columns.size(); ++k) {
            const Cell& cell = row.cells[k];
            const bool heads = k == 0 && !cell.text.empty();
            out_ += heads ? "<th scope=\"row\"" : "<td";
            kind(table.columns[k], true);
            if (cell.has_mark) out_ += svg_mark(cell);
            if (cell.strong) out_ += "<b class=\"s\">";
            append_escaped(out_, cell.text);
            if (cell.strong) out_ += "</b>";
            out_ += heads ? "</th>" : "</td>";
        }
        out_ += "</tr>\n";
    }

    void write(const Drawn& drawn) {
        const Figure& figure = drawn.figure;
        const PaperSize paper = size_of(document_.paper);
        const std::string id = "f" + std::to_string(++figures_);
        const bool turned = figure.width > paper.width - 2 * paper.margin;
        open("figure", turned ? "turned" : "");
        out_ += "\n<div class=\"scroll\" tabindex=\"0\" role=\"group\"";
        attribute(out_, "aria-labelledby", id + "-title");
        out_ += ">\n" + svg_of(figure, id) + "</div>\n";
        out_ += "<figcaption><strong>";
        append_escaped(out_, figure.title);
        out_ += "</strong> ";
        append_escaped(out_, figure.said);
        out_ += "</figcaption>\n</figure>\n";
    }

    void write(const Signature& signature) {
        out_ += "<div class=\"sign\">\n";
        for (const std::string& under : signature.under) {
            out_ += "<div>";
            element("p", "", under);
            out_ += "</div>\n";
        }
        out_ += "</div>\n";
    }

    void write(const PageBreak& /*unused*/) { out_ += "<hr>\n"; }

    const Document& document_;
    std::string out_;
    int chapters_ = 0, tables_ = 0, figures_ = 0;
};

}  // namespace

std::string html_of(const Document& document) {
    return Html(document).page();
}

}  // namespace fallwright::sheet
