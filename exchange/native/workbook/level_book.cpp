#include <algorithm>
#include <cmath>
#include <unordered_map>

#include "base/print.h"
#include "exchange/native/workbook/sheets.h"

namespace fallwright::workbook {

namespace {

enum Column : std::uint8_t {
    Point,
    InSetup,
    Back,
    Inter,
    Fore,
    Rise,
    Fall,
    Collimation,
    Level,
    BySteps,
    Setups,
    Adjusted,
    Remark,
    Id
};

// Which closures a page has, in their order.
std::vector<std::vector<std::size_t>> closures_of(const Pages& pages) {
    std::unordered_map<std::uint32_t, std::size_t> page_of;
    for (std::size_t page = 0; page < pages.pages.size(); ++page) {
        for (const PageRow& row : pages.pages[page].rows) page_of.emplace(row.reading, page);
    }
    std::vector<std::vector<std::size_t>> found(pages.pages.size());
    for (std::size_t i = 0; i < pages.closures.size(); ++i) {
        const auto page = page_of.find(pages.closures[i].way.back().reading);
        if (page != page_of.end()) found[page->second].push_back(i);
    }
    return found;
}

// As many decimals as the sights have, in the book's unit.
int places_of(const Evaluation& evaluation) {
    constexpr int fewest = 3;
    constexpr double least = 1e-9;
    const Book& book = *evaluation.book;
    int places = fewest;
    for (const Page& page : evaluation.pages.pages) {
        for (const PageRow& row : page.rows) {
            for (const MaybeDecimal& sight : {row.back, row.inter, row.fore}) {
                const double value = sight ? book.in_unit((*sight).metres()) : 0;
                while (places < length_places && std::fabs(value - rounded_to(value, places)) > least)
                    ++places;
            }
        }
    }
    return places;
}

// One page of the book, from the sheet's present row on.
class PageOnSheet {
  public:
    PageOnSheet(const Evaluation& evaluation, const Page& page, const std::vector<std::size_t>& closures,
                const std::string& shown, Sheet& sheet)
        : evaluation_(evaluation),
          book_(*evaluation.book),
          page_(page),
          closures_(closures),
          shown_(shown),
          sheet_(sheet) {}

    void write(std::size_t number) {
        const std::string what = page_.sloped ? "Sloped plane: its level at each point as dialled, no sums"
                                              : "Booked page: height of collimation, rise and fall";
        sheet_.text(Point, std::to_string(number) + "  " + what, Style::Strong);
        sheet_.next_row();
        first_ = sheet_.row();
        const std::size_t rows = page_.rows.size();
        constexpr std::size_t check_rows = 3, heads = 1;
        first_closure_ = first_ + rows + 1 + check_rows + heads;
        find_nodes();
        for (std::size_t i = 0; i < rows; ++i) write_row(i);
        if (!page_.sloped) {
            write_sums();
            write_checks();
            write_closures();
        }
        sheet_.next_row();
    }

  private:
    struct Node {
        std::int64_t setups;
        Decimal misclosure;
        std::size_t row;  // of the sheet
    };

    double shown_length(Decimal value) const {
        constexpr int exact = 9;  // more than readings have, less than a double's noise
        return rounded_to(book_.in_unit(value.metres()), exact);
    }
    void put(Column column, Decimal value, Style style = Style::Plain) {
        sheet_.number(column, shown_length(value), shown_, style);
    }
    void put(Column column, const std::string& formula, Decimal value, Style style = Style::Plain) {
        sheet_.formula(column, formula, shown_length(value), shown_, style);
    }
    std::string at(Column column, std::size_t row) const { return cell_name(column, first_ + row); }

    void write_row(std::size_t i) {
        const PageRow& row = page_.rows[i];
        sheet_.text(Point, book_.names.text(book_.readings[row.reading].point));
        sheet_.text(InSetup, book_.names.text(book_.setups[static_cast<std::size_t>(row.setup)].name));
        if (row.back) put(Back, *row.back);
        if (row.inter) put(Inter, *row.inter);
        if (row.fore) put(Fore, *row.fore);
        if (page_.sloped) {
            put(Collimation, *row.collimation);
            const std::string minus = row.back ? at(Back, i) : at(Inter, i);
            put(Level, "=" + at(Collimation, i) + "-" + minus, row.level);
        } else if (i == 0) {
            write_start(row);
        } else {
            write_worked(i);
        }
        sheet_.text(Remark, remark_of(page_, row));
        sheet_.text(Id, book_.id_of(book_.readings[row.reading].entry));
        sheet_.next_row();
    }

    void write_start(const PageRow& row) {
        put(Level, row.level);
        put(BySteps, "=" + at(Level, 0), row.level);
        sheet_.number(Setups, 0, "0");
        write_collimation(0);
        write_adjusted(0, 0);
    }

    void write_collimation(std::size_t i) {
        const PageRow& row = page_.rows[i];
        if (!row.collimation || !row.back) return;
        put(Collimation, "=" + at(Level, i) + "+" + at(Back, i), *row.collimation);
        collimation_ = i;
    }

