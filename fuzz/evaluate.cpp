// Any book is evaluated, suspects and all, and the answer is JSON that another program can read.
#include <nlohmann/json.hpp>

#include "desk/write_json.h"
#include "evaluation/evaluation.h"
#include "fuzz/fuzz.h"

using namespace fallwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    Result<std::unique_ptr<Book>> book = read_book(fuzz::text(data, size));
    if (!book) return 0;
    const Evaluation evaluation = evaluate(std::shared_ptr<const Book>(std::move(*book)), Seek::Suspects);
    fuzz::must(nlohmann::json::accept(written(evaluation, write_evaluation)), "the evaluation is JSON");
    fuzz::must(nlohmann::json::accept(written(evaluation, write_suspicions)), "suspects are JSON");
    return 0;
}
