#include <algorithm>
#include <cmath>
#include <cstdio>
#include <nlohmann/json.hpp>

#include "desk/drain_answer.h"
#include "shells/cli/files.h"
#include "shells/cli/people_drain.h"
#include "shells/cli/verbs.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

namespace {

// Of the rules side by side only the one the job is held to can be missed.
bool outside(const DrainAnswer& answer) {
    if (has_error(answer.pipe.findings)) return true;
    return std::any_of(answer.pipe.rules.begin(), answer.pipe.rules.end(), [&](const auto& held) {
        return held.rule == answer.held_to &&
               (held.verdict == drain::Cleansing::Flatter || held.verdict == drain::Cleansing::Steeper);
    });
}

}  // namespace

int answer_drain(const DrainArguments& arguments, const Output& output) {
    nlohmann::json object = nlohmann::json::object();
    for (const auto& [name, value] : arguments.texts) {
        if (!value.empty()) object[name] = value;
    }
    for (const auto& [name, value] : arguments.numbers) {
        if (!std::isnan(value)) object[name] = value;
    }
    desk::Options options(object);
    const Result<DrainAnswer> answer = drain_of(options);
    if (!answer) return refuse(answer.finding(), output);
    const std::string text = output.json ? drain_json(*answer) + "\n" : drain_text(*answer);
    std::fwrite(text.data(), 1, text.size(), stdout);
    return output.strict && outside(*answer) ? 1 : 0;
}

}  // namespace fallwright::cli
