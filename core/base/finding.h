// Findings: what the tool noticed, as values.
//
// A finding has a stable code from the catalogue (findings.def), names what it is about (entry ids, points,
// set-ups, instruments), says in one sentence what is so, and names the cure. Severity is a property of the
// code:
//   error    something is left out or cannot be told; with --strict the command exits 1
//   warning  everything is evaluated, but a person should look
//   note     said once, so that nobody is surprised
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace fallwright {

// Fixed for each code by the catalogue.
enum class Severity : std::uint8_t { Error, Warning, Note };

// One enumerator for each row of findings.def, in its order.
enum class Code : std::uint16_t {
#define FALLWRIGHT_FINDING(name, text, severity, meaning, cure) name,
#include "base/findings.def"
#undef FALLWRIGHT_FINDING
    count_
};

// `about`: ids of entries first, then names; empty where it is about the book as a whole.
struct Finding {
    Code code = Code::count_;
    std::vector<std::string> about;
    std::string message;
    std::string cure;
};

// One catalogue row. `text` is the code as written in results ("misread-form"), `meaning` the general
// sentence for docs/errors.md, `cure` what is said when the place of the finding has nothing better.
struct CatalogueEntry {
    std::string_view text;
    Severity severity;
    std::string_view meaning;
    std::string_view cure;
};

const CatalogueEntry& catalogue(Code code);
// "error", "warning", "note".
std::string_view severity_word(Severity severity);

// A finding with the catalogue's cure; `message` is one sentence without a trailing full stop.
Finding finding(Code code, std::vector<std::string> about, std::string message);
// The same with a cure of its own.
Finding finding(Code code, std::vector<std::string> about, std::string message, std::string cure);

// One line for people: what, where, the cure.
std::string one_line(const Finding& finding);

// In the order in which they were noticed.
using Findings = std::vector<Finding>;

}  // namespace fallwright
