#include <algorithm>
#include <cmath>
#include <cstdio>
#include <nlohmann/json.hpp>

#include "desk/drain_answer.h"
#include "desk/drain_book_answer.h"
#include "shells/cli/files.h"
#include "shells/cli/people_drain.h"
#include "shells/cli/people_runs.h"
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

// What stands for a plain number as typed.
void make_numbers(nlohmann::json& object) {
    for (const char* name : {"batter", "spoil", "load", "grades", "saving"}) {
        if (!object.contains(name)) continue;
        const nlohmann::json number = nlohmann::json::parse(object[name].get<std::string>(), nullptr, false);
        if (number.is_number()) object[name] = number;
    }
}

bool outside(const DrainBookAnswer& answer) {
    const auto is = [](const Judgement& judged) { return judged.verdict == Verdict::Outside; };
    for (const drain::Run& run : answer.runs.runs) {
        for (const drain::RunPipe& pipe : run.pipes) {
            if (is(pipe.met)) return true;
        }
        for (const drain::RunStation& station : run.stations) {
            if (is(station.least) || is(station.laid_least)) return true;
        }
    }
    return has_error(answer.findings);
}

int answer_drains(const DrainArguments& arguments, nlohmann::json& object, const Output& output) {
    const Result<std::shared_ptr<const Book>> book = open_book(arguments.book);
    if (!book) return refuse(book.finding(), output);
    make_numbers(object);
    if (!arguments.breaks.empty()) object["breaks"] = arguments.breaks;
    if (arguments.follow) object["follow"] = true;
    desk::Options options(object);
    const Result<DrainBookAnswer> answer = drains_of(*book, options);
    if (!answer) return refuse(answer.finding(), output);
    const std::string text = output.json ? drains_json(*answer) + "\n" : drains_text(*answer);
    std::fwrite(text.data(), 1, text.size(), stdout);
    return output.strict && outside(*answer) ? 1 : 0;
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
    if (!arguments.book.empty()) return answer_drains(arguments, object, output);
    desk::Options options(object);
    const Result<DrainAnswer> answer = drain_of(options);
    if (!answer) return refuse(answer.finding(), output);
    const std::string text = output.json ? drain_json(*answer) + "\n" : drain_text(*answer);
    std::fwrite(text.data(), 1, text.size(), stdout);
    return output.strict && outside(*answer) ? 1 : 0;
}

}  // namespace fallwright::cli
