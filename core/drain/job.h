// job: what a book says of the hydraulics of its drains (rule `hydraulics`), ready for pipe after pipe.
//
//   friction      of a pipe without a roughness of its own: roughness or manning, else 0.6 mm, assumed
//   flow          the peak, given or from the count of dwellings; closets: WCs that drain to every pipe
//   rules         those of the presets, and before them the job's own: a fall, a velocity, a drag
//   held_to       the preset the rule names: the one the job goes by; the others stand beside it
//
// Metres, m3/s, ratios; NaN or negative: not told. Findings: a preset that is not known, or is from memory;
// more dwellings than the table has. The names of own rules' sources are the book's, which outlives this.
// Pure.
#pragma once

#include <vector>

#include "book/book.h"
#include "drain/rules.h"

namespace fallwright::drain {

// What is usual for a drain in use where nothing is given; common practice, no source.
constexpr double assumed_roughness = 0.0006;

struct Job {
    Friction friction = Friction::colebrook_white(assumed_roughness);
    bool friction_assumed = true;
    double flow = NAN;
    int closets = -1;
    std::vector<preset::CleansingRule> own;
    const preset::CleansingRule* held_to = nullptr;
    Findings findings;
};

Job job_of(const Book& book);

// The pipe's own roughness, else the job's friction.
Friction friction_of(const Job& job, const Pipe& pipe);

// The job's own rules, the preset it is held to, then all others. The verdicts point into `job`.
std::vector<CleansingVerdict> rules_of(const Job& job, const CleansingCase& pipe, Unit unit);

}  // namespace fallwright::drain
