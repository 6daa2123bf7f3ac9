#include "exchange/text/text_decode.h"

#include <algorithm>
#include <array>
#include <cstdint>

namespace fallwright::text {

namespace {

constexpr char32_t no_character = 0xFFFFFFFFU;
constexpr const char* save_as_utf8 = "save the sheet as CSV in UTF-8, then import that file";

unsigned char byte_at(std::string_view bytes, std::size_t i) {
    return static_cast<unsigned char>(bytes[i]);
}

void append_utf8(std::string& out, char32_t c) {
    const auto put = [&out](char32_t byte) { out += static_cast<char>(byte); };
    if (c < 0x80) {
        put(c);
    } else if (c < 0x800) {
        put(0xC0 | c >> 6);
        put(0x80 | (c & 0x3F));
    } else if (c < 0x10000) {
        put(0xE0 | c >> 12);
        put(0x80 | (c >> 6 & 0x3F));
        put(0x80 | (c & 0x3F));
    } else {
        put(0xF0 | c >> 18);
        put(0x80 | (c >> 12 & 0x3F));
        put(0x80 | (c >> 6 & 0x3F));
        put(0x80 | (c & 0x3F));
    }
}

// Bytes of the UTF-8 character at i, 0 where there is no valid one (overlong forms and surrogates are none).
std::size_t utf8_length(std::string_view bytes, std::size_t i) {
    const unsigned char lead = byte_at(bytes, i);
    if (lead < 0x80) return 1;
    const std::size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
    if (lead < 0xC2 || lead > 0xF4 || i + length > bytes.size()) return 0;
    for (std::size_t k = 1; k < length; ++k) {
        if ((byte_at(bytes, i + k) & 0xC0U) != 0x80U) return 0;
    }
    const unsigned char second = byte_at(bytes, i + 1);
    const bool overlong = (lead == 0xE0 && second < 0xA0) || (lead == 0xF0 && second < 0x90);
    const bool outside = (lead == 0xED && second > 0x9F) || (lead == 0xF4 && second > 0x8F);
    return overlong || outside ? 0 : length;
}

// How many bytes stand in no valid character, and how many valid characters have more than one byte.
struct Utf8Census {
    std::size_t broken = 0;
    std::size_t wide = 0;
};

Utf8Census census(std::string_view bytes) {
    Utf8Census found;
    for (std::size_t i = 0; i < bytes.size();) {
        const std::size_t length = utf8_length(bytes, i);
        found.broken += length == 0 ? 1 : 0;
        found.wide += length > 1 ? 1 : 0;
        i += std::max<std::size_t>(length, 1);
    }
    return found;
}

// Windows-1252, 80 to 9F, as the Unicode consortium's table CP1252.TXT maps it (from memory); 0: not in it.
constexpr std::array<char32_t, 32> windows_1252 = {
    0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0,      0x017D, 0,      0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};

std::optional<std::string> from_windows_1252(std::string_view bytes) {
    std::string out;
    out.reserve(bytes.size() + bytes.size() / 8);
    for (std::size_t i = 0; i < bytes.size(); ++i) {
        const unsigned char byte = byte_at(bytes, i);
        const bool special = byte >= 0x80 && byte < 0xA0;
        const char32_t c = special ? windows_1252[byte - 0x80U] : byte;
        if (special && c == 0) return std::nullopt;
        append_utf8(out, c);
    }
    return out;
}

class Utf16 {
  public:
    Utf16(std::string_view bytes, bool big_end) : bytes_(bytes), big_end_(big_end) {}

    std::optional<std::string> decoded() {
        if (bytes_.size() % 2 != 0) return std::nullopt;
        std::string out;
        out.reserve(bytes_.size());
        while (at_ < bytes_.size()) {
            const char32_t c = next();
            if (c == no_character) return std::nullopt;
            append_utf8(out, c);
        }
        return out;
    }

  private:
    char32_t unit() {
        const char32_t first = byte_at(bytes_, at_);
        const char32_t second = byte_at(bytes_, at_ + 1);
        at_ += 2;
        return big_end_ ? first << 8 | second : second << 8 | first;
    }

