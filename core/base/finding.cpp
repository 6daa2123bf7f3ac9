#include "base/finding.h"

#include <array>
#include <cassert>
#include <utility>

namespace fallwright {

namespace {

constexpr std::array<CatalogueEntry, static_cast<std::size_t>(Code::count_)> entries = {{
#define FALLWRIGHT_FINDING(name, text, severity, meaning, cure) {text, Severity::severity, meaning, cure},
#include "base/findings.def"
#undef FALLWRIGHT_FINDING
}};

}  // namespace

const CatalogueEntry& catalogue(Code code) {
    assert(code < Code::count_);
    return entries[static_cast<std::size_t>(code)];
}

std::string_view severity_word(Severity severity) {
    switch (severity) {
        case Severity::Error:
            return "error";
        case Severity::Warning:
            return "warning";
        case Severity::Note:
            return "note";
    }
    return "error";
}

Finding finding(Code code, std::vector<std::string> about, std::string message) {
    return {code, std::move(about), std::move(message), std::string(catalogue(code).cure)};
}

Finding finding(Code code, std::vector<std::string> about, std::string message, std::string cure) {
    return {code, std::move(about), std::move(message), std::move(cure)};
}

std::string one_line(const Finding& found) {
    std::string line;
    for (const std::string& name : found.about) {
        line += line.empty() ? "" : ", ";
        line += name;
    }
    line += line.empty() ? "" : ": ";
    line += found.message;
    if (!found.cure.empty()) line += "; " + found.cure;
    return line;
}

}  // namespace fallwright
