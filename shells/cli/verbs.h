// verbs: what each command does once its arguments are read. Each returns the exit code:
//   0 done    1 with --strict: something is outside, or an error finding stands    2 unusable input, one line
//   said why
#pragma once

#include <map>
#include <string>
#include <vector>

namespace fallwright::cli {

struct Output {
    bool json = false;
    bool strict = false;
    bool surveyor = false;
};

int evaluate_book(const std::string& path, const Output& output);
int level_book(const std::string& path, const Output& output);
int suspect_book(const std::string& path, const Output& output);
int check_book(const std::string& path, const Output& output);

struct SuspectsArguments {
    std::string book, trace, by;
};
// What moves if the value called trace is out by so much; 1 with --strict where a verdict would change.
int trace_in_book(const SuspectsArguments& arguments, const Output& output);
int check_instruments_of_book(const std::string& path, const Output& output);

struct FallArguments {
    std::vector<std::string> readings;  // or one book
    std::string over, shown, near, unit, line, what;
    std::vector<std::string> at;
};
int find_fall(const FallArguments& arguments, const Output& output);

struct DialArguments {
    std::string book, line, surface, setup, crossfall;
    std::vector<std::string> points;
};
int dial_line_of_book(const DialArguments& arguments, const Output& output);

struct SetoutArguments {
    std::string book, line, setup, every, traveller;
    std::vector<std::string> what;
    bool rod = false, pegs = false;
};
int set_out_line(const SetoutArguments& arguments, const Output& output);

struct PlanArguments {
    std::string book;  // without one the closed forms answer
    // By the name of the option; "" and NaN where it is not given.
    std::map<std::string, std::string> texts;
    std::map<std::string, double> numbers;
    std::vector<std::string> places;
    bool as_it_is = false;  // judge only, without a search
};
int plan_book(const PlanArguments& arguments, const Output& output);

struct DrainArguments {
    std::string book;  // without one a single pipe is asked for
    // By the name of the option; "" and NaN where it is not given.
    std::map<std::string, std::string> texts;
    std::map<std::string, double> numbers;
    std::vector<std::string> breaks;
    bool follow = false;
};
int answer_drain(const DrainArguments& arguments, const Output& output);

struct ServeArguments {
    std::string app, port, listen;  // "" where not given
};
// The built app on this machine, until told to end; by the program fallwright-serve, which takes this one's
// place.
int serve_app(const ServeArguments& arguments, const Output& output);

struct ReportArguments {
    std::string book, html, pdf;  // files to write; without one the record is text on the terminal
    std::string paper = "A4", made_at;
    bool text = false, one_page = false;
};
int report_book(const ReportArguments& arguments, const Output& output);

struct StaffArguments {
    std::string reading, unit, length, window;
    std::string svg;  // file for the drawing, "" for the terminal
    bool inverted = false, ascii = false;
};
int draw_staff(const StaffArguments& arguments, const Output& output);

// entry: one JSON object, or a kind followed by field=value, or "-" for lines on standard input.
int add_entries(const std::string& path, const std::vector<std::string>& entry, const Output& output);

struct ImportArguments {
    std::string file, book;
    std::string title, datum, unit, line, what, instrument, type, date;
    std::string sheet_unit, separator, decimal;
    std::string as, levels, use, sd;
};
int import_file(const ImportArguments& arguments, const Output& output);

struct ExportArguments {
    std::string book, to, as, table, line, setup, every, figure, surface;
    std::vector<std::string> what;
};
// Writes the file; with --json the answer too, or alone where no file is named.
int export_file(const ExportArguments& arguments, const Output& output);

int join_files(const std::vector<std::string>& paths, const std::string& out, const Output& output);

}  // namespace fallwright::cli
