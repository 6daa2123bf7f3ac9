// read_rule: a rule of the job, and falls as rules and tolerances say them. Inside book only.
#pragma once

#include "book/fields.h"

namespace fallwright {

void read_rule(Fields& fields, Rule& to);

// Positive the way the water runs: what is called a fall is one, whatever its sign along the line.
Maybe read_fall(Fields& fields, std::string_view key);

}  // namespace fallwright
