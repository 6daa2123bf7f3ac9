// What it costs to weigh every single thing that may have gone wrong, in solves of the same book.
//
//   suspect_cost BOOK     prints "causes C solves S": how many causes, processor time over that of one
//   solve()
#include <algorithm>
#include <cstdio>
#include <ctime>
#include <fstream>
#include <sstream>

#include "evaluation/evaluation.h"
#include "suspect/ranking.h"

namespace {

using namespace fallwright;

template <class Work>
double seconds_of(Work work) {
    constexpr int tries = 9;
    double best = 1e9;
    for (int i = 0; i < tries; ++i) {
        const std::clock_t begin = std::clock();
        work();
        best = std::min(best, static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC);
    }
    return best;
}

}  // namespace

int main(int count, char** arguments) {
    if (count != 2) return 2;
    std::stringstream text;
    text << std::ifstream(arguments[1]).rdbuf();
    Result<std::unique_ptr<Book>> read = read_book(text.str());
    if (!read) return 2;
    const Evaluation evaluation = evaluate(std::shared_ptr<const Book>(std::move(*read)));
    const Book& book = *evaluation.book;
    const Model& model = *evaluation.model;
    const SuspectPriors priors = priors_of(book);
    std::size_t causes = 0;
    const double weighing = seconds_of([&] {
        const Evidence evidence(book, evaluation.designs, model);
        const Causes all(book, evaluation.where, evaluation.figures, evaluation.designs, model, evidence);
        const Ranking ranking = rank_causes(evidence, all, priors);
        causes = 0;
        all.each([&causes](const Cause&) { ++causes; });
    });
    const double solving = seconds_of([&] { adjust::solve(model.problem); });
    std::printf("causes %zu solves %.3f\n", causes, weighing / solving);
    return 0;
}
