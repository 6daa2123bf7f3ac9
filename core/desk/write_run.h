// write_run: a run of drains as JSON. Inside desk only.
#pragma once

#include "base/json_out.h"
#include "drain/run.h"
#include "drain/trench.h"

namespace fallwright {

// One run; as evaluate has it, and as the verb drain has it with its trench.
void write_run(JsonOut& out, const Book& book, const drain::Run& run, const drain::Trench* trench = nullptr);

// m3 as cubic units of the book.
double cubic(const Book& book, double cubic_metres);

// What is dug: the members of a Dug, without braces.
void write_dug(JsonOut& out, const Book& book, const drain::Dug& dug);
// An object: where widths are from, and the job's own figures.
void write_trench_rule(JsonOut& out, const Book& book, const drain::TrenchRule& rule);

}  // namespace fallwright
