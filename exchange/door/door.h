// door: the desk, and in front of it what needs other programs' formats: the verbs export and import.
//
// The core knows no format of others, so the desk cannot have these verbs; the shells ask here, and whatever
// is neither export nor import goes on to the desk unchanged. Same border: a request in, a response out, both
// JSON; pure, same request, same bytes.
//
//   export   options as csv, landxml, geojson or jsonl; table, line, setup, every, what of csv
//            -> {version, name, type, text, findings}
//   import   options file (its text), name, as, and those of import_any.h; book may be absent: a new one
//            -> {version, lines: [entries in the order to append them, without id, at, by], findings}
#pragma once

#include <string>
#include <string_view>

#include "desk/desk.h"

namespace fallwright::door {

// As desk::answer and desk::run. With an open book jsonl is refused: whoever opened it holds its text.
std::string answer(std::string_view request);
std::string run(const desk::OpenBook& book, std::string_view request);

}  // namespace fallwright::door