    void write_worked(std::size_t i) {
        const PageRow& row = page_.rows[i];
        const PageRow& above = page_.rows[i - 1];
        const std::string before = at(above.back ? Back : above.fore ? Fore : Inter, i - 1);
        const std::string sight = at(row.fore ? Fore : Inter, i);
        write_step(Rise, before, sight, row.rise, ">=");
        write_step(Fall, sight, before, row.fall, ">");
        put(Level, "=" + at(Collimation, collimation_) + "-" + sight, row.level);
        put(BySteps, "=" + at(BySteps, i - 1) + "+N(" + at(Rise, i) + ")-N(" + at(Fall, i) + ")", row.level);
        setups_ += above.back ? 1 : 0;
        sheet_.formula(Setups, "=" + at(Setups, i - 1) + "+IF(ISNUMBER(" + at(Back, i - 1) + "),1,0)",
                       static_cast<double>(setups_), "0");
        write_collimation(i);
        write_adjusted(i, setups_);
    }

    // An empty text where it is the other of rise and fall.
    void write_step(Column column, const std::string& from, const std::string& to, const MaybeDecimal& value,
                    const char* holds) {
        const std::string formula = "=IF(" + from + holds + to + "," + from + "-" + to + ",\"\")";
        if (value) {
            put(column, formula, *value);
        } else {
            sheet_.formula(column, formula, std::string(), shown_);
        }
    }

    void write_sums() {
        const std::size_t rows = page_.rows.size();
        // A back sight after which nothing was read is in no sum.
        const std::size_t last_back = rows > 1 && page_.rows.back().back ? rows - 2 : rows - 1;
        for (std::uint8_t column = Point; column <= Id; ++column) sheet_.blank(column, Style::Ruled);
        sheet_.text(Point, "sums", Style::Ruled);
        if (rows > 1) {
            write_sum(Back, page_.sum_back, last_back);
            write_sum(Fore, page_.sum_fore, rows - 1);
            write_sum(Rise, page_.sum_rise, rows - 1);
            write_sum(Fall, page_.sum_fall, rows - 1);
        }
        sheet_.next_row();
    }

    void write_sum(Column column, Decimal value, std::size_t to) {
        put(column, "=SUM(" + at(column, 0) + ":" + at(column, to) + ")", value, Style::Ruled);
    }

    // Three ways to the same difference, each under its columns.
    void write_checks() {
        const std::size_t rows = page_.rows.size();
        const auto difference = [](const std::string& a, const std::string& b) { return a + "-" + b; };
        const auto line = [&](const char* name, Column column, const std::string& formula, Decimal value) {
            sheet_.text(Point, name);
            put(column, "=" + formula, value);
        };
        const auto sums = [&](Column column) { return "N(" + at(column, rows) + ")"; };
        line("check: back - fore", Back, difference(sums(Back), sums(Fore)), page_.sum_back - page_.sum_fore);
        sheet_.next_row();
        line("check: rise - fall", Rise, difference(sums(Rise), sums(Fall)), page_.sum_rise - page_.sum_fall);
        sheet_.next_row();
        line("check: last - first", Level, difference(at(Level, rows - 1), at(Level, 0)),
             page_.last - page_.first);
        const std::string by_sights = at(Back, rows + 1), by_steps = at(Rise, rows + 2),
                          by_levels = at(Level, rows + 3);
        sheet_.formula(BySteps,
                       "=IF(AND(ROUND(" + by_sights + "-" + by_steps + ",6)=0,ROUND(" + by_sights + "-" +
                           by_levels + ",6)=0),\"agrees\",\"DOES NOT AGREE\")",
                       page_.agrees ? std::string("agrees") : std::string("DOES NOT AGREE"), "");
        sheet_.next_row();
    }

    void write_closures() {
        if (closures_.empty()) return;
        const std::vector<std::pair<Column, const char*>> heads = {
            {Point, "closes on"},       {InSetup, "from"},     {Back, "set-ups"},
            {Inter, "length"},          {Rise, "found"},       {Fall, "known"},
            {Collimation, "allowed"},   {Level, "misclosure"}, {BySteps, "judged"},
            {Remark, "allowed by rule"}};
        for (const auto& [column, head] : heads) {
            const bool number = column >= Back && column <= Level;
            sheet_.text(column, head, number ? Style::StrongRight : Style::Strong);
        }
        sheet_.next_row();
        for (const std::size_t closure : closures_) write_closure(closure);
    }

    void write_closure(std::size_t which) {
        const Closure& closure = evaluation_.pages.closures[which];
        const JudgedClosure& judged = evaluation_.closures[which];
        const std::size_t row = sheet_.row();
        const std::size_t met = row_of(closure);
        const Decimal found = page_.rows[met].level;
        sheet_.text(Point, book_.names.text(closure.to));
        sheet_.text(InSetup, book_.names.text(closure.from));
        sheet_.number(Back, closure.setups, "0");
        sheet_.number(Inter, rounded_to(book_.in_unit(closure.length.value), length_places), "0.0");
        put(Rise, "=" + at(Level, met), found);
        put(Fall, found - closure.misclosure);
        sheet_.number(Collimation, rounded_to(book_.in_unit(judged.allowed), length_places),
                      shown_with(length_places));
        const std::string misclosure = cell_name(Level, row), allowed = cell_name(Collimation, row);
        put(Level, "=" + cell_name(Rise, row) + "-" + cell_name(Fall, row), closure.misclosure);
        if (!std::isnan(judged.allowed))
            sheet_.formula(BySteps,
                           "=IF(ABS(ROUND(" + misclosure + ",5))<=" + allowed + ",\"within\",\"outside\")",
                           std::string(judged.ok ? "within" : "outside"), "");
        sheet_.text(Remark, preset::rule_text(evaluation_.rule, book_.unit));
        sheet_.next_row();
    }

