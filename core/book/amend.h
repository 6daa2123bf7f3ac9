// amend: which entries are struck, and how amended ones read.
//
// `of` names an entry above its own line, so the lines are settled from the last to the first: when an entry
// is reached, all that speaks of it is already settled. A strike of a strike or an amend undoes it. The
// amends of one entry apply in time order, ties by line; one whose `was` differs from what stands is not
// applied.
//
// Inside book only.
#pragma once

#include <cstdint>
#include <string>
#include <unordered_map>
#include <vector>

#include "base/finding.h"
#include "book/book.h"
#include "book/change.h"

namespace fallwright {

struct Settled {
    std::vector<bool> struck;                              // per entry
    std::unordered_map<std::uint32_t, std::string> texts;  // entries that read differently now
    std::vector<BookChange> changes;                       // by line, also those that were struck themselves
    Findings findings;
};

// The entry of each id, by its number; no_entry where it is no id. May be shorter than the names there are.
using EntryOfId = std::vector<std::uint32_t>;
constexpr std::uint32_t no_entry = 0xFFFFFFFF;

// Needs entries with their kind, id and at.
Settled settle_amendments(const Book& book, const EntryOfId& by_id);

}  // namespace fallwright
