#include "desk/drain_book_answer.h"

#include <algorithm>
#include <utility>

#include "desk/asked.h"
#include "desk/drain_book_request.h"

namespace fallwright {

namespace {

using desk::add_unsaid;

// Each once, though it be about several lines.
void add_cautions(DrainBookAnswer& answer, std::size_t line) {
    const Evaluation& evaluation = *answer.evaluation;
    for (const Caution& caution : cautions_beside(*evaluation.book, evaluation.cautions, line)) {
        const auto same = [&caution](const Caution& each) {
            return each.code == caution.code && each.text == caution.text;
        };
        if (std::none_of(answer.cautions.begin(), answer.cautions.end(), same))
            answer.cautions.push_back(caution);
    }
}

}  // namespace

Result<DrainBookAnswer> drains_of(const std::shared_ptr<const Book>& book, desk::Options& options) {
    DrainBookRequest reader(*book, options);
    const bool follow = options.flag("follow");
    const std::size_t line = reader.line();
    const drain::RunWish wish = reader.run_wish();
    const std::optional<drain::CoverRule> asked_cover = reader.cover();
    drain::TrenchRule trench_asked;
    reader.trench(trench_asked);  // so that what is wrong in it is said before anything is computed
    if (options.fault()) return *options.fault();
    const std::vector<std::size_t> lines = reader.lines(line, follow);
    DrainBookAnswer answer;
    answer.held_to = wish.held_to;
    Findings more;
    if (follow && !options.fault()) {
        const drain::CoverRule cover =
            asked_cover ? *asked_cover : drain::cover_rule(*book, book->lines[line], more);
        drain::TrenchRule rule = drain::trench_rule(*book, book->lines[line], more);
        reader.trench(rule);
        answer.wish = reader.follow(line, wish, cover, rule, answer.fall_from);
    }
    if (options.fault()) return *options.fault();
    answer.evaluation = std::make_shared<const Evaluation>(evaluate(book));
    answer.findings = answer.evaluation->findings;
    const SetoutBasis basis = setout_basis(*answer.evaluation);
    std::vector<drain::RunOrder> orders;
    for (const std::size_t each : lines) {
        orders.push_back(
            {each, asked_cover ? *asked_cover : drain::cover_rule(*book, book->lines[each], more)});
        drain::TrenchRule rule = drain::trench_rule(*book, book->lines[each], more);
        reader.trench(rule);
        answer.trenches.push_back(drain::trench_of(basis, each, rule, more));
        add_cautions(answer, each);
    }
    answer.runs = drain::drain_runs(basis, orders, wish);
    add_unsaid(answer.findings, answer.runs.findings);
    if (answer.wish) {
        answer.cautions.push_back(drainage_caution());
        add_cautions(answer, answer.wish->line);
        answer.followed = drain::follow_line(basis, *answer.wish);
        more.insert(more.end(), answer.followed->findings.begin(), answer.followed->findings.end());
    }
    add_unsaid(answer.findings, more);
    return answer;
}

}  // namespace fallwright