    // The row of the page that the closure met.
    std::size_t row_of(const Closure& closure) const {
        const std::uint32_t reading = closure.way.back().reading;
        const auto found = std::find_if(page_.rows.begin(), page_.rows.end(),
                                        [&](const PageRow& row) { return row.reading == reading; });
        return static_cast<std::size_t>(found - page_.rows.begin());
    }

    // Where the misclosure is shared out by set-ups, as page.h says; kept only where that gives the page's
    // own adjusted levels to the tick, so that a formula never says another thing than the page.
    void find_nodes() {
        for (std::size_t i = 0; i < closures_.size(); ++i) {
            const Closure& closure = evaluation_.pages.closures[closures_[i]];
            if (closure.loop && closure.setups == 1) continue;
            if (!nodes_.empty() && nodes_.back().setups == closure.setups) nodes_.pop_back();
            nodes_.push_back({closure.setups, closure.misclosure, first_closure_ + i});
        }
        std::int64_t setups = 0;
        for (std::size_t i = 0; i < page_.rows.size() && !nodes_.empty(); ++i) {
            const PageRow& row = page_.rows[i];
            if (i > 0 && page_.rows[i - 1].back) ++setups;
            by_setups_ = by_setups_ && row.adjusted && *row.adjusted == row.level - correction(setups).share;
        }
    }

    struct Correction {
        Decimal share;
        std::string formula;
    };
    Correction correction(std::int64_t setups) const {
        Correction made;
        Node before = {0, Decimal(), 0};
        std::size_t next = 0;
        while (next < nodes_.size() && setups > nodes_[next].setups) before = nodes_[next++];
        made.share = before.misclosure;
        if (before.row > 0) made.formula = cell_name(Level, before.row);
        if (next == nodes_.size()) return made;
        const Node& node = nodes_[next];
        const std::int64_t span = node.setups - before.setups;
        made.share += (node.misclosure - before.misclosure).share(setups - before.setups, span);
        const std::string start = made.formula.empty() ? "" : "-" + made.formula;
        const std::string growth = "(" + cell_name(Level, node.row) + start + ")";
        if (!made.formula.empty()) made.formula += "+";
        made.formula += growth + "*({setups}-" + std::to_string(before.setups) + ")/" + std::to_string(span);
        return made;
    }

    void write_adjusted(std::size_t i, std::int64_t setups) {
        const PageRow& row = page_.rows[i];
        if (!row.adjusted) return;
        if (!by_setups_) {
            put(Adjusted, *row.adjusted);
            return;
        }
        std::string formula = correction(setups).formula;
        const std::string mark = "{setups}";
        if (const std::size_t place = formula.find(mark); place != std::string::npos)
            formula.replace(place, mark.size(), at(Setups, i));
        // Shares are taken to 1e-7 m, as on the page.
        const std::string share =
            book_.unit == Unit::Metre ? "ROUND(" + formula + ",7)" : "(" + formula + ")";
        put(Adjusted, "=" + at(Level, i) + "-" + share, *row.adjusted);
    }

    const Evaluation& evaluation_;
    const Book& book_;
    const Page& page_;
    const std::vector<std::size_t>& closures_;
    const std::string& shown_;
    Sheet& sheet_;
    std::size_t first_ = 0, first_closure_ = 0;  // rows of the sheet
    std::size_t collimation_ = 0;                // row of the page with the present set-up's
    std::int64_t setups_ = 0;
    std::vector<Node> nodes_;
    bool by_setups_ = true;
};

}  // namespace

std::vector<Head> level_book_heads(const std::string& unit) {
    return {{"Point", false},   {"Set-up", false},
            {"Back " + unit},   {"Inter " + unit},
            {"Fore " + unit},   {"Rise " + unit},
            {"Fall " + unit},   {"Height of collimation " + unit},
            {"Level " + unit},  {"Level by rise and fall " + unit},
            {"Set-ups so far"}, {"Adjusted level " + unit},
            {"Remark", false},  {"Entry", false}};
}

void write_level_book(const Evaluation& evaluation, Sheet& sheet) {
    const std::string shown = shown_with(places_of(evaluation));
    const std::vector<std::vector<std::size_t>> closures = closures_of(evaluation.pages);
    for (std::size_t i = 0; i < evaluation.pages.pages.size(); ++i)
        PageOnSheet(evaluation, evaluation.pages.pages[i], closures[i], shown, sheet).write(i + 1);
}

}  // namespace fallwright::workbook
