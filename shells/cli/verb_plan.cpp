#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <nlohmann/json.hpp>

#include "desk/plan_answer.h"
#include "shells/cli/files.h"
#include "shells/cli/people_plan.h"
#include "shells/cli/verbs.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

namespace {

nlohmann::json options_of(const PlanArguments& arguments) {
    nlohmann::json object = nlohmann::json::object();
    for (const auto& [name, value] : arguments.texts) {
        if (!value.empty()) object[name] = value;
    }
    for (const auto& [name, value] : arguments.numbers) {
        if (!std::isnan(value)) object[name] = value;
    }
    if (!arguments.places.empty()) object["places"] = arguments.places;
    if (arguments.as_it_is) object["as_it_is"] = true;
    return object;
}

// One line on a terminal, written over until the work is done.
class Progress {
  public:
    explicit Progress(Unit unit) : unit_(unit), shown_(isatty(STDERR_FILENO) != 0) {}

    void say(std::int64_t done, std::int64_t most, double worst) {
        if (!shown_) return;
        std::fprintf(stderr, "\rfallwright: %lld of at most %lld layouts tried, worst station ± %s %s   ",
                     static_cast<long long>(done), static_cast<long long>(most), small(worst, unit_).c_str(),
                     small_unit(unit_).c_str());
        said_ = true;
    }
    void end() {
        if (said_) std::fputc('\n', stderr);
    }

  private:
    Unit unit_;
    bool shown_;
    bool said_ = false;
};

void write(const std::string& text) {
    std::fwrite(text.data(), 1, text.size(), stdout);
}

int plan_quickly(const PlanArguments& arguments, const Output& output) {
    const nlohmann::json object = options_of(arguments);
    desk::Options options(object);
    const Result<QuickPlan> quick = quick_plan(options);
    if (!quick) return refuse(quick.finding(), output);
    write(output.json ? quick_plan_json(*quick) + "\n" : quick_plan_text(*quick));
    return 0;
}

}  // namespace

int plan_book(const PlanArguments& arguments, const Output& output) {
    if (arguments.book.empty()) return plan_quickly(arguments, output);
    const Result<std::shared_ptr<const Book>> book = open_book(arguments.book);
    if (!book) return refuse(book.finding(), output);
    const nlohmann::json object = options_of(arguments);
    desk::Options options(object);
    Progress progress((*book)->unit);
    const Result<PlanAnswer> answer = plan_of(
        *book, options,
        [&progress](std::int64_t done, std::int64_t most, double worst) { progress.say(done, most, worst); });
    progress.end();
    if (!answer) return refuse(answer.finding(), output);
    write(output.json ? plan_json(*answer) + "\n" : plan_text(*answer));
    return output.strict && has_error(answer->findings) ? 1 : 0;
}

}  // namespace fallwright::cli
