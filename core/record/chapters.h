// chapters: what a record is made of, one file each. Inside record only.
//
// Each adds its blocks, or none where the book has nothing of it. None computes a level: stages before them
// did.
#pragma once

#include <vector>

#include "record/report.h"
#include "record/writer.h"

namespace fallwright::record {

void add_cover(Writer& out, const Wanted& wanted);        // cover.cpp: job, datum, instruments, who, what
void add_in_short(Writer& out);                           // cover.cpp: the story
void add_plan(Writer& out);                               // cover.cpp: where everything stands
void add_falls(Writer& out);                              // falls_chapter.cpp
void add_verdicts(Writer& out);                           // verdicts_chapter.cpp
void add_levels(Writer& out);                             // levels_chapter.cpp: levels, steps
void add_pages(Writer& out);                              // pages_chapter.cpp: booked pages, closures
void add_drains(Writer& out);                             // drains_chapter.cpp
void add_evenness(Writer& out);                           // evenness_chapter.cpp
void add_surfaces(Writer& out);                           // surfaces_chapter.cpp
void add_setting_out(Writer& out);                        // setout_chapter.cpp: dials, tables
void add_trials(Writer& out);                             // trials_chapter.cpp
void add_suspects(Writer& out);                           // suspects_chapter.cpp
void add_changes(Writer& out, const Wanted& wanted);      // changes_chapter.cpp
void add_findings(Writer& out);                           // closing.cpp: what to look at
void add_cautions(Writer& out);                           // closing.cpp: always
void add_method(Writer& out, const Wanted& wanted);       // method_chapter.cpp
void add_fingerprint(Writer& out, const Wanted& wanted);  // closing.cpp
void add_closing(Writer& out, const Wanted& wanted);      // closing.cpp: fingerprint, signature
void add_one_page(Writer& out, const Wanted& wanted);     // one_page.cpp: the whole short form

}  // namespace fallwright::record
