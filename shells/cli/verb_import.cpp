#include <algorithm>
#include <cstdio>
#include <memory>
#include <nlohmann/json.hpp>

#include "base/json_out.h"
#include "desk/write_json.h"
#include "exchange/door/import_any.h"
#include "quantity/length.h"
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

Result<door::ImportWish> wish_of(const ImportArguments& arguments) {
    door::ImportWish wish;
    wish.as = arguments.as;
    wish.use = arguments.use;
    text::CsvOptions& sheet = wish.list.sheet;
    sheet.sheet_name = file_name(arguments.file);
    set(sheet.title, arguments.title);
    set(sheet.datum, arguments.datum);
    set(sheet.unit, arguments.unit);
    set(sheet.line, arguments.line);
    set(sheet.what, arguments.what);
    set(sheet.instrument, arguments.instrument);
    set(sheet.instrument_type, arguments.type);
    set(sheet.date, arguments.date);
    set(sheet.sheet_unit, arguments.sheet_unit);
    if (!arguments.separator.empty())
        sheet.separator = arguments.separator == "tab" ? '\t' : arguments.separator.front();
    if (!arguments.decimal.empty()) sheet.decimal_mark = arguments.decimal.front();
    if (!arguments.levels.empty())
        wish.list.levels = arguments.levels == "known" ? tables::Levels::Known : tables::Levels::Wanted;
    if (!arguments.sd.empty()) {
        const Result<Length> sd = parse_length(arguments.sd, Unit::Metre);
        if (!sd) return sd.finding();
        wish.sd = sd->metres();
        wish.sd_given = true;
        if (!(wish.sd > 0))
            return finding(Code::BadRequest, {"sd"}, "an uncertainty of 0 would hold the levels fixed",
                           "give one standard deviation: --sd 5mm");
    }
    return wish;
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

void say(const door::Imported& imported, std::size_t count, const std::string& book, bool json) {
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

int import_file(const ImportArguments& arguments, const Output& output) {
    const Result<std::string> bytes = read_file(arguments.file);
    if (!bytes) return refuse(bytes.finding(), output);
    const Result<door::ImportWish> wish = wish_of(arguments);
    if (!wish) return refuse(wish.finding(), output);
    store::Files& files = store::posix_files();
    const Result<std::string> device = store::device_name(files);
    if (!device) return refuse(device.finding(), output);
    door::Imported imported;
    const auto lines_for = [&](std::string_view now) -> Result<store::Lines> {
        std::unique_ptr<Book> into;
        if (!now.empty()) {
            Result<std::unique_ptr<Book>> book = read_book(std::string(now));
            if (!book) return book.finding();
            into = std::move(*book);
        }
        imported = door::import_any(*bytes, into.get(), *wish);
        if (imported.lines.empty())
            return finding(Code::ImportRow, {file_name(arguments.file)}, "nothing is imported",
                           "correct what is named, then import again");
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
