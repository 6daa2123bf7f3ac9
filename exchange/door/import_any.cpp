#include "exchange/door/import_any.h"

#include <algorithm>
#include <array>
#include <optional>

#include "exchange/geojson/geojson.h"
#include "exchange/handover/entries.h"
#include "exchange/landxml/landxml.h"
#include "exchange/text/text_decode.h"
#include "exchange/xml/xml_document.h"

namespace fallwright::door {

namespace {

bool any_error(const Findings& findings) {
    return std::any_of(findings.begin(), findings.end(),
                       [](const Finding& each) { return catalogue(each.code).severity == Severity::Error; });
}

// The first character that is no white space; UTF-16 has zeros between.
char first_character(std::string_view bytes) {
    constexpr std::size_t head = 512;
    for (const char c : bytes.substr(0, head)) {
        const bool mark = c == '\xEF' || c == '\xBB' || c == '\xBF' || c == '\xFE' || c == '\xFF';
        if (!mark && c != '\0' && c != ' ' && c != '\t' && c != '\n' && c != '\r') return c;
    }
    return '\0';
}

std::string kind_of(std::string_view bytes) {
    const char first = first_character(bytes);
    return first == '<' ? "landxml" : first == '{' || first == '[' ? "geojson" : "csv";
}

// What the book that is there already takes up.
void fit_into(const Book* into, text::CsvOptions& sheet) {
    if (into == nullptr) return;
    sheet.new_book = false;
    sheet.unit = into->unit == Unit::Foot ? "ft" : "m";
    for (const Setup& setup : into->setups) sheet.setups_in_use.push_back(into->name(setup.name));
    for (const Reading& reading : into->readings) sheet.points_in_use.push_back(into->name(reading.point));
    for (const Benchmark& benchmark : into->benchmarks)
        sheet.points_in_use.push_back(into->name(benchmark.point));
    const ByName instruments(into->instruments), lines(into->lines);
    sheet.instrument_in_book = instruments(into->names.find(sheet.instrument)) >= 0;
    sheet.line_in_book = lines(into->names.find(sheet.line)) >= 0;
}

bool encoding_is_read(std::string_view declared) {
    std::string word;
    for (const char c : declared) word += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    constexpr std::array<std::string_view, 6> known = {"",         "utf-8",      "utf-16",
                                                       "us-ascii", "iso-8859-1", "windows-1252"};
    return std::find(known.begin(), known.end(), word) != known.end();
}

class Import {
  public:
    Import(std::string_view bytes, const Book* into, ImportWish wish)
        : bytes_(bytes), into_(into), wish_(std::move(wish)) {}

    Imported all() {
        fit_into(into_, wish_.list.sheet);
        const std::string as = wish_.as.empty() ? kind_of(bytes_) : wish_.as;
        if (as == "landxml")
            land_xml();
        else if (as == "geojson")
            geo_json();
        else if (as == "csv")
            sheet();
        else
            refuse(finding(Code::BadRequest, {"as"}, as + " is no format that is read",
                           "take csv, landxml or geojson"));
        if (any_error(made_.findings)) made_.lines.clear();
        return std::move(made_);
    }

  private:
    void refuse(Finding found) { made_.findings.push_back(std::move(found)); }
    void add(Findings found) {
        for (Finding& each : found) made_.findings.push_back(std::move(each));
    }

    // UTF-8; nothing where the bytes are refused.
    std::optional<std::string> decoded(const char* what) {
        text::SheetFindings findings(1);
        std::optional<std::string> text = text::to_utf8(bytes_, findings);
        for (Finding& each : findings.take()) {
            each.cure = std::string("export the file anew as ") + what + " in UTF-8";
            refuse(std::move(each));
        }
        return text;
    }

    void land_xml() {
        const xml::XmlLimits limits;
        if (bytes_.size() > limits.bytes)
            return refuse(finding(Code::ImportTooLarge, {}, "the file is larger than 64 MB"));
        const std::string_view declared = xml::declared_encoding(bytes_);
        if (!encoding_is_read(declared))
            return refuse(finding(Code::ImportEncoding, {"line 1"},
                                  "the encoding " + std::string(declared.substr(0, 40)) + " is not read",
                                  "export the file anew as LandXML in UTF-8"));
        const std::optional<std::string> text = decoded("LandXML");
        if (!text) return;
        landxml::Read read = landxml::read_landxml(*text);
        take(std::move(read.found), std::move(read.findings));
    }

    void geo_json() {
        const std::optional<std::string> text = decoded("GeoJSON");
        if (!text) return;
        if (text->find("\"fallwright\"") < text->find('\n'))
            return refuse(finding(Code::ImportJson, {}, "the file is a book itself",
                                  "join the two books: fallwright join A B --out C"));
        if (!geojson::is_geojson(*text))
            return refuse(finding(Code::ImportJson, {}, "it is no FeatureCollection and no Feature"));
        if (into_ == nullptr)
            return refuse(finding(
                Code::NoProjection, {}, "a new book does not say how longitude and latitude become its grid",
                "make the book first and add a rule projection; docs/formats/exchange.md has "
                "worked ones"));
        const Result<geojson::Projection> projection = geojson::projection_of(*into_);
        if (!projection) return refuse(projection.finding());
        geojson::Read read = geojson::read_geojson(*text, *projection, into_->unit);
        take(std::move(read.found), std::move(read.findings));
    }

    void sheet() {
        if (!tables::is_point_list(bytes_, wish_.list.sheet)) {
            text::ImportedBook book = text::import_level_csv(bytes_, wish_.list.sheet);
            made_.lines = std::move(book.lines);
            return add(std::move(book.findings));
        }
        tables::ReadList read = tables::read_point_list(bytes_, wish_.list);
        take(std::move(read.found), std::move(read.findings));
    }

    void take(handover::Handover found, Findings findings) {
        const bool failed = any_error(findings);
        add(std::move(findings));
        if (failed) return;
        handover::Intake intake;
        const text::CsvOptions& sheet = wish_.list.sheet;
        intake.source = sheet.sheet_name;
        intake.title = sheet.title;
        intake.datum = sheet.datum;
        intake.unit = sheet.unit;
        intake.use = wish_.use;
        intake.sd = wish_.sd;
        intake.sd_given = wish_.sd_given;
        say_conversion(found);
        handover::Prepared prepared = handover::entries_of(found, into_, intake);
        made_.lines = std::move(prepared.lines);
        add(std::move(prepared.findings));
    }

    void say_conversion(const handover::Handover& found) {
        const std::string& unit = wish_.list.sheet.unit;
        if (unit.empty() || (unit == "ft") == (found.unit == Unit::Foot)) return;
        refuse(finding(Code::ImportConverted, {},
                       found.unit == Unit::Foot
                           ? "the file is in feet, the book in metres; lengths are converted"
                           : "the file is in metres, the book in feet; lengths are converted"));
    }

    std::string_view bytes_;
    const Book* into_;
    ImportWish wish_;
    Imported made_;
};

}  // namespace

Imported import_any(std::string_view bytes, const Book* into, ImportWish wish) {
    return Import(bytes, into, std::move(wish)).all();
}

}  // namespace fallwright::door
