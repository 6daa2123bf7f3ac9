#include "exchange/native/workbook/workbook.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <ctime>

#include "exchange/native/workbook/sheets.h"

namespace fallwright::workbook {

namespace {

// A sheet of the book that is one table.
struct Part {
    const char* name;
    std::vector<Head> (*heads)(const std::string& unit);
    void (*write)(const Evaluation&, Sheet&);
    bool one_table;
};
constexpr std::array<Part, 5> parts = {{{"Level book", level_book_heads, write_level_book, false},
                                        {"Levels", levels_heads, write_levels, true},
                                        {"Stations", stations_heads, write_stations, true},
                                        {"Falls", falls_heads, write_falls, true},
                                        {"Readings", readings_heads, write_readings, true}}};

std::vector<Fact> facts_of(const Evaluation& evaluation, const Wanted& wanted, const std::string& unit) {
    const Book& book = *evaluation.book;
    std::vector<Fact> facts = {
        {"title", book.title},
        {"file", wanted.book_name},
        {"fingerprint (SHA-256)", wanted.fingerprint},
        {"made by", "fallwright " + wanted.version},
        {"datum", evaluation.model->assumed_datum ? "assumed: the first point read is 100.000"
                  : book.datum.empty()            ? "stated by the benchmarks"
                                                  : book.datum},
        {"unit", unit + (book.unit == Unit::Foot ? " (of 0.3048 m)" : "")},
        {"sheet Level book",
         "the booked pages; readings are numbers, all that follows from them are formulas that work it out "
         "anew"},
        {"sheets Levels, Stations, Falls, Readings",
         "numbers as the adjustment gives them; \xC2\xB1 is one standard deviation, relative to the "
         "benchmarks as "
         "given"},
    };
    const auto empty = [](const Fact& fact) { return fact.text.empty(); };
    facts.erase(std::remove_if(facts.begin(), facts.end(), empty), facts.end());
    return facts;
}

// The time of the last entry, so that the file depends on the book alone; 1 January 1980 where no entry has
// one.
std::time_t date_of(const Book& book) {
    constexpr std::int64_t from = 315532800, microseconds = 1000000;
    std::int64_t latest = from;
    for (const Entry& entry : book.entries) {
        if (entry.at != before_all) latest = std::max(latest, entry.at / microseconds);
    }
    return static_cast<std::time_t>(latest);
}

constexpr std::size_t longest_property = 200;  // bytes; 255 characters are taken

void set_properties(lxw_workbook* file, const Evaluation& evaluation) {
    std::string title = cut(evaluation.book->title, longest_property);
    std::string program = "fallwright";
    lxw_doc_properties properties = {};
    properties.title = title.data();
    properties.author = program.data();
    properties.created = date_of(*evaluation.book);
    workbook_set_properties(file, &properties);
}

// All sheets, in their order; the first one is written last, when it is known what found no room.
void fill(lxw_workbook* file, const Evaluation& evaluation, const Wanted& wanted) {
    const std::string unit = evaluation.book->unit == Unit::Foot ? "ft" : "m";
    const bool letter = evaluation.book->unit == Unit::Foot;
    const std::string& title = evaluation.book->title;
    const std::string foot = "fallwright " + wanted.version + "  " + wanted.book_name;
    Formats formats(file);
    Sheet about(file, formats, "Book", about_heads());
    std::vector<Fact> facts = facts_of(evaluation, wanted, unit);
    for (const Part& part : parts) {
        Sheet sheet(file, formats, part.name, part.heads(unit));
        part.write(evaluation, sheet);
        if (part.one_table) sheet.choose_rows();
        sheet.finish(title, foot, letter);
        if (sheet.left_out() > 0)
            facts.push_back({"left out", std::string(part.name) + ": " + std::to_string(sheet.left_out()) +
                                             " rows beyond what a sheet holds"});
    }
    write_about(evaluation, facts, about);
    about.finish(title, foot, letter);
}

}  // namespace

std::optional<Finding> write(const Evaluation& evaluation, const Wanted& wanted, const std::string& path) {
    const std::string beside = path + ".part";
    lxw_workbook_options options = {};
    options.constant_memory = LXW_TRUE;
    lxw_workbook* file = workbook_new_opt(beside.c_str(), &options);
    if (file == nullptr) return finding(Code::BadFile, {path}, "there is no memory for the workbook");
    set_properties(file, evaluation);
    fill(file, evaluation, wanted);
    const lxw_error error = workbook_close(file);
    if (error == LXW_NO_ERROR && std::rename(beside.c_str(), path.c_str()) == 0) return std::nullopt;
    std::remove(beside.c_str());
    const std::string why = error == LXW_NO_ERROR ? "" : std::string(": ") + lxw_strerror(error);
    return finding(Code::BadFile, {path}, "the workbook cannot be written" + why);
}

}  // namespace fallwright::workbook
