// append_tool add BOOK ENTRY...: adds entries (JSON objects) with id, at and by, straight through the store.
//
// The smallest program that answers as `fallwright add` does, for the scripts of this folder to drive while
// the command line is not what is tested: exit 0 and the ids on standard output once everything is durable;
// exit 2 and one line on standard error if not. A new book gets its first line. --together: all entries or
// none, also after a power cut.
#include <cstdio>
#include <exception>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/json_out.h"
#include "store/book_file.h"
#include "store/device.h"
#include "store/stamp.h"

namespace {

using namespace fallwright;

std::string stamped(const std::string& id, const std::string& by, std::string_view entry) {
    std::string line = "{";
    for (const auto& [name, value] :
         {std::pair<const char*, std::string>{"id", id}, {"at", store::now_rfc3339()}, {"by", by}}) {
        append_json_string(line, name);
        line += ':';
        append_json_string(line, value);
        line += ',';
    }
    return line += entry.substr(1);
}

int refuse(const Finding& why) {
    std::fprintf(stderr, "%s\n", one_line(why).c_str());
    return 2;
}

int add(bool together, const std::string& book, const std::vector<std::string>& entries) {
    store::Files& files = store::posix_files();
    const Result<std::string> device = store::device_name(files);
    if (!device) return refuse(device.finding());
    const std::string by = store::user_name();
    const auto compose = [&](std::string_view now) -> Result<store::Lines> {
        store::Ids ids(*device, now);
        store::Lines lines;
        if (now.empty()) lines.push_back(R"({"kind":"book","format":"fallwright","version":1})");
        for (const std::string& entry : entries) lines.push_back(stamped(ids.next(), by, entry));
        return lines;
    };
    const auto added = together ? store::append_together(files, book, store::IfAbsent::Create, compose)
                                : store::append(files, book, store::IfAbsent::Create, compose);
    if (!added) return refuse(added.finding());
    for (const std::string& line : added->lines) {
        if (line.rfind("{\"id\":\"", 0) == 0)
            std::printf("%s\n", line.substr(7, line.find('"', 7) - 7).c_str());
    }
    return 0;
}

}  // namespace

int main(int count, char** words) try {
    std::vector<std::string> given(words + 1, words + count);
    const bool together = !given.empty() && given.front() == "--together";
    if (together) given.erase(given.begin());
    if (given.size() < 3 || given.front() != "add") {
        std::fprintf(
            stderr,
            "append_tool: what to add is missing; write append_tool [--together] add BOOK ENTRY...\n");
        return 2;
    }
    return add(together, given[1], {given.begin() + 2, given.end()});
} catch (const std::exception& why) {
    std::fprintf(stderr, "append_tool: %s\n", why.what());
    return 2;
}
