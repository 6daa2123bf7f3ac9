// read_entry: one record -> one typed entry, appended to the book's vector of its kind.
//
// Inside book only.
#pragma once

#include <utility>
#include <vector>

#include "book/fields.h"

namespace fallwright {

// Required fields, types, ranges and choices are those of contract section 1 (api/schema/v1/entry.schema.json
// says the same). Whether what an entry names exists is not looked at here: settle.h does that once all lines
// are read.

// The kind a record names; Unknown where it names none of this version.
Kind kind_of(std::string_view word);
std::string_view kind_word(Kind kind);

// Reads the record as an entry of `kind` under index `entry`. Findings go to the context; where the entry
// cannot be used nothing is appended and false is returned. Amend, strike and book lines are read elsewhere.
bool read_entry(EntryContext& context, Kind kind, std::uint32_t entry);

// The kinds that say what is wanted rather than what was read: line, tolerance, trial, surface, want, rule,
// relaid, adjusted, remark. Unknown kinds are kept and reported.
bool read_design_entry(EntryContext& context, Kind kind, std::uint32_t entry);

// A surface alone; read_design_entry hands it on.
bool read_surface_entry(EntryContext& context, std::uint32_t entry);

// Appends what `reader` makes of the whole record, if the context is still ok after it.
template <class T, class Reader>
bool append_entry(EntryContext& context, std::uint32_t entry, std::vector<T>& to, Reader reader) {
    T value;
    value.entry = entry;
    Fields fields(context, 0);
    reader(fields, value);
    fields.unknown();
    if (context.ok) to.push_back(std::move(value));
    return context.ok;
}

// The value of a reading or a shot.
Figure read_figure(Fields& fields);

}  // namespace fallwright
