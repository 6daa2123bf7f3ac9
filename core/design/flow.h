// flow: which way water runs along a line. The one place where this is decided.
//
// As the line says. Left open: as the ends of its profile fall, level ends count as with chainage. The ends
// are those of the profile and chambers as written, before any join: were they to fall the other way once
// joined, that is a finding of the design and no reason to turn every fall of the line round.
//
// Where the profile leans on points found, which end is higher may only be known once they are: then
//   - where the design itself depends on the flow (chambers that step, joins, pipes that meet) it is taken to
//     run with chainage, and a finding asks for `flow`;
//   - else the levels found decide, with chainage while they are not there.
// So the answer never differs between one who has levels and one who has none.
#pragma once

#include "book/line_entry.h"
#include "design/design_level.h"

namespace fallwright {

// True: with chainage.
bool runs_with_chainage(const LineEntry& line, const LevelOf& level_of);

// The same for those who have no levels. assumed: only levels could tell, and the design depends on it.
struct BuiltFlow {
    bool with_chainage = true;
    bool assumed = false;
};
BuiltFlow flow_without_levels(const LineEntry& line);

}  // namespace fallwright
