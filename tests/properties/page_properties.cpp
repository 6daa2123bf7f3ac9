#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "properties/answers.h"

namespace fallwright::properties {

namespace {

struct Columns {
    Decimal back, fore, rise, fall;
};

// A back sight after which nothing is read stands in no sum.
Columns summed(const Page& page) {
    Columns sums;
    for (std::size_t i = 0; i < page.rows.size(); ++i) {
        const PageRow& row = page.rows[i];
        if (i + 1 < page.rows.size()) sums.back += row.back.value_or(Decimal());
        sums.fore += row.fore.value_or(Decimal());
        sums.rise += row.rise.value_or(Decimal());
        sums.fall += row.fall.value_or(Decimal());
    }
    return sums;
}

}  // namespace

RC_GTEST_PROP(I01, SumsOfAPageAgreeExactly, ()) {
    const Evaluation evaluation = evaluated(any_book({}));
    std::size_t level_pages = 0;
    for (const Page& page : evaluation.pages.pages) {
        if (page.sloped) continue;
        ++level_pages;
        const Columns sums = summed(page);
        RC_ASSERT(sums.back == page.sum_back);
        RC_ASSERT(sums.fore == page.sum_fore);
        RC_ASSERT(sums.rise == page.sum_rise);
        RC_ASSERT(sums.fall == page.sum_fall);
        RC_ASSERT(sums.back - sums.fore == sums.rise - sums.fall);
        RC_ASSERT(sums.back - sums.fore == page.rows.back().level - page.rows.front().level);
        RC_ASSERT(page.agrees);
    }
    RC_CLASSIFY(level_pages > 0, "has a level page");
}

RC_GTEST_PROP(I08, PageAndModelAgreeWhereNothingIsRedundant, ()) {
    Wishes wishes;
    wishes.level = wishes.plain = wishes.one_datum = true;
    wishes.redundant = false;
    const Evaluation evaluation = evaluated(any_book(wishes));
    const Model& model = *evaluation.model;
    RC_ASSERT(evaluation.pages.closures.empty());
    std::size_t rows = 0;
    for (const Page& page : evaluation.pages.pages) {
        RC_ASSERT(!page.sloped);
        for (const PageRow& row : page.rows) {
            const NameId point = evaluation.book->readings[row.reading].point;
            const double level = model.levels[static_cast<std::size_t>(model.points.at(point))].level;
            RC_ASSERT(same(row.level.metres(), level, 1e-9));
            ++rows;
        }
    }
    // Every reading stands on a page: change points have one row for two of them.
    std::size_t sights = 0;
    for (const Page& page : evaluation.pages.pages) {
        for (const PageRow& row : page.rows)
            sights += (row.back ? 1u : 0u) + (row.inter ? 1u : 0u) + (row.fore ? 1u : 0u);
    }
    RC_ASSERT(sights == evaluation.book->readings.size());
    RC_ASSERT(rows > 0u);
}

}  // namespace fallwright::properties
