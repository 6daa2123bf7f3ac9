#include "record/chapters.h"
#include "record/evenness_words.h"

namespace fallwright::record {

void add_evenness(Writer& out) {
    out.heading(1, "Evenness and cross-sections");
    for (std::size_t i = 0; i < out.book.lines.size(); ++i) {
        const Design& design = out.evaluation.designs.lines[i];
        const LineFalls& found = out.evaluation.lines[i];
        const LineJudge judge(out.book, design, found, out.model);
        out.heading(2, "Line " + out.name(out.book.lines[i].name));
        if (asks_evenness(out.book.lines[i]))
            write_told(out, evenness_told({out.book, design, found, out.model}, judge, 0), 3);
        out.figures(cross_sections(out.evaluation, i, out.upright()));
    }
}

}  // namespace fallwright::record
