#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/print.h"
#include "properties/answers.h"
#include "properties/transform.h"

namespace fallwright::properties {

namespace {

void add(Json& object, const char* key, double shift) {
    if (object[key].is_number()) object[key] = rounded_to(object[key].get<double>() + shift, length_places);
}

// Every level of the answer higher by `shift`.
void raise_levels(Json& answer, double shift) {
    for (Json& level : answer["levels"]) add(level, "level", shift);
    for (Json& setup : answer["setups"]) add(setup, "plane", shift);
    for (Json& page : answer["pages"]) {
        add(page, "first", shift);
        add(page, "last", shift);
        for (Json& row : page["rows"]) {
            for (const char* key : {"collimation", "level", "adjusted"}) add(row, key, shift);
        }
    }
    for (Json& line : answer["lines"]) {
        for (Json& fit : line["fits"]) add(fit, "level_at_0", shift);
        for (Json& station : line["stations"]) {
            add(station, "level", shift);
            for (Json& surface : station["earlier"]) add(surface, "level", shift);
        }
    }
}

// Numbers as numbers: 10 and 10.0 are one.
Json as_numbers(const Json& answer) {
    RandomBook whole{{answer}};
    for_each_number(whole, [](const std::string&, Json& number) { number = number.get<double>(); });
    return whole.lines.front();
}

}  // namespace

RC_GTEST_PROP(I02, HigherBenchmarksRaiseAllLevelsByAsMuchAndNothingElse, ()) {
    Wishes wishes;
    wishes.one_datum = true;
    const RandomBook book = any_book(wishes);
    const double shift = static_cast<double>(*rc::gen::inRange(-40000, 900000)) / 1000;
    Json answer = as_numbers(answer_json(book));
    raise_levels(answer, shift);
    RC_ASSERT(answer == as_numbers(answer_json(raised(book, shift))));
}

RC_GTEST_PROP(I04, UncertaintiesTimesAFactorScaleThoseOfTheResultAndNothingElse, ()) {
    Wishes wishes;
    wishes.level = wishes.all_sds = true;
    const RandomBook book = any_book(wishes);
    const double factor = *rc::gen::element(0.5, 2.0, 3.0, 10.0);
    const Evaluation before = evaluated(book);
    const Evaluation after = evaluated(with_sds_times(book, factor));
    const Model& a = *before.model;
    const Model& b = *after.model;
    RC_ASSERT(a.levels.size() == b.levels.size());
    for (std::size_t i = 0; i < a.levels.size(); ++i) {
        RC_ASSERT(same(a.levels[i].level, b.levels[i].level, 1e-9));
        RC_ASSERT(alike(a.levels[i].sd * factor, b.levels[i].sd, 1e-7));
    }
    for (std::size_t i = 0; i < a.planes.size(); ++i) {
        RC_ASSERT(alike(a.planes[i].sd * factor, b.planes[i].sd, 1e-7));
        RC_ASSERT(alike(a.planes[i].gradient_sd[0] * factor, b.planes[i].gradient_sd[0], 1e-7));
    }
    for (std::size_t i = 0; i < a.sights.rows.size(); ++i) {
        RC_ASSERT(same(a.fit(i).residual, b.fit(i).residual, 1e-9));
        RC_ASSERT(same(a.fit(i).redundancy, b.fit(i).redundancy, 1e-6));
    }
    RC_ASSERT(a.summary.dof == b.summary.dof);
    RC_ASSERT(same(a.summary.chi2, b.summary.chi2 * factor * factor, 1e-6 * (1 + a.summary.chi2)));
}

RC_GTEST_PROP(I07, FeetAndMetresGiveTheSameLevels, ()) {
    const RandomBook book = any_book({});
    const Evaluation metres = evaluated(book);
    const Evaluation feet = evaluated(in_feet(book));
    RC_ASSERT(feet.book->unit == Unit::Foot);
    RC_ASSERT(metres.model->levels.size() == feet.model->levels.size());
    // Without a benchmark the first point is 100 of the book's unit.
    const double assumed = metres.model->assumed_datum ? 100 * (1 - metres_per_foot) : 0;
    constexpr double booked_ticks = 2e-6;  // each figure is rounded to 1e-7 m, and some books have many
    for (std::size_t i = 0; i < metres.model->levels.size(); ++i) {
        const PointLevel& a = metres.model->levels[i];
        const PointLevel& b = feet.model->levels[i];
        RC_ASSERT(same(a.level - assumed, b.level, booked_ticks));
        RC_ASSERT(alike(a.sd, b.sd, 1e-5));
        RC_ASSERT(a.checked == b.checked);
    }
}

}  // namespace fallwright::properties
