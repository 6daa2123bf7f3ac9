#include "exchange/door/door.h"

#include <nlohmann/json.hpp>

#include "base/json_out.h"
#include "desk/options.h"
#include "desk/write_json.h"
#include "exchange/door/export_book.h"
#include "exchange/door/import_any.h"

namespace fallwright::door {

namespace {

using Json = nlohmann::json;

// Stops as soon as the verb is found: a request may hold a book of many megabytes.
class VerbSeeker final : public nlohmann::json_sax<Json> {
  public:
    std::string verb;

    bool null() override { return true; }
    bool boolean(bool) override { return true; }
    bool number_integer(number_integer_t) override { return true; }
    bool number_unsigned(number_unsigned_t) override { return true; }
    bool number_float(number_float_t, const string_t&) override { return true; }
    bool binary(binary_t&) override { return true; }
    bool string(string_t& value) override {
        if (depth_ != 1 || key_ != "verb") return true;
        verb = value;
        return false;
    }
    bool start_object(std::size_t) override { return ++depth_ > 0; }
    bool key(string_t& name) override {
        if (depth_ == 1) key_ = name;
        return true;
    }
    bool end_object() override { return --depth_ >= 0; }
    bool start_array(std::size_t) override { return ++depth_ > 0; }
    bool end_array() override { return --depth_ >= 0; }
    bool parse_error(std::size_t, const std::string&, const Json::exception&) override { return false; }

  private:
    int depth_ = 0;
    std::string key_;
};

bool is_ours(std::string_view request, std::string& verb) {
    VerbSeeker seeker;
    Json::sax_parse(request, &seeker);
    verb = seeker.verb;
    return verb == "export" || verb == "import";
}

std::string bad_request(std::vector<std::string> about, std::string message) {
    return error_json(finding(Code::BadRequest, std::move(about), std::move(message)));
}

const Json& options_of(const Json& request) {
    static const Json none = Json::object();
    const auto found = request.find("options");
    return found == request.end() ? none : *found;
}

void set(desk::Options& options, const char* name, std::string& to) {
    if (const auto given = options.text(name)) to = *given;
}

std::string exported_json(const Exported& made) {
    JsonOut out;
    out.begin_object().integer("version", format_version).text("name", made.name).text("type", made.type);
    out.text("text", made.text);
    write_findings(out, made.notes);
    out.end_object();
    return out.take();
}

ExportWish export_wish(desk::Options& options) {
    ExportWish wish;
    set(options, "as", wish.as);
    set(options, "table", wish.table);
    set(options, "line", wish.line);
    set(options, "setup", wish.setup);
    set(options, "every", wish.every);
    wish.what = options.texts("what");
    return wish;
}

// text: of the book, where it is at hand.
std::string exported(const desk::OpenBook& open, const std::string* text, const Json& request) {
    desk::Options options(options_of(request));
    const ExportWish wish = export_wish(options);
    if (options.fault()) return error_json(*options.fault());
    if (wish.as == "jsonl" && text == nullptr)
        return bad_request({"as"}, "whoever opened the book holds its text");
    if (wish.as == "jsonl") {
        const std::string& title = desk::book_of(open)->title;
        return exported_json({file_name(title, "", "book.jsonl"), "application/jsonl", *text, {}});
    }
    const Result<Exported> made = export_book(open, wish);
    return made ? exported_json(*made) : error_json(made.finding());
}

ImportWish import_wish(desk::Options& options) {
    ImportWish wish;
    text::CsvOptions& sheet = wish.list.sheet;
    set(options, "as", wish.as);
    set(options, "use", wish.use);
    set(options, "name", sheet.sheet_name);
    set(options, "title", sheet.title);
    set(options, "datum", sheet.datum);
    set(options, "unit", sheet.unit);
    set(options, "line", sheet.line);
    set(options, "what", sheet.what);
    set(options, "instrument", sheet.instrument);
    set(options, "type", sheet.instrument_type);
    set(options, "date", sheet.date);
    set(options, "sheet_unit", sheet.sheet_unit);
    std::string levels;
    set(options, "levels", levels);
    wish.list.levels = levels == "known"    ? tables::Levels::Known
                       : levels == "wanted" ? tables::Levels::Wanted
                                            : tables::Levels::Unsaid;
    if (!levels.empty() && wish.list.levels == tables::Levels::Unsaid)
        options.refuse(finding(Code::BadRequest, {"levels"}, "levels is neither known nor wanted"));
    if (const auto sd = options.length("sd")) {
        wish.sd = sd->metres();
        wish.sd_given = true;
        if (!(wish.sd > 0)) options.refuse(finding(Code::BadRequest, {"sd"}, "sd must be above 0"));
    }
    return wish;
}

std::string imported(const Book* into, const Json& request) {
    desk::Options options(options_of(request));
    const ImportWish wish = import_wish(options);
    const std::optional<std::string> file = options.text("file");
    if (options.fault()) return error_json(*options.fault());
    if (!file) return bad_request({"file"}, "verb import needs the text of a file");
    const Imported made = import_any(*file, into, wish);
    JsonOut out;
    out.begin_object().integer("version", format_version).key("lines").begin_array();
    for (const std::string& line : made.lines) out.raw(line);
    out.end_array();
    write_findings(out, made.findings);
    out.end_object();
    return out.take();
}

// Of a request that is whole and one of ours.
std::string done(const std::string& verb, const desk::OpenBook* open, const std::string* text,
                 const Json& request) {
    if (!options_of(request).is_object()) return bad_request({"options"}, "options is no object");
    if (verb == "import") return imported(open == nullptr ? nullptr : desk::book_of(*open).get(), request);
    if (open == nullptr) return bad_request({"book"}, "verb export needs a book");
    return exported(*open, text, request);
}

}  // namespace

std::string answer(std::string_view request) {
    std::string verb;
    if (!is_ours(request, verb)) return desk::answer(request);
    const Json parsed = Json::parse(request, nullptr, false);
    if (!parsed.is_object()) return desk::answer(request);
    if (!parsed.contains("book")) return done(verb, nullptr, nullptr, parsed);
    if (!parsed["book"].is_string()) return bad_request({"book"}, "book is no text");
    const std::string text = parsed["book"].get<std::string>();
    const auto open = desk::open(text);
    if (!open) return desk::refuse(open.finding());
    return done(verb, open->get(), &text, parsed);
}

std::string run(const desk::OpenBook& book, std::string_view request) {
    std::string verb;
    if (!is_ours(request, verb)) return desk::run(book, request);
    const Json parsed = Json::parse(request, nullptr, false);
    if (!parsed.is_object()) return desk::run(book, request);
    return done(verb, &book, nullptr, parsed);
}

}  // namespace fallwright::door
