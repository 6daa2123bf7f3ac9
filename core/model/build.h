// build: a model in the making, handed from the rows to the results. Inside model only.
//
// The three steps, in order: make_rows fills the problem, adjust solves it, take_results reads the solution
// back into levels, planes and fits, report_findings says what a person should know of it. Everything here
// belongs to build_model.
#pragma once

#include <vector>

#include "model/approximate.h"
#include "model/columns.h"
#include "model/model.h"

namespace fallwright {

struct Build {
    const Book& book;
    const Where& where;
    Model& model;
    Columns columns;
    Approximate approximate;                   // what the corrections are added to
    std::vector<bool> datum;                   // per point: a benchmark, or the assumed start
    std::vector<adjust::Column> head_columns;  // per set-up: of a head that was turned; -1 where none
};

// Rows in this order: readings, steps, weighted benchmarks, what instruments show,
// what checks of them say.
void make_rows(Build& build);
// Needs the solution.
void take_results(Build& build);
// Undetermined parts in words, matches that are not proved.
void report_findings(Build& build);

// The stretch of the instrument a set-up's first reading falls into; 0 where nothing is read in it.
std::int32_t first_stretch(const Model& model, std::size_t setup);

}  // namespace fallwright
