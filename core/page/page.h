// page: the booked page, as it stands in a level book, in exact decimals.
//
// One page for each run of level set-ups joined by common back and fore sights. A set-up's first back sight
// to a known point gives its height of collimation; later back sights count as inter. A point that the next
// set-up takes as its back sight is a change point: it is booked as fore and back on one line. The last
// reading of a run is booked as its fore. Rise and fall and height of collimation stand side by side; the
// page agrees when
//   sum back - sum fore = sum rise - sum fall = last - first.
// A back sight after which nothing has been read yet stands in its row and is not in the sums.
// Inverted readings are negative. A back sight on a benchmark begins a new page at the benchmark's level.
//
// A sloped set-up has a page of its own: the plane's level at each point as dialled, no sums.
//
// Closures: where a run meets a benchmark, or its own start, misclosure = found - known. It is shared out
// from the start to there, and between one closure and the next, in proportion to set-ups or to distance;
// every reading takes the correction of its own set-up. A run that comes back to its start within its first
// set-up shares nothing out.
#pragma once

#include <string_view>
#include <vector>

#include "base/finding.h"
#include "preset/misclosure.h"
#include "staff/figures.h"
#include "where/where.h"

namespace fallwright {

struct PageRow {
    std::uint32_t reading =
        0;  // index in Book::readings of the sight named first: fore, inter, or the back of a first row
    std::int32_t setup = 0;  // the set-up whose collimation stands in the row
    MaybeDecimal back, inter, fore, rise, fall, collimation;
    Decimal level;
    MaybeDecimal adjusted;  // where the run closes
    bool known = false;     // a benchmark
};

struct Page {
    bool sloped = false;
    std::vector<PageRow> rows;
    Decimal sum_back, sum_fore, sum_rise, sum_fall, first, last;
    bool agrees = false;
};

// One sight of the way from a run's start to where it closes, with its sign in the misclosure.
struct WaySight {
    std::uint32_t reading;
    int sign;
};

struct Closure {
    NameId from = no_name, to = no_name;
    std::int32_t setups = 0;
    Maybe length;  // metres along the sights; absent where one of them has no distance
    Decimal misclosure;
    std::vector<WaySight> way;
    bool from_benchmark = false, loop = false;
};

struct Pages {
    std::vector<Page> pages;
    std::vector<Closure> closures;
    Findings findings;
};

// by: how misclosures are shared out, Km by distance where every sight of the run has one, else by set-ups.
Pages book_pages(const Book& book, const Figures& figures, const Where& where, preset::MisclosureRule::By by);

// "benchmark", "change point", "plane level here", or nothing.
std::string_view remark_of(const Page& page, const PageRow& row);

}  // namespace fallwright
