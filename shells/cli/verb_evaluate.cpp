#include <cstdio>

#include "desk/trial_answer.h"
#include "desk/write_json.h"
#include "evaluation/evaluation.h"
#include "shells/cli/files.h"
#include "shells/cli/people_check.h"
#include "shells/cli/people_evaluate.h"
#include "shells/cli/people_suspects.h"
#include "shells/cli/people_trial.h"
#include "shells/cli/verbs.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

namespace {

void print(std::string_view text) {
    std::fwrite(text.data(), 1, text.size(), stdout);
}

template <class Write, class Text>
int answer(const std::string& path, const Output& output, Seek seek, Write write, Text text) {
    const Result<std::shared_ptr<const Book>> book = open_book(path);
    if (!book) return refuse(book.finding(), output);
    say_progress((*book)->entries.size(),
                 seek == Seek::Suspects ? "adjusting, looking for what went wrong" : "adjusting");
    const Evaluation evaluation = evaluate(*book, seek);
    say_progress((*book)->entries.size(), "writing");
    if (output.json) {
        JsonOut out([](std::string_view piece) { print(piece); });
        write(evaluation, out);
        print(out.take() + "\n");
    } else {
        print(text(evaluation));
    }
    return output.strict && something_outside(evaluation) ? 1 : 0;
}

}  // namespace

int evaluate_book(const std::string& path, const Output& output) {
    return answer(path, output, Seek::Suspects, write_evaluation, [&output](const Evaluation& evaluation) {
        return evaluation_text(evaluation, output.surveyor);
    });
}

int level_book(const std::string& path, const Output& output) {
    return answer(path, output, Seek::Nothing, write_levels, levels_text);
}

int suspect_book(const std::string& path, const Output& output) {
    return answer(path, output, Seek::Suspects, write_suspicions,
                  [&path](const Evaluation& evaluation) { return suspects_text(evaluation, path); });
}

int check_book(const std::string& path, const Output& output) {
    return answer(path, output, Seek::Nothing, write_check, check_text);
}

int check_instruments_of_book(const std::string& path, const Output& output) {
    return answer(path, output, Seek::Nothing, write_checks, trials_text);
}

}  // namespace fallwright::cli
