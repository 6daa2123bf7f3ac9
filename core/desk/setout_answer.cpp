#include "desk/setout_answer.h"

#include <algorithm>
#include <utility>

namespace fallwright {

namespace {

Finding bad_request(std::vector<std::string> about, std::string message, std::string cure) {
    return finding(Code::BadRequest, std::move(about), std::move(message), std::move(cure));
}

std::optional<double> length_above_0(desk::Options& options, const char* name) {
    const std::optional<Length> length = options.length(name);
    if (!length) return std::nullopt;
    if (!(length->metres() > 0))
        options.refuse(bad_request({name}, std::string(name) + " must be above 0", "give a length"));
    return length->metres();
}

// An entry of the book by name; -1, with the fault, where there is none.
template <class Entries>
std::int32_t find(const Book& book, const Entries& entries, const std::string& name, const std::string& kind,
                  desk::Options& options) {
    const NameId known = book.names.find(name);
    const std::int32_t index = known == no_name ? -1 : ByName(entries)(known);
    if (index < 0)
        options.refuse(bad_request({name}, kind + " " + name + " is not in the book",
                                   "name a " + kind + " of the book"));
    return index;
}

SetoutWish read_wish(const Book& book, desk::Options& options) {
    SetoutWish wish;
    const std::optional<std::string> line = options.text("line");
    if (!line) {
        options.refuse(
            bad_request({"line"}, "which line is to be set out is not said", "name a line of the book"));
        return wish;
    }
    wish.line = static_cast<std::size_t>(std::max(0, find(book, book.lines, *line, "line", options)));
    if (const std::optional<std::string> setup = options.text("setup")) {
        const std::int32_t index = find(book, book.setups, *setup, "set-up", options);
        if (index >= 0) wish.setup = static_cast<std::size_t>(index);
    }
    if (const std::optional<double> every = length_above_0(options, "every")) wish.every = {*every};
    wish.whats = options.texts("what");
    return wish;
}

void add_findings(SetoutAnswer& answer, const Findings& findings) {
    for (const Finding& found : findings) {
        // A table the book wants has said so already.
        const bool said =
            std::any_of(answer.findings.begin(), answer.findings.end(), [&found](const Finding& each) {
                return each.code == found.code && each.message == found.message;
            });
        if (!said) answer.findings.push_back(found);
    }
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
    add_findings(answer, setout.findings);
    add_findings(answer, trench_notes(basis, {answer.table}));
    answer.cautions = cautions_beside(*book, answer.evaluation->cautions, wish.line);
    if (rod) answer.rod = rod_cards(basis, wish);
    if (pegs) answer.pegs = peg_card(basis, wish.line);
    if (traveller) {
        Rails rails = sight_rails(basis, wish, *traveller);
        answer.traveller = *traveller;
        answer.rails = std::move(rails.rails);
        add_findings(answer, rails.findings);
    }
    return answer;
}

}  // namespace fallwright
