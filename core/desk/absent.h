// Inside desk only.
#pragma once

#include <string_view>

#include "base/json_out.h"

namespace fallwright {

// What is not there is null in an answer, never an empty text.
inline void text_or_null(JsonOut& out, std::string_view key, std::string_view text) {
    if (text.empty()) {
        out.null(key);
    } else {
        out.text(key, text);
    }
}

}  // namespace fallwright
