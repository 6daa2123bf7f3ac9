#include "shells/cli/people_story.h"

#include "record/story.h"

namespace fallwright::cli {

std::string story_text(const Evaluation& evaluation) {
    std::string text;
    for (const record::StoryLine& line : record::story_of(evaluation)) {
        constexpr std::size_t width = 18;
        std::string label(line.label);
        label.resize(width, ' ');
        text += "  " + label + line.text;
        if (line.label == record::went_wrong) text += "; fallwright suspects says which reading decides";
        text += "\n";
    }
    return text.empty() ? "" : "\nIn short\n" + text;
}

}  // namespace fallwright::cli
