#include "shells/cli/people_evenness.h"

#include "record/evenness_words.h"
#include "shells/cli/told_text.h"

namespace fallwright::cli {

std::string evenness_text(const EvennessBasis& basis, const LineJudge& judge) {
    constexpr std::size_t most_rows = 60;
    return told_text(record::evenness_told(basis, judge, most_rows), 1);
}

}  // namespace fallwright::cli
