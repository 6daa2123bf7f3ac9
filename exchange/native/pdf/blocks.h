// blocks: each kind of block onto the sheets. Inside pdf only.
#pragma once

#include "exchange/native/pdf/flow.h"

namespace fallwright::pdf {

constexpr Style body{3.5, false}, strong{3.5, true}, small{2.8, false}, small_strong{2.8, true};

// Height that a block needs at least where it begins, so that what stands before it can stay with it: its
// first lines, a table's head and first rows, a figure as a whole.
double lead_of(Flow& flow, const sheet::Statement& statement);
double lead_of(Flow& flow, const sheet::List& list);
double lead_of(Flow& flow, const sheet::Facts& facts);
double lead_of(Flow& flow, const sheet::Table& table);
double lead_of(Flow& flow, const sheet::Drawn& drawn);
double lead_of(Flow& flow, const sheet::Signature& signature);
// Whether it comes onto a turned sheet.
bool turns(Flow& flow, const sheet::Table& table);
bool turns(Flow& flow, const sheet::Drawn& drawn);

void place(Flow& flow, const sheet::Statement& statement);
void place(Flow& flow, const sheet::List& list);
void place(Flow& flow, const sheet::Facts& facts);
void place(Flow& flow, const sheet::Table& table);
void place(Flow& flow, const sheet::Drawn& drawn);
void place(Flow& flow, const sheet::Signature& signature);

}  // namespace fallwright::pdf
