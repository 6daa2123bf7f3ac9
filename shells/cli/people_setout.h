// people_setout: a station table and its cards as people read them, on a screen or on paper.
#pragma once

#include <string>

#include "desk/setout_answer.h"

namespace fallwright::cli {

// The target first; dig and fill by word and shape. Cards after the table, what to look at last.
std::string setout_text(const SetoutAnswer& answer);

}  // namespace fallwright::cli
