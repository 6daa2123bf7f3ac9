// asked: looking up in the book what a request names. Inside desk only.
//
// What is not in the book, or cannot be, is the request's fault; the first one is kept.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "book/book.h"
#include "desk/options.h"

namespace fallwright::desk {

inline Finding bad_request(std::vector<std::string> about, std::string message, std::string cure) {
    return finding(Code::BadRequest, std::move(about), std::move(message), std::move(cure));
}

// Metres.
inline std::optional<double> length_above_0(Options& options, const char* name) {
    const std::optional<Length> length = options.length(name);
    if (!length) return std::nullopt;
    if (!(length->metres() > 0))
        options.refuse(bad_request({name}, std::string(name) + " must be above 0", "give a length"));
    return length->metres();
}

// Index of an entry of the book by its name; -1, with the fault, where there is none. kind: as people say it.
template <class Entries>
std::int32_t entry_named(const Book& book, const Entries& entries, const std::string& name,
                         const std::string& kind, Options& options) {
    const NameId known = book.names.find(name);
    const std::int32_t index = known == no_name ? -1 : ByName(entries)(known);
    if (index < 0)
        options.refuse(bad_request({name}, kind + " " + name + " is not in the book",
                                   "name a " + kind + " of the book"));
    return index;
}

// Adds what the answer does not say already.
inline void add_unsaid(Findings& said, const Findings& more) {
    for (const Finding& found : more) {
        bool known = false;
        for (const Finding& each : said)
            known = known || (each.code == found.code && each.message == found.message);
        if (!known) said.push_back(found);
    }
}

}  // namespace fallwright::desk
