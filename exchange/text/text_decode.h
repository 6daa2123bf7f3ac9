// to_utf8: the bytes of a text file as spreadsheets write them -> UTF-8.
//
// Known by its mark: UTF-8 (EF BB BF), UTF-16 little and big end first (FF FE, FE FF). Without a mark: UTF-16
// by its zero bytes, else UTF-8 where it is valid, else Windows-1252, which is Latin-1 with printable
// characters in 80..9F: a note says so, since nothing in the file proves it. Refused (import-encoding), each
// with its cure: a workbook instead of text, half a character at the end, lone surrogates, zero bytes, text
// partly in UTF-8 and partly not, bytes that Windows-1252 does not have.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "exchange/text/sheet_findings.h"

namespace fallwright::text {

// Nothing where the bytes are refused; the finding is in `findings`.
std::optional<std::string> to_utf8(std::string_view bytes, SheetFindings& findings);

}  // namespace fallwright::text
