#include "shells/cli/beside.h"
#include "shells/cli/verbs.h"

namespace fallwright::cli {

int serve_app(const ServeArguments& arguments, const Output& output) {
    std::vector<std::string> words;
    const auto option = [&](const char* name, const std::string& value) {
        if (!value.empty()) words.insert(words.end(), {name, value});
    };
    option("--app", arguments.app);
    option("--port", arguments.port);
    option("--listen", arguments.listen);
    if (output.json) words.emplace_back("--json");
    return become("serve", words);
}

}  // namespace fallwright::cli
