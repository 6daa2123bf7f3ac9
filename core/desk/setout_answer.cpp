#include "desk/setout_answer.h"

#include <algorithm>
#include <utility>

#include "desk/asked.h"

namespace fallwright {

namespace {

using desk::add_unsaid;
using desk::bad_request;
using desk::entry_named;
using desk::length_above_0;

SetoutWish read_wish(const Book& book, desk::Options& options) {
    SetoutWish wish;
    const std::optional<std::string> line = options.text("line");
    if (!line) {
        options.refuse(
            bad_request({"line"}, "which line is to be set out is not said", "name a line of the book"));
        return wish;
    }
    wish.line = static_cast<std::size_t>(std::max(0, entry_named(book, book.lines, *line, "line", options)));
    if (const std::optional<std::string> setup = options.text("setup")) {
        const std::int32_t index = entry_named(book, book.setups, *setup, "set-up", options);
        if (index >= 0) wish.setup = static_cast<std::size_t>(index);
    }
    if (const std::optional<double> every = length_above_0(options, "every")) wish.every = {*every};
    wish.whats = options.texts("what");
    return wish;
}

}  // namespace

Result<SetoutAnswer> setout_of(const std::shared_ptr<const Book>& book, desk::Options& options) {
    options.assume(book->unit);
    const SetoutWish wish = read_wish(*book, options);
    const std::optional<double> traveller = length_above_0(options, "traveller");
    const bool rod = options.flag("rod");
    const bool pegs = options.flag("pegs");
    if (options.fault()) return *options.fault();
    SetoutAnswer answer;
    answer.evaluation = std::make_shared<const Evaluation>(evaluate(book));
    const SetoutBasis basis = setout_basis(*answer.evaluation);
    answer.findings = answer.evaluation->findings;
    Setout setout = set_out(basis, wish);
    answer.table = std::move(setout.tables.front());
    add_unsaid(answer.findings, setout.findings);
    add_unsaid(answer.findings, trench_notes(basis, {answer.table}));
    answer.cautions = cautions_beside(*book, answer.evaluation->cautions, wish.line);
    if (rod) answer.rod = rod_cards(basis, wish);
    if (pegs) answer.pegs = peg_card(basis, wish.line);
    if (traveller) {
        Rails rails = sight_rails(basis, wish, *traveller);
        answer.traveller = *traveller;
        answer.rails = std::move(rails.rails);
        add_unsaid(answer.findings, rails.findings);
    }
    return answer;
}

}  // namespace fallwright
