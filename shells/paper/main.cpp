// fallwright-paper: the documents and workbooks of a book. The command line starts it for its verbs; what it
// is told is what they are told.
#include <CLI/CLI.hpp>
#include <cstdio>
#include <exception>

#include "desk/write_json.h"
#include "shells/paper/verbs.h"

namespace fallwright::paper {

int refuse(const Finding& found, bool json) {
    if (json) std::printf("%s\n", error_json(found).c_str());
    std::fprintf(stderr, "fallwright: %s\n", one_line(found).c_str());
    return 2;
}

namespace {

struct Arguments {
    std::string book, to;
    ReportArguments report;
    bool json = false;
};

void add_report(CLI::App& app, Arguments& arguments, int& code) {
    CLI::App* report = app.add_subcommand("report", "The record of a job as PDF");
    report->footer("Example:\n  fallwright-paper report examples/lane.book.jsonl --pdf lane.pdf");
    report->add_option("book", arguments.report.book, "Book file")->required();
    report->add_option("--pdf", arguments.report.to, "File to write")->required();
    report->add_flag("--one-page", arguments.report.one_page, "The short form, one sheet");
    report->add_option("--paper", arguments.report.paper, "A4 or Letter");
    report->add_option("--made-at", arguments.report.made_at, "The time it is given");
    report->add_flag("--json", arguments.json, "Faults as JSON too");
    report->callback([&] { code = write_report(arguments.report, arguments.json); });
}

int run(int argc, char** argv) {
    CLI::App app("Documents and workbooks of a book; fallwright starts this for its verbs.",
                 "fallwright-paper");
    app.set_version_flag("--version", "fallwright-paper " FALLWRIGHT_VERSION);
    app.require_subcommand(1);
    Arguments arguments;
    int code = 0;
    CLI::App* workbook = app.add_subcommand("export", "A book as a spreadsheet (XLSX)");
    workbook->footer("Example:\n  fallwright-paper export examples/lane.book.jsonl --to lane.xlsx");
    workbook->add_option("book", arguments.book, "Book file")->required();
    workbook->add_option("--to", arguments.to, "The spreadsheet, ending in .xlsx")->required();
    workbook->add_flag("--json", arguments.json, "The answer as JSON");
    workbook->callback([&] { code = export_workbook(arguments.book, arguments.to, arguments.json); });
    add_report(app, arguments, code);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        if (error.get_exit_code() == 0) return app.exit(error);
        std::fprintf(stderr, "fallwright: %s; see fallwright-paper --help\n", error.what());
        return 2;
    }
    return code;
}

}  // namespace

}  // namespace fallwright::paper

int main(int argc, char** argv) {
    try {
        return fallwright::paper::run(argc, argv);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "fallwright: this is an error of the program: %s; please report it\n",
                     error.what());
        return 2;
    }
}
