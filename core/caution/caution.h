// caution: what must be said beside the figures of a job: excavations, services, laser light, chambers,
// traffic, the design of drains.
//
// A caution stands where it applies and cannot be switched off; none is a judgement. In particular support is
// never judged by depth, and never said not to be needed: shallower trenches fall in too, and the competent
// person decides at every depth. The depth said is that to the trench bottom from the higher edge with its
// +-, one standard deviation (setout/trench.h).
//
//   code              stands for
//   excavation        a line of pipes
//   inspection        the same
//   way-out, air,     the same, where the limits have such a depth and the trench reaches it
//   slopes, engineered
//   spoil             the same, where the limits have a distance
//   services          a drain, and every line with pipes or layers
//   confined-space    a line with chambers
//   traffic           roads and kerbs
//   drainage-design   drains
//   laser-light       rotating and pipe lasers that a set-up uses
//   job               sentences that the rule `cautions` of the book adds
//
// Limits are those the rule names or gives, else usual ones of the unit's countries (preset/cautions.h).
// about: names of lines or instruments, in the order of the book. Total over every book; pure.
#pragma once

#include <string>
#include <vector>

#include "preset/cautions.h"
#include "setout/setout.h"

namespace fallwright {

struct Caution {
    std::string code;
    std::vector<std::string> about;
    std::string text;  // a sentence or two
    // Where it is from: empty for common practice.
    std::string source, edition;
    preset::Provenance provenance = preset::Provenance::Published;
};

struct Cautions {
    // Lines in their order, each in the order above, equal sentences once; then lasers; then the job's own.
    std::vector<Caution> all;
    Findings findings;  // limits that are not known
};

Cautions cautions_of(const SetoutBasis& basis);

// Those about one line (index in Book::lines), about lasers and the job's own: beside a table of that line.
std::vector<Caution> cautions_beside(const Book& book, const Cautions& cautions, std::size_t line);

// Of a drain without a book.
Caution drainage_caution();

// How deep the trenches of those lines (indices in Book::lines) are, once each: a note beside set-out tables.
Findings trench_notes(const SetoutBasis& basis, const std::vector<SetoutTable>& tables);

}  // namespace fallwright
