#include <cstdio>
#include <nlohmann/json.hpp>

#include "desk/setout_answer.h"
#include "shells/cli/files.h"
#include "shells/cli/people_setout.h"
#include "shells/cli/verbs.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

int set_out_line(const SetoutArguments& arguments, const Output& output) {
    const Result<std::shared_ptr<const Book>> book = open_book(arguments.book);
    if (!book) return refuse(book.finding(), output);
    nlohmann::json object = nlohmann::json::object();
    object["line"] = arguments.line;
    if (!arguments.setup.empty()) object["setup"] = arguments.setup;
    if (!arguments.every.empty()) object["every"] = arguments.every;
    if (!arguments.traveller.empty()) object["traveller"] = arguments.traveller;
    if (!arguments.what.empty()) object["what"] = arguments.what;
    object["rod"] = arguments.rod;
    object["pegs"] = arguments.pegs;
    desk::Options options(object);
    const Result<SetoutAnswer> answer = setout_of(*book, options);
    if (!answer) return refuse(answer.finding(), output);
    const std::string text = output.json ? setout_json(*answer) + "\n" : setout_text(*answer);
    std::fwrite(text.data(), 1, text.size(), stdout);
    return output.strict && has_error(answer->findings) ? 1 : 0;
}

}  // namespace fallwright::cli
