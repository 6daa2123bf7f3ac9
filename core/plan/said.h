// said: what a person should know of a plan, as findings. Inside plan only.
//
// What cannot be proved is said with what would help: what the steps bring it to, or that no step does. One
// finding for each line and surface; readings that nothing guards together.
#pragma once

#include "plan/plan.h"

namespace fallwright {

// book: with the layout in it.
void say_of_plan(const Book& book, Plan& plan);

}  // namespace fallwright
