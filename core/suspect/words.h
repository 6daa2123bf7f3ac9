// words: what a suspicion is about, and its sentence.
//
// Inside suspect only.
#pragma once

#include <string>
#include <vector>

#include "suspect/causes.h"
#include "suspect/suspect.h"

namespace fallwright {

// As the contract has it: the reading's id, set-up and axis, point and set-up, ...
std::vector<std::string> about_of(const Causes& causes, const Cause& cause);
// "booked 100 mm too large", "set-up 2 shifted by 14.4 mm from reading S2.P8 on": what happened, with its
// size.
std::string sentence_of(const Causes& causes, const Cause& cause, double size, double sd, std::size_t which);
// What to do to be safe where no reading decides any more.
std::string redo_of(const Causes& causes, const Cause& cause);

}  // namespace fallwright
