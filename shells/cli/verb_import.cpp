#include <algorithm>
#include <cstdio>
#include <nlohmann/json.hpp>

#include "base/json_out.h"
#include "desk/write_json.h"
#include "exchange/text/level_csv.h"
#include "shells/cli/files.h"
#include "shells/cli/verbs.h"
#include "shells/cli/words.h"
#include "store/book_file.h"
#include "store/device.h"
#include "store/file.h"
#include "store/stamp.h"

namespace fallwright::cli {

namespace {

void set(std::string& to, const std::string& given) {
    if (!given.empty()) to = given;
}

std::string file_name(const std::string& path) {
    return path.substr(path.find_last_of('/') + 1);
}

text::CsvOptions options_of(const ImportArguments& arguments) {
    text::CsvOptions options;
    options.sheet_name = file_name(arguments.file);
    set(options.title, arguments.title);
    set(options.datum, arguments.datum);
    set(options.unit, arguments.unit);
    set(options.line, arguments.line);
    set(options.what, arguments.what);
    set(options.instrument, arguments.instrument);
    set(options.instrument_type, arguments.type);
    set(options.date, arguments.date);
    set(options.sheet_unit, arguments.sheet_unit);
    if (!arguments.separator.empty())
        options.separator = arguments.separator == "tab" ? '\t' : arguments.separator.front();
    if (!arguments.decimal.empty()) options.decimal_mark = arguments.decimal.front();
    return options;
}

// What the book that is there already takes up.
std::optional<Finding> fit_into(std::string_view now, text::CsvOptions& options) {
    if (now.empty()) return std::nullopt;
    Result<std::unique_ptr<Book>> book = read_book(std::string(now));
    if (!book) return book.finding();
    options.new_book = false;
    options.unit = (*book)->unit == Unit::Foot ? "ft" : "m";
    for (const Setup& setup : (*book)->setups) options.setups_in_use.push_back((*book)->name(setup.name));
    for (const Reading& reading : (*book)->readings)
        options.points_in_use.push_back((*book)->name(reading.point));
    for (const Benchmark& benchmark : (*book)->benchmarks)
        options.points_in_use.push_back((*book)->name(benchmark.point));
    const ByName instruments((*book)->instruments), lines((*book)->lines);
    options.instrument_in_book = instruments((*book)->names.find(options.instrument)) >= 0;
    options.line_in_book = lines((*book)->names.find(options.line)) >= 0;
    return std::nullopt;
}

Result<store::Lines> stamped(const std::vector<std::string>& lines, std::string_view now,
                             const std::string& device) {
    store::Ids ids(device, now);
    store::Lines all;
    for (const std::string& line : lines) {
        nlohmann::ordered_json entry = nlohmann::ordered_json::parse(line, nullptr, false);
        if (entry.is_object() && entry["kind"] != "book") {
            entry["id"] = ids.next();
            entry["at"] = store::now_rfc3339();
            if (!store::user_name().empty()) entry["by"] = store::user_name();
        }
        all.push_back(entry.dump());
    }
    return all;
}

void say(const text::ImportedBook& imported, std::size_t count, const std::string& book, bool json) {
    if (json) {
        JsonOut out;
        out.begin_object()
            .integer("version", 1)
            .integer("entries", static_cast<long long>(count))
            .text("book", book);
        write_findings(out, imported.findings);
        out.end_object();
        std::printf("%s\n", out.take().c_str());
    } else {
        if (count > 0) std::printf("%zu entries added to %s\n", count, book.c_str());
        std::fputs(findings_text(imported.findings).c_str(), count > 0 ? stdout : stderr);
    }
}

}  // namespace

int import_sheet(const ImportArguments& arguments, const Output& output) {
    const Result<std::string> bytes = read_file(arguments.file);
    if (!bytes) return refuse(bytes.finding(), output);
    store::Files& files = store::posix_files();
    const Result<std::string> device = store::device_name(files);
    if (!device) return refuse(device.finding(), output);
    text::ImportedBook imported;
    const auto lines_for = [&](std::string_view now) -> Result<store::Lines> {
        text::CsvOptions options = options_of(arguments);
        if (auto fault = fit_into(now, options)) return *fault;
        imported = text::import_level_csv(*bytes, options);
        if (imported.lines.empty())
            return finding(Code::ImportRow, {file_name(arguments.file)}, "nothing is imported",
                           "correct the cells named, then import again");
        return stamped(imported.lines, now, *device);
    };
    const Result<store::Added> added =
        store::append_together(files, arguments.book, store::IfAbsent::Create, lines_for);
    if (!added) {
        if (imported.lines.empty() && !imported.findings.empty())
            say(imported, 0, arguments.book, output.json);
        return refuse(added.finding(), output);
    }
    say(imported, added->lines.size(), arguments.book, output.json);
    return output.strict && has_error(imported.findings) ? 1 : 0;
}

}  // namespace fallwright::cli
