#include <cstdio>
#include <nlohmann/json.hpp>

#include "desk/fall_answer.h"
#include "shells/cli/files.h"
#include "shells/cli/people_fall.h"
#include "shells/cli/verbs.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

namespace {

using Json = nlohmann::json;

void set(Json& options, const char* name, const std::string& value) {
    if (!value.empty()) options[name] = value;
}

Result<FallAnswer> answer_of(const FallArguments& arguments, desk::Options& options) {
    if (arguments.line.empty()) return fall_of_readings(options);
    const Result<std::shared_ptr<const Book>> book = open_book(arguments.readings.front());
    if (!book) return book.finding();
    return fall_of_line(*book, options);
}

}  // namespace

int find_fall(const FallArguments& arguments, const Output& output) {
    Json object = Json::object();
    set(object, "over", arguments.over);
    set(object, "shown", arguments.shown);
    set(object, "near", arguments.near);
    set(object, "unit", arguments.unit);
    set(object, "line", arguments.line);
    set(object, "what", arguments.what);
    if (!arguments.at.empty()) object["at"] = arguments.at;
    if (arguments.line.empty()) object["readings"] = arguments.readings;
    desk::Options options(object);
    const Result<FallAnswer> answer = answer_of(arguments, options);
    if (!answer) return refuse(answer.finding(), output);
    const std::string text = output.json ? fall_json(*answer) + "\n" : fall_text(*answer);
    std::fwrite(text.data(), 1, text.size(), stdout);
    const bool outside = (answer->check && !answer->check->agrees) || has_error(answer->findings);
    return output.strict && outside ? 1 : 0;
}

}  // namespace fallwright::cli
