#include <cstdio>
#include <nlohmann/json.hpp>

#include "desk/trace_answer.h"
#include "shells/cli/files.h"
#include "shells/cli/people_trace.h"
#include "shells/cli/verbs.h"

namespace fallwright::cli {

int trace_in_book(const SuspectsArguments& arguments, const Output& output) {
    const Result<std::shared_ptr<const Book>> book = open_book(arguments.book);
    if (!book) return refuse(book.finding(), output);
    nlohmann::json object = {{"trace", arguments.trace}};
    if (!arguments.by.empty()) object["by"] = arguments.by;
    desk::Options options(object);
    const Evaluation evaluation = evaluate(*book);
    const Result<TraceAnswer> answer = desk::trace_of(evaluation, options);
    if (!answer) return refuse(answer.finding(), output);
    const std::string text =
        output.json ? desk::trace_json(evaluation, *answer) + "\n" : trace_text(evaluation, *answer);
    std::fwrite(text.data(), 1, text.size(), stdout);
    return output.strict && !answer->changed.empty() ? 1 : 0;
}

}  // namespace fallwright::cli
