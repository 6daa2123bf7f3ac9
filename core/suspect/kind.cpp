#include "suspect/kind.h"

namespace fallwright {

namespace {

struct Row {
    std::string_view word;
    double weight;
};

// In the order of SuspectKind.
constexpr std::array<Row, suspect_kinds> table = {{{"misread", 0.044},
                                                   {"digits-swapped", 0.008},
                                                   {"offset-reversed", 0.006},
                                                   {"offset-omitted", 0.003},
                                                   {"staff-inverted", 0.002},
                                                   {"staff-section", 0.006},
                                                   {"wrong-point", 0.003},
                                                   {"wrong-setup", 0.003},
                                                   {"wrong-benchmark", 0.012},
                                                   {"moved-change-point", 0.010},
                                                   {"grade-left-in", 0.014},
                                                   {"grade-reversed", 0.003},
                                                   {"axes-swapped", 0.003},
                                                   {"aim-off", 0.003},
                                                   {"knocked", 0.020},
                                                   {"settling", 0.010},
                                                   {"instrument-out", 0.003},
                                                   {"wrong-distance", 0.003},
                                                   {"other-beam", 0.003}}};
constexpr double nothing_wrong = 0.9;

}  // namespace

std::string_view kind_word(SuspectKind kind) {
    return table[static_cast<std::size_t>(kind)].word;
}

std::optional<SuspectKind> kind_from(std::string_view word) {
    for (std::size_t i = 0; i < table.size(); ++i) {
        if (table[i].word == word) return static_cast<SuspectKind>(i);
    }
    return std::nullopt;
}

SuspectPriors priors_of(const Book& book) {
    SuspectPriors priors;
    for (std::size_t i = 0; i < table.size(); ++i) priors.weight[i] = table[i].weight;
    priors.none = nothing_wrong;
    for (const Rule& rule : book.rules) {
        if (book.names.text(rule.name) != "suspect-priors") continue;
        for (const RulePrior& given : rule.priors) {
            const std::string_view word = book.names.text(given.kind);
            if (word == "none") priors.none = given.p;
            if (const auto kind = kind_from(word)) priors.weight[static_cast<std::size_t>(*kind)] = given.p;
        }
    }
    return priors;
}

}  // namespace fallwright
