// cautions: what must be said where a table shows how deep to dig and how little lies over a pipe.
//
// Never a judgement of support by depth alone, and never that none is needed: shallower trenches fall in too,
// the competent person decides support at every depth, and local codes hold. The depth named is a rule of
// thumb: 1.2 m (HSE leaflet on excavations, industry's rule of thumb, no legal limit: SA-04), in books in
// feet 5 ft (29 CFR 1926.652(a): SA-01). Inside setout only.
#pragma once

#include "setout/setout.h"

namespace fallwright {

void caution(const Book& book, const SetoutTable& table, Findings& findings);

}  // namespace fallwright