    char32_t next() {
        const char32_t high = unit();
        if (high < 0xD800 || high > 0xDFFF) return high;
        if (high > 0xDBFF || at_ >= bytes_.size()) return no_character;
        const char32_t low = unit();
        if (low < 0xDC00 || low > 0xDFFF) return no_character;
        return 0x10000 + ((high - 0xD800) << 10) + (low - 0xDC00);
    }

    std::string_view bytes_;
    bool big_end_;
    std::size_t at_ = 0;
};

enum class Form : std::uint8_t { Workbook, Utf8, Utf16Little, Utf16Big, Unmarked };

bool starts(std::string_view bytes, std::string_view with) {
    return bytes.substr(0, with.size()) == with;
}

// Text in Latin letters written as UTF-16 has a zero in every second byte of nearly every character.
Form form_by_zeros(std::string_view bytes) {
    const std::string_view head = bytes.substr(0, 4096);
    std::array<std::size_t, 2> zeros{};
    for (std::size_t i = 0; i < head.size(); ++i) zeros[i % 2] += head[i] == '\0' ? 1 : 0;
    if (zeros[1] * 4 > head.size() && zeros[0] == 0) return Form::Utf16Little;
    if (zeros[0] * 4 > head.size() && zeros[1] == 0) return Form::Utf16Big;
    return Form::Unmarked;
}

Form form_of(std::string_view bytes) {
    if (starts(bytes, "PK\x03\x04") || starts(bytes, "\xD0\xCF\x11\xE0")) return Form::Workbook;
    if (starts(bytes, "\xEF\xBB\xBF")) return Form::Utf8;
    if (starts(bytes, "\xFF\xFE")) return Form::Utf16Little;
    if (starts(bytes, "\xFE\xFF")) return Form::Utf16Big;
    return form_by_zeros(bytes);
}

std::optional<std::string> refuse(SheetFindings& findings, std::string message) {
    findings.add(Code::ImportEncoding, {}, std::move(message), save_as_utf8);
    return std::nullopt;
}

std::optional<std::string> eight_bit(std::string_view bytes, bool marked, SheetFindings& findings) {
    const Utf8Census found = census(bytes);
    if (found.broken == 0) return std::string(bytes);
    if (marked || found.wide > 0) return refuse(findings, "the text is partly in UTF-8 and partly not");
    std::optional<std::string> text = from_windows_1252(bytes);
    if (!text) return refuse(findings, "the text is neither in UTF-8 nor in Windows-1252");
    findings.add(Code::ImportAssumedEncoding, {}, "the text is not in UTF-8; it is taken as Windows-1252");
    return text;
}

std::optional<std::string> sixteen_bit(std::string_view bytes, bool big_end, SheetFindings& findings) {
    const std::string_view mark = big_end ? "\xFE\xFF" : "\xFF\xFE";
    if (starts(bytes, mark)) bytes.remove_prefix(mark.size());
    std::optional<std::string> text = Utf16(bytes, big_end).decoded();
    return text ? text : refuse(findings, "the text begins as UTF-16 and breaks off within a character");
}

std::optional<std::string> decoded(std::string_view bytes, SheetFindings& findings) {
    switch (form_of(bytes)) {
        case Form::Workbook:
            return refuse(findings, "the file is a spreadsheet's workbook, not text");
        case Form::Utf8:
            return eight_bit(bytes.substr(3), true, findings);
        case Form::Utf16Little:
            return sixteen_bit(bytes, false, findings);
        case Form::Utf16Big:
            return sixteen_bit(bytes, true, findings);
        case Form::Unmarked:
            break;
    }
    return eight_bit(bytes, false, findings);
}

}  // namespace

std::optional<std::string> to_utf8(std::string_view bytes, SheetFindings& findings) {
    std::optional<std::string> text = decoded(bytes, findings);
    if (text && text->find('\0') != std::string::npos) return refuse(findings, "the text holds zero bytes");
    return text;
}

}  // namespace fallwright::text
