// evaluation: everything a book gives, as values; the desk writes it as JSON, the command line as tables.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "book/book.h"
#include "caution/caution.h"
#include "design/design.h"
#include "dial/dial.h"
#include "drain/run.h"
#include "fall/fit.h"
#include "ground/surfaces.h"
#include "model/model.h"
#include "page/page.h"
#include "setout/setout.h"
#include "suspect/suspect.h"
#include "trial/trial.h"

namespace fallwright {

// A closure against what the book's rule allows.
struct JudgedClosure {
    double allowed = 0;  // metres; NaN where it cannot be told
    bool ok = false;     // misclosure as printed against allowed as printed
};

// A table the result rests on, named in it with its source and edition.
struct UsedPreset {
    std::string name, edition, source;  // as in preset/
    std::string_view provenance;        // in words
};

// Every stage's output as it came, so that whoever writes it needs to compute nothing. Lengths are metres,
// gradients ratios; NaN where there is none. Moving it keeps all its references valid.
struct Evaluation {
    std::shared_ptr<const Book> book;
    Designs designs;  // what is wanted on each line of the book
    Figures figures;
    Where where;
    Trials trials;  // checks of instruments, which the model takes over
    preset::MisclosureRule rule;
    std::vector<UsedPreset> presets;
    Pages pages;
    std::unique_ptr<Model> model;
    std::vector<JudgedClosure> closures;  // one for each of pages.closures
    std::vector<LineFalls> lines;         // one for each line of the book
    ground::Surveys surveys;              // of every measured surface
    Dials dials;                          // of every `want` with a set-up
    Setout setout;                        // of every `want` with a line
    drain::Runs drains;                   // of every line for use as a drain
    Cautions cautions;                    // what must be said beside all this
    std::unique_ptr<Suspects> suspects;   // null where nobody asked
    Findings findings;                    // all of them, in the order of the stages
};

// Total: any book gives an evaluation; what is wrong stands in its findings.
// What probably went wrong is sought for the verbs that show it; its findings stand last.
enum class Seek : std::uint8_t { Nothing, Suspects };
Evaluation evaluate(std::shared_ptr<const Book> book, Seek seek = Seek::Nothing);

// What the stage setout needs of an evaluation, which outlives it.
SetoutBasis setout_basis(const Evaluation& evaluation);

// The measured surfaces that have a best plane, and the points it goes through.
std::vector<DialSurface> dial_surfaces(const Evaluation& evaluation);

// Whether a station, a fall or the evenness of some line is outside its tolerance.
bool laid_outside(const Evaluation& evaluation);

// Whether a surface is outside a table of flatness.
bool floor_outside(const Evaluation& evaluation);

// off_plane of a reading (contract section 2); NaN where its set-up has no clamp. Metres.
double off_plane(const Evaluation& evaluation, std::size_t reading);

}  // namespace fallwright
