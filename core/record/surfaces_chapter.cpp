#include "record/chapters.h"
#include "record/surface_words.h"

namespace fallwright::record {

void add_surfaces(Writer& out) {
    out.heading(1, "Surfaces");
    for (std::size_t i = 0; i < out.evaluation.surveys.surfaces.size(); ++i) {
        write_told(out, surface_told(out.evaluation, i, 0), 2);
        out.figures(surface_plan(out.evaluation, i, out.upright()));
    }
}

}  // namespace fallwright::record
