// cures: for every planned reading whose slip nothing would show, the one more reading that changes that.
// Inside plan only.
//
// One reading of a benchmark or a change point may guard many; it is preferred. Else the reading itself is
// taken once more: two readings that nothing else checks share the redundancy, so a slip shows from 4.13 sd
// sqrt2 on.
#pragma once

#include "plan/moves.h"

namespace fallwright {

// Fills Outlook::sights[].cure; `outlook` belongs to the layout.
void find_cures(Grounds& grounds, Assessor& assessor, const Layout& layout, Outlook& outlook);

}  // namespace fallwright
