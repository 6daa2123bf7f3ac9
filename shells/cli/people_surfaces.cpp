#include "shells/cli/people_surfaces.h"

#include "record/surface_words.h"
#include "shells/cli/told_text.h"

namespace fallwright::cli {

std::string surfaces_text(const Evaluation& evaluation) {
    constexpr std::size_t most_points = 60;
    std::string text;
    for (std::size_t i = 0; i < evaluation.surveys.surfaces.size(); ++i)
        text += "\n" + told_text(record::surface_told(evaluation, i, most_points), 0);
    return text;
}

}  // namespace fallwright::cli
