#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <system_error>

#include "desk/figure_answer.h"
#include "exchange/door/door.h"
#include "exchange/door/export_book.h"
#include "sheet/render.h"
#include "shells/cli/beside.h"
#include "shells/cli/files.h"
#include "shells/cli/verbs.h"
#include "shells/cli/words.h"
#include "store/book_file.h"
#include "store/file.h"

namespace fallwright::cli {

namespace {

// Exports may be made again and again over the one before; a book must never be lost under one.
bool holds_a_book(const std::string& path) {
    std::array<char, 256> head{};
    std::ifstream file(path, std::ios::binary);
    file.read(head.data(), head.size());
    const std::string_view read(head.data(), static_cast<std::size_t>(file.gcount()));
    return read.find("\"fallwright\"") != std::string_view::npos &&
           read.find("\"book\"") != std::string_view::npos;
}

Finding would_be_lost(const std::string& path) {
    return finding(Code::BadFile, {path}, "there is a book, which an export would overwrite",
                   "name another file");
}

// The bytes of a book as a file of its own: all of them or none, and never over anything.
std::optional<Finding> write_book(const std::string& path, const std::string& bytes) {
    std::FILE* made = std::fopen(path.c_str(), "wbx");
    if (made == nullptr)
        return std::filesystem::exists(path)
                   ? finding(Code::BadFile, {path}, "there is a file of that name", "name another file")
                   : finding(Code::BadFile, {path}, "the file cannot be written");
    std::fclose(made);
    const auto change = [&](std::string_view now) -> Result<std::string> {
        if (!now.empty()) return would_be_lost(path);
        return bytes;
    };
    const Result<std::string> written = store::rewrite(store::posix_files(), path, change);
    if (written) return std::nullopt;
    std::remove(path.c_str());
    return written.finding();
}

std::string request_of(const ExportArguments& arguments, const std::string& as, const std::string& book) {
    nlohmann::ordered_json options = {{"as", as}};
    const std::array<std::pair<const char*, const std::string*>, 4> given = {{{"table", &arguments.table},
                                                                              {"line", &arguments.line},
                                                                              {"setup", &arguments.setup},
                                                                              {"every", &arguments.every}}};
    for (const auto& [name, value] : given) {
        if (!value->empty()) options[name] = *value;
    }
    if (!arguments.what.empty()) options["what"] = arguments.what;
    nlohmann::ordered_json request = {{"verb", "export"}, {"options", options}, {"book", book}};
    return request.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

door::ExportWish wish_of(const ExportArguments& arguments, const std::string& as) {
    door::ExportWish wish;
    wish.as = as;
    if (!arguments.table.empty()) wish.table = arguments.table;
    wish.line = arguments.line;
    wish.setup = arguments.setup;
    wish.every = arguments.every;
    wish.what = arguments.what;
    return wish;
}

// The door knows the formats of other programs; workbooks and drawings are made on this side of it.
std::string format_wanted(const ExportArguments& arguments) {
    if (!arguments.as.empty()) return arguments.as;
    const std::string ending = std::filesystem::path(arguments.to).extension().string();
    if (ending == ".xlsx" || ending == ".svg") return ending.substr(1);
    return door::format_of(arguments.to);
}

// A workbook wants a library of its own, and is all of the book: fallwright-paper writes it.
std::vector<std::string> workbook_words(const ExportArguments& arguments, const Output& output) {
    std::vector<std::string> words = {"export", arguments.book, "--to", arguments.to};
    if (output.json) words.emplace_back("--json");
    return words;
}

int write_and_say(const std::string& path, const std::string& bytes, bool is_book, const Findings& notes,
                  const Output& output) {
    std::error_code none;
    if (!is_book && std::filesystem::is_regular_file(path, none) && holds_a_book(path))
        return refuse(would_be_lost(path), output);
    if (const auto fault = is_book ? write_book(path, bytes) : write_file(path, bytes))
        return refuse(*fault, output);
    if (!output.json) {
        std::printf("%s: %zu bytes\n", path.c_str(), bytes.size());
        std::fputs(findings_text(notes).c_str(), stdout);
    }
    return 0;
}

// "lane.svg", and where a drawing has several sheets "lane-1.svg", "lane-2.svg".
std::string sheet_path(const std::string& to, std::size_t sheet, std::size_t sheets) {
    if (sheets == 1) return to;
    const std::filesystem::path path(to);
    const std::string name =
        path.stem().string() + "-" + std::to_string(sheet + 1) + path.extension().string();
    return (path.parent_path() / name).string();
}

int export_drawing(const ExportArguments& arguments, const Output& output) {
    if (arguments.figure.empty())
        return refuse(finding(Code::BadRequest, {"figure"}, "it is not said which drawing",
                              "say --figure long-section, or another that --help names"),
                      output);
    nlohmann::json object = nlohmann::json::object();
    for (const auto& [name, value] :
         {std::pair("figure", &arguments.figure), std::pair("line", &arguments.line),
          std::pair("surface", &arguments.surface)}) {
        if (!value->empty()) object[name] = *value;
    }
    const Result<std::shared_ptr<const Book>> book = open_book(arguments.book);
    if (!book) return refuse(book.finding(), output);
    desk::Options options(object);
    const Result<FigureAnswer> answer = figure_answer(*book, options);
    if (!answer) return refuse(answer.finding(), output);
    if (output.json) std::printf("%s\n", figures_json(*answer).c_str());
    if (arguments.to.empty()) return 0;
    for (std::size_t i = 0; i < answer->figures.size(); ++i) {
        const std::string path = sheet_path(arguments.to, i, answer->figures.size());
        const int code = write_and_say(path, sheet::svg_of(answer->figures[i]), false, {}, output);
        if (code != 0) return code;
    }
    return 0;
}

}  // namespace

int export_file(const ExportArguments& arguments, const Output& output) {
    const std::string as = format_wanted(arguments);
    if (arguments.to.empty() && !output.json)
        return refuse(
            finding(Code::BadRequest, {"to"}, "it is not said where to", "name a file: --to levels.csv"),
            output);
    if (as.empty())
        return refuse(finding(Code::BadRequest, {arguments.to}, "the ending of the file says no format",
                              "end it in .csv, .xlsx, .xml, .geojson, .svg or .jsonl, or say --as"),
                      output);
    if (as == "svg") return export_drawing(arguments, output);
    if (as == "xlsx") return become("paper", workbook_words(arguments, output));
    const Result<std::string> bytes = read_file(arguments.book);
    if (!bytes) return refuse(bytes.finding(), output);
    if (output.json) {
        const std::string answer = door::answer(request_of(arguments, as, *bytes));
        const nlohmann::json parsed = nlohmann::json::parse(answer, nullptr, false);
        std::printf("%s\n", answer.c_str());
        if (!parsed.contains("text")) return 2;
        if (arguments.to.empty()) return 0;
        return write_and_say(arguments.to, parsed["text"].get<std::string>(), as == "jsonl", {}, output);
    }
    const auto open = desk::open(*bytes);
    if (!open) {
        Finding found = open.finding();
        found.about.insert(found.about.begin(), arguments.book);
        return refuse(found, output);
    }
    if (as == "jsonl") return write_and_say(arguments.to, *bytes, true, {}, output);
    const Result<door::Exported> made = door::export_book(**open, wish_of(arguments, as));
    if (!made) return refuse(made.finding(), output);
    return write_and_say(arguments.to, made->text, false, made->notes, output);
}

}  // namespace fallwright::cli
