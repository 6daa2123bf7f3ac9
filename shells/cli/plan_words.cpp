#include "shells/cli/plan_words.h"

#include <cmath>

#include "base/print.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

namespace {

constexpr std::size_t most_names = 3;

// Chainage and offset of the line that is planned for, where the place lies beside it.
std::string beside_line(const PlanAnswer& answer, const Spot& spot) {
    const Book& book = *answer.evaluation->book;
    const Position at = position_of(book, spot);
    if (at.kind == Position::Kind::Grid) return "";
    std::string text = "chainage " + level(at.ch, book.unit);
    if (rounded_to(at.off, 3) != 0) text += (at.off > 0 ? " R" : " L") + level(std::fabs(at.off), book.unit);
    return text;
}

}  // namespace

std::string place_words(const PlanAnswer& answer, const Spot& spot) {
    if (!spot.known) return "";
    std::string line = beside_line(answer, spot);
    if (!line.empty()) return line;
    const Book& book = *answer.evaluation->book;
    return fixed(book.in_unit(spot.e), 1) + " E " + fixed(book.in_unit(spot.n), 1) + " N";
}

std::string names_words(const PlanAnswer& answer, const std::vector<NameId>& names) {
    std::string text;
    for (std::size_t i = 0; i < names.size() && i < most_names; ++i)
        text += (i > 0 ? ", " : "") + answer.plan.names[names[i]];
    if (names.size() > most_names) text += " and " + std::to_string(names.size() - most_names) + " more";
    return text;
}

std::string advice_words(const PlanAnswer& answer, const Advice& advice) {
    const std::string setups = names_words(answer, advice.setups);
    const std::string points = names_words(answer, advice.points);
    const std::string place = place_words(answer, advice.place);
    const auto setup = [&](std::size_t i) { return answer.plan.names[advice.setups[i]]; };
    switch (advice.change) {
        case Change::ReadAgain:
            return "read " + points + " once more from " + setups;
        case Change::ReadAllAgain:
            return "read every station twice";
        case Change::HalfRound:
            return "turn the body half round in " + setups;
        case Change::Benchmark:
            return "read the further benchmark " + points + " from " + setups;
        case Change::OtherSetup:
            return "read " + points + " from " + setups + " too";
        case Change::ChangePoint:
            return "one more point midway between " + setup(0) + " and " + setup(1) + ", read from both";
        case Change::MoveSetup:
            return "move " + setups + " to " + place;
        case Change::AddSetup:
            if (advice.setups.size() > 1)
                return "set up at " + place + " too (" + setup(0) + "), joined to " + setup(1) + " by " +
                       points;
            return "set up at " + place + " too (" + setup(0) + "), from " + points;
        case Change::RemoveSetup:
            return "leave " + setups + " out";
    }
    return "";
}

}  // namespace fallwright::cli
