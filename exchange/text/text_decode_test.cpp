#include "exchange/text/text_decode.h"

#include <gtest/gtest.h>
#include <iconv.h>

#include <optional>
#include <string>

namespace fallwright::text {
namespace {

// The C library's converter, independent of ours. Nothing where it refuses.
std::optional<std::string> converted(std::string bytes, const char* from) {
    iconv_t converter = iconv_open("UTF-8", from);
    std::string out(bytes.size() * 4 + 4, '\0');
    char* in_at = bytes.data();
    char* out_at = out.data();
    std::size_t in_left = bytes.size();
    std::size_t out_left = out.size();
    const bool done = iconv(converter, &in_at, &in_left, &out_at, &out_left) != static_cast<std::size_t>(-1);
    iconv_close(converter);
    out.resize(out.size() - out_left);
    return done && in_left == 0 ? std::optional<std::string>(out) : std::nullopt;
}

std::optional<std::string> decoded(std::string_view bytes, Findings* findings = nullptr) {
    SheetFindings gathered(10);
    std::optional<std::string> text = to_utf8(bytes, gathered);
    if (findings != nullptr) *findings = gathered.take();
    return text;
}

TEST(TextDecode, EightBitTextIsWindows1252AsTheCLibraryHasIt) {
    for (int byte = 0x80; byte < 0x100; ++byte) {
        const std::string bytes = "a" + std::string(1, static_cast<char>(byte)) + "b";
        EXPECT_EQ(decoded(bytes), converted(bytes, "CP1252")) << byte;
    }
}

TEST(TextDecode, EightBitTextIsSaidToBeAssumed) {
    Findings findings;
    ASSERT_TRUE(decoded("H\xF6he", &findings));
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_EQ(findings[0].code, Code::ImportAssumedEncoding);
}

TEST(TextDecode, Utf16OfBothEndsIsAsTheCLibraryHasIt) {
    const std::string text = "Punkt;H\xC3\xB6he;\xE2\x88\x91;\xF0\x9F\x93\x90\n";
    for (const char* form : {"UTF-16LE", "UTF-16BE"}) {
        iconv_t converter = iconv_open(form, "UTF-8");
        std::string in = text;
        std::string out(text.size() * 4, '\0');
        char* in_at = in.data();
        char* out_at = out.data();
        std::size_t in_left = in.size();
        std::size_t out_left = out.size();
        ASSERT_NE(iconv(converter, &in_at, &in_left, &out_at, &out_left), static_cast<std::size_t>(-1));
        iconv_close(converter);
        out.resize(out.size() - out_left);
        const std::string mark = std::string(form) == "UTF-16LE" ? "\xFF\xFE" : "\xFE\xFF";
        EXPECT_EQ(decoded(mark + out), text) << form;
        EXPECT_EQ(decoded(out), text) << form << " without a mark";
    }
}

TEST(TextDecode, Utf8IsKeptAndItsMarkGoes) {
    EXPECT_EQ(decoded("\xEF\xBB\xBFH\xC3\xB6he"), "H\xC3\xB6he");
    EXPECT_EQ(decoded("plain"), "plain");
    EXPECT_EQ(decoded(""), "");
}

TEST(TextDecode, WhatCannotBeReadIsRefusedWithTheCure) {
    using namespace std::string_literals;
    const std::string broken[] = {
        "PK\x03\x04 a workbook"s,
        "\xD0\xCF\x11\xE0 an old workbook"s,
        "\xFF\xFE"
        "a"s,                         // half a unit at the end
        "\xFF\xFE\x00\xD8"s,          // half of a surrogate pair
        "\xFF\xFE\x00\xDC\x41\x00"s,  // the second half first
        "a\0b"s,                      // zero bytes that are no UTF-16
        "H\xC3\xB6he and H\xF6he"s,   // partly UTF-8
        "\xEF\xBB\xBFH\xF6he"s,       // marked as UTF-8 and is not
        "a\x81"s,                     // not in Windows-1252
    };
    for (const std::string& bytes : broken) {
        Findings findings;
        EXPECT_FALSE(decoded(bytes, &findings)) << bytes;
        ASSERT_EQ(findings.size(), 1U);
        EXPECT_EQ(findings[0].code, Code::ImportEncoding);
        EXPECT_NE(findings[0].cure.find("UTF-8"), std::string::npos);
    }
}

// RFC 3629: no overlong forms, no surrogates, nothing above U+10FFFF.
TEST(TextDecode, FalseUtf8IsNotTakenAsUtf8) {
    for (const char* bytes :
         {"\xC0\x80", "\xE0\x80\x80", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xF0\x80\x80\x80"}) {
        const std::string text = std::string("\xC3\xB6 ") + bytes;
        EXPECT_FALSE(decoded(text)) << text;
    }
}

}  // namespace
}  // namespace fallwright::text
