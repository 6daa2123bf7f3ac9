#include "exchange/text/sheet_findings.h"

#include <algorithm>
#include <utility>

namespace fallwright::text {

namespace {

constexpr std::size_t quoted_characters = 40;

std::vector<std::string> place(const Spot& spot) {
    std::vector<std::string> about;
    if (spot.row > 0) about.push_back("row " + std::to_string(spot.row));
    if (spot.column >= 0) {
        std::string column = "column " + column_letters(spot.column);
        if (!spot.header.empty()) column += ", " + std::string(spot.header);
        about.push_back(std::move(column));
    }
    return about;
}

}  // namespace

std::string column_letters(int column) {
    std::string letters;
    for (int rest = column; rest >= 0; rest = rest / 26 - 1) {
        letters += static_cast<char>('A' + rest % 26);
    }
    std::reverse(letters.begin(), letters.end());
    return letters;
}

std::string quoted(std::string_view text) {
    std::string out = "'";
    std::size_t characters = 0;
    for (const char c : text) {
        const bool continues = (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
        if (!continues && ++characters > quoted_characters) {
            out += "...";
            break;
        }
        out += c == '\n' || c == '\r' ? ' ' : c;
    }
    return out + "'";
}

void SheetFindings::add(Code code, const Spot& spot, std::string message, std::string cure) {
    const bool error = catalogue(code).severity == Severity::Error;
    if (any_error_ && !error) return;
    any_error_ = any_error_ || error;
    if (++counts_[static_cast<std::size_t>(code)] > per_code_) return;
    if (cure.empty()) cure = std::string(catalogue(code).cure);
    findings_.push_back(finding(code, place(spot), std::move(message), std::move(cure)));
}

Findings SheetFindings::take() {
    for (std::size_t code = 0; code < counts_.size(); ++code) {
        if (counts_[code] <= per_code_) continue;
        const std::size_t more = counts_[code] - per_code_;
        findings_.push_back(finding(static_cast<Code>(code), {},
                                    std::to_string(more) + " more of this kind are not listed",
                                    "they are like those listed"));
    }
    return std::move(findings_);
}

}  // namespace fallwright::text
