// people_surfaces: measured surfaces as a person reads them: the plane that fits, what to dig and fill, where
// water will stand, how flat.
#pragma once

#include <string>

#include "evaluation/evaluation.h"

namespace fallwright::cli {

// "" where the book has none.
std::string surfaces_text(const Evaluation& evaluation);

}  // namespace fallwright::cli
