// entry_text: an entry as typed at the command line -> one JSON object.
//
//   reading point=A staff=1.432             field=value; a value that is JSON is taken as that, anything else
//   as text setup name=S1 plane.bearing=30          a dot goes into an object
//   '{"kind": "reading", "point": "A"}'     the object itself
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "base/result.h"

namespace fallwright::cli {

Result<nlohmann::json> entry_from_words(const std::vector<std::string>& words);
Result<nlohmann::json> entry_from_json(const std::string& text);

}  // namespace fallwright::cli
