#include <cstdio>
#include <nlohmann/json.hpp>

#include "desk/staff_answer.h"
#include "shells/cli/files.h"
#include "shells/cli/verbs.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

namespace {

nlohmann::json options_of(const StaffArguments& arguments) {
    nlohmann::json object = {{"reading", arguments.reading},
                             {"inverted", arguments.inverted},
                             {"ascii", arguments.ascii},
                             {"style", arguments.svg.empty() ? "text" : "svg"}};
    if (!arguments.unit.empty()) object["unit"] = arguments.unit;
    if (!arguments.length.empty()) object["staff_length"] = arguments.length;
    if (!arguments.window.empty()) object["window"] = arguments.window;
    return object;
}

}  // namespace

int draw_staff(const StaffArguments& arguments, const Output& output) {
    const nlohmann::json object = options_of(arguments);
    desk::Options options(object);
    const Result<StaffAnswer> answer = staff_picture(options);
    if (!answer) return refuse(answer.finding(), output);
    std::string text = output.json
                           ? staff_json(*answer) + "\n"
                           : answer->drawing + "\n" + answer->words + "\n" + findings_text(answer->findings);
    if (!arguments.svg.empty() && !output.json) {
        if (const auto fault = write_file(arguments.svg, answer->drawing)) return refuse(*fault, output);
        text = answer->words + "\nDrawn in " + arguments.svg + "\n" + findings_text(answer->findings);
    }
    std::fwrite(text.data(), 1, text.size(), stdout);
    return 0;
}

}  // namespace fallwright::cli
