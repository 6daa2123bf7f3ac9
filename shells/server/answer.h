// answer: what goes back for one request: which file, with which headers.
#pragma once

#include <string>
#include <vector>

#include "shells/server/app_files.h"

namespace fallwright::server {

struct Header {
    const char* name;
    std::string value;
};

struct Asked {
    std::string method, target;
    std::string accept_encoding, if_none_match;  // headers, "" where there are none
};

struct Answer {
    int status = 200;
    std::string type;  // media type of the body
    std::string body;  // "" for 304
    std::vector<Header> headers;
};

// GET and HEAD of files of the app; 404 where there is none, 405 for any other method, 304 where the asker
// has it already, 500 where a file cannot be read. Every answer carries the headers that keep the app to
// itself: nothing from elsewhere, no inline script, no evaluation but WebAssembly's, no guessing of types, no
// referrer, no frames. Files whose name changes with their content may be kept for a year; all others are
// asked for again each time.
Answer answer(const AppFiles& files, const Asked& asked);

}  // namespace fallwright::server
