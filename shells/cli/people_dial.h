// people_dial: what to set on the laser, as a person reads it: the figures first, then the card, proof,
// costs.
#pragma once

#include <string>

#include "desk/dial_answer.h"

namespace fallwright::cli {

std::string dial_text(const DialAnswer& answer);

}  // namespace fallwright::cli
