// Addresses in a response: levels[B].level, pages[0].rows[3].level, lines[R1].stations[ch=8, what=ground].sd.
//
//   name      a member                        [3]  the fourth element, [-1] the last
//   [TEXT]    the first element that has TEXT as its id, else as its point, name, what, setup, line, code,
//   from, to [a=X, b=Y] the first element whose members a and b have these values .count    how many elements
//   or members there are
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

namespace fallwright::cases {

using Json = nlohmann::ordered_json;

struct Found {
    bool there = false;
    Json value;
    std::string why;  // not there: which part of the path leads nowhere
};

Found find_path(const Json& response, std::string_view path);

}  // namespace fallwright::cases
