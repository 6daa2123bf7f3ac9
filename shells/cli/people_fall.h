// people_fall: the answer to "How much does it fall?" in words.
#pragma once

#include <string>

#include "desk/fall_answer.h"

namespace fallwright::cli {

std::string fall_text(const FallAnswer& answer);

}  // namespace fallwright::cli
