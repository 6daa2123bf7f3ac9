#include "desk/desk.h"

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>
#include <utility>

#include "desk/dial_answer.h"
#include "desk/drain_answer.h"
#include "desk/drain_book_answer.h"
#include "desk/fall_answer.h"
#include "desk/figure_answer.h"
#include "desk/options.h"
#include "desk/plan_answer.h"
#include "desk/report_answer.h"
#include "desk/setout_answer.h"
#include "desk/staff_answer.h"
#include "desk/trace_answer.h"
#include "desk/trial_answer.h"
#include "desk/write_json.h"
#include "evaluation/evaluation.h"

namespace fallwright::desk {

class OpenBook {
  public:
    OpenBook(std::shared_ptr<const Book> read, std::vector<BookChange> amended)
        : book(std::move(read)), changes(std::move(amended)) {}
    std::shared_ptr<const Book> book;
    std::vector<BookChange> changes;  // its text is forgotten
};

namespace {

using Json = nlohmann::json;

std::string bad_request(std::vector<std::string> about, std::string message) {
    return error_json(finding(Code::BadRequest, std::move(about), std::move(message)));
}

template <class Answer>
std::string written(const Result<Answer>& answer, std::string (*write)(const Answer&)) {
    return answer ? write(*answer) : error_json(answer.finding());
}

bool is_book_verb(std::string_view verb) {
    constexpr std::array<std::string_view, 10> verbs = {"evaluate", "levels",   "check", "fall", "dial",
                                                        "setout",   "suspects", "trial", "plan", "report"};
    return std::find(verbs.begin(), verbs.end(), verb) != verbs.end();
}

// `book` is null for verbs that need none.
std::string run_verb(const Json& request, const std::shared_ptr<const Book>& book,
                     const std::vector<BookChange>& changes) {
    if (!request.contains("verb") || !request["verb"].is_string())
        return bad_request({"verb"}, "the request has no verb");
    const std::string verb = request["verb"].get<std::string>();
    const Json empty = Json::object();
    const bool given = request.contains("options");
    if (given && !request["options"].is_object()) return bad_request({"options"}, "options is no object");
    Options options(given ? request["options"] : empty);
    if (verb == "staff") return written(staff_picture(options), staff_json);
    if (verb == "drain" && !book) return written(drain_of(options), drain_json);
    if (verb == "drain") return written(drains_of(book, options), drains_json);
    if (verb == "fall" && !options.has("line")) return written(fall_of_readings(options), fall_json);
    if (verb == "plan" && !book) return written(quick_plan(options), quick_plan_json);
    if (verb == "report" && book && options.has("figure"))
        return written(figure_answer(book, options), figures_json);
    if (!is_book_verb(verb)) return bad_request({"verb"}, "verb " + verb + " is not known");
    if (!book) return bad_request({"book"}, "verb " + verb + " needs a book");
    if (verb == "fall") return written(fall_of_line(book, options), fall_json);
    if (verb == "dial") return written(dial_of(book, options), dial_json);
    if (verb == "plan") return written(plan_of(book, options), plan_json);
    if (verb == "setout") return written(setout_of(book, options), setout_json);
    if (verb == "report") return written(report_answer(book, changes, options), report_json);
    const bool suspicious = (verb == "suspects" && !options.has("trace")) || verb == "evaluate";
    const Evaluation evaluation = evaluate(book, suspicious ? Seek::Suspects : Seek::Nothing);
    if (verb == "suspects" && options.has("trace")) {
        const Result<TraceAnswer> trace = trace_of(evaluation, options);
        return trace ? trace_json(evaluation, *trace) : error_json(trace.finding());
    }
    if (verb == "suspects") return written(evaluation, write_suspicions);
    if (verb == "check") return written(evaluation, write_check);
    if (verb == "trial") return written(evaluation, write_checks);
    return written(evaluation, verb == "levels" ? write_levels : write_evaluation);
}

}  // namespace

Result<std::shared_ptr<const OpenBook>> open(std::string book_text) {
    Result<std::unique_ptr<Book>> book = read_book(std::move(book_text));
    if (!book) return book.finding();
    std::vector<BookChange> changes = changes_of(**book);
    (*book)->forget_text();
    return std::shared_ptr<const OpenBook>(
        std::make_shared<OpenBook>(std::shared_ptr<const Book>(std::move(*book)), std::move(changes)));
}

std::shared_ptr<const Book> book_of(const OpenBook& book) {
    return book.book;
}

std::string run(const OpenBook& book, std::string_view request) {
    const Json parsed = Json::parse(request, nullptr, false);
    if (!parsed.is_object()) return bad_request({}, "the request is no JSON object");
    return run_verb(parsed, book.book, book.changes);
}

std::string answer(std::string_view request) {
    const Json parsed = Json::parse(request, nullptr, false);
    if (!parsed.is_object()) return bad_request({}, "the request is no JSON object");
    if (!parsed.contains("book")) return run_verb(parsed, nullptr, {});
    if (!parsed["book"].is_string()) return bad_request({"book"}, "book is no text");
    Result<std::unique_ptr<Book>> book = read_book(parsed["book"].get<std::string>());
    if (!book) return error_json(book.finding());
    const std::vector<BookChange> changes = changes_of(**book);
    return run_verb(parsed, std::shared_ptr<const Book>(std::move(*book)), changes);
}

std::string refuse(const Finding& finding) {
    return error_json(finding);
}

}  // namespace fallwright::desk
