// card: what a person does at the machine, line by line, in the machine's own sign, side and unit.
//
// The order is that of the work: clear what is in it, aim, key in both axes, prove. Pure text from a dial;
// figures by the printing rule, as many decimals as the machine's step shows.
#pragma once

#include <string>
#include <vector>

#include "dial/dial.h"

namespace fallwright {

// One sentence a line, without a full stop.
std::vector<std::string> keypad_card(const DialBasis& basis, const Dial& dial);

// "-1.250 %": a figure as the machine shows it, with its sign; "-" where it cannot be set.
std::string keyed_text(const Instrument& machine, double keyed);

}  // namespace fallwright
