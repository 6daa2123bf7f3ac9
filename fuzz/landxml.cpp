// Any text is LandXML or refused; what is taken of it becomes entries without an error, or none at all.
#include "exchange/landxml/landxml.h"

#include "book/book.h"
#include "exchange/handover/entries.h"
#include "exchange/text/text_decode.h"
#include "fuzz/fuzz.h"

using namespace fallwright;

namespace {

bool has_error(const Findings& findings) {
    for (const Finding& each : findings) {
        if (catalogue(each.code).severity == Severity::Error) return true;
    }
    return false;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    // As the door reads a file: what is no text never comes to the reader.
    text::SheetFindings said(1);
    const std::optional<std::string> text = text::to_utf8(fuzz::text(data, size), said);
    if (!text) return 0;
    const landxml::Read read = landxml::read_landxml(*text);
    if (has_error(read.findings)) return 0;
    fuzz::must(read.found.any(), "what is not refused holds something");
    const handover::Prepared made = handover::entries_of(read.found, nullptr, {});
    fuzz::must(!has_error(made.findings) || made.lines.empty(), "nothing is half imported");
    if (made.lines.empty()) return 0;
    std::string lines;
    for (const std::string& line : made.lines) lines += line + "\n";
    fuzz::must(static_cast<bool>(read_book(std::move(lines))), "what is imported is a book");
    return 0;
}
