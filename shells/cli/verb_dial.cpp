#include <cstdio>
#include <nlohmann/json.hpp>

#include "desk/dial_answer.h"
#include "shells/cli/files.h"
#include "shells/cli/people_dial.h"
#include "shells/cli/verbs.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

int dial_line_of_book(const DialArguments& arguments, const Output& output) {
    const Result<std::shared_ptr<const Book>> book = open_book(arguments.book);
    if (!book) return refuse(book.finding(), output);
    nlohmann::json object = nlohmann::json::object();
    object["setup"] = arguments.setup;
    if (!arguments.line.empty()) object["line"] = arguments.line;
    if (!arguments.surface.empty()) object["surface"] = arguments.surface;
    if (!arguments.points.empty()) object["points"] = arguments.points;
    if (!arguments.crossfall.empty()) object["crossfall"] = arguments.crossfall;
    desk::Options options(object);
    const Result<DialAnswer> answer = dial_of(*book, options);
    if (!answer) return refuse(answer.finding(), output);
    const std::string text = output.json ? dial_json(*answer) + "\n" : dial_text(*answer);
    std::fwrite(text.data(), 1, text.size(), stdout);
    return output.strict && has_error(answer->findings) ? 1 : 0;
}

}  // namespace fallwright::cli
