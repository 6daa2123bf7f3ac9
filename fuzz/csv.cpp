// Any spreadsheet gives entries or findings, never both half; what it gives is a book. The first byte chooses
// how it is asked for.
#include "book/book.h"
#include "exchange/text/level_csv.h"
#include "fuzz/fuzz.h"

using namespace fallwright;

namespace {

text::CsvOptions options_of(unsigned choice) {
    text::CsvOptions options;
    options.title = "fuzzed";
    options.sheet_name = "fuzzed.csv";
    if ((choice & 1U) != 0) options.line = "D1";
    if ((choice & 2U) != 0) options.unit = "ft";
    if ((choice & 4U) != 0) options.sheet_unit = "mm";
    if ((choice & 8U) != 0) options.separator = ';';
    if ((choice & 16U) != 0) options.decimal_mark = ',';
    return options;
}

bool has_error(const Findings& findings) {
    for (const Finding& each : findings) {
        if (catalogue(each.code).severity == Severity::Error) return true;
    }
    return false;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size == 0) return 0;
    const std::string sheet = fuzz::text(data + 1, size - 1);
    // Seeds begin with a blank: no options.
    const text::ImportedBook made = text::import_level_csv(sheet, options_of(data[0] ^ unsigned{' '}));
    fuzz::must(!has_error(made.findings) || made.lines.empty(), "nothing is half imported");
    if (made.lines.empty()) return 0;
    std::string lines;
    for (const std::string& line : made.lines) lines += line + "\n";
    const Result<std::unique_ptr<Book>> book = read_book(std::move(lines));
    fuzz::must(static_cast<bool>(book), "what is imported is a book");
    fuzz::must(!has_error((*book)->findings), "without an error");
    return 0;
}
