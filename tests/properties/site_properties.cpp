#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "properties/answers.h"
#include "properties/transform.h"

namespace fallwright::properties {

namespace {

// The figure that a mark and what the receiver shows come to, contract section 1.
double figure_of(const Json& line, double clamp) {
    const double mark = line.value("mark", clamp);
    const double side = line.contains("inverted") ? -1 : 1;
    if (line.contains("high")) return mark - side * line["high"].get<double>();
    if (line.contains("low")) return mark + side * line["low"].get<double>();
    return mark + line["offset"].get<double>();
}

// Every mark, HIGH and LOW said as the figure on the staff.
RandomBook with_plain_figures(const RandomBook& book) {
    RandomBook other = book;
    double clamp = 0;
    for (Json& line : other.lines) {
        if (line["kind"] == "setup") clamp = line.value("clamp", 0.0);
        const bool shown = line.contains("high") || line.contains("low") || line.contains("offset");
        if (line["kind"] != "reading" || !shown) continue;
        line["staff"] = figure_of(line, clamp);
        for (const char* field : {"mark", "high", "low", "offset"}) line.erase(field);
    }
    return other;
}

}  // namespace

// A line without a plan has a frame of its own, which does not turn with the grid.
RC_GTEST_PROP(I18, TurningAndMovingTheGridChangesNothing, ()) {
    Wishes wishes;
    wishes.on_grid = true;
    const RandomBook book = any_book(wishes);
    const double degrees = *rc::gen::inRange(0, 360);
    const double east = *rc::gen::inRange(-5000, 5000);
    const double north = *rc::gen::inRange(-5000, 5000);
    const Evaluation a = evaluated(book);
    const Evaluation b = evaluated(turned_site(book, degrees, east, north));
    const auto before = levels_of(a);
    const auto after = levels_of(b);
    RC_ASSERT(before.size() == after.size());
    for (const auto& [name, level] : before) {
        RC_ASSERT(same(level.level, after.at(name).level, 1e-8));
        RC_ASSERT(alike(level.sd, after.at(name).sd, 1e-6));
    }
    for (std::size_t i = 0; i < a.lines.size(); ++i) {
        RC_ASSERT(a.lines[i].fits.size() == b.lines[i].fits.size());
        for (std::size_t k = 0; k < a.lines[i].fits.size(); ++k)
            RC_ASSERT(alike(a.lines[i].fits[k].sd, b.lines[i].fits[k].sd, 1e-6));
    }
}

RC_GTEST_PROP(I19, TheSiteUpsideDownHasTheNegativeLevels, ()) {
    Wishes wishes;
    wishes.plain = wishes.one_datum = true;
    const RandomBook book = any_book(wishes);
    const auto before = levels_of(evaluated(book));
    const auto after = levels_of(evaluated(upside_down(book)));
    RC_ASSERT(before.size() == after.size());
    for (const auto& [name, level] : before) {
        RC_ASSERT(same(level.level, -after.at(name).level, 1e-9));
        RC_ASSERT(alike(level.sd, after.at(name).sd, 1e-7));
        RC_ASSERT(level.checked == after.at(name).checked);
    }
}

RC_GTEST_PROP(I20, AWeightedBenchmarkSaidTwiceHalfAsSureIsTheSame, ()) {
    const RandomBook book = any_book({});
    RandomBook other = book;
    for (const Json& line : book.lines) {
        if (line["kind"] != "benchmark" || !line.contains("sd")) continue;
        for (Json& each : other.lines) {
            if (each == line) each["sd"] = line["sd"].get<double>() * std::sqrt(2.0);
        }
        Json again = line;
        again["sd"] = line["sd"].get<double>() * std::sqrt(2.0);
        other.lines.push_back(again);
    }
    const auto before = levels_of(evaluated(book));
    const auto after = levels_of(evaluated(other));
    RC_ASSERT(same_levels(before, after));
}

RC_GTEST_PROP(I21, MarkHighAndLowAreTheFigureTheyComeTo, ()) {
    const RandomBook book = any_book({});
    RC_ASSERT(same_levels(levels_of(evaluated(book)), levels_of(evaluated(with_plain_figures(book)))));
}

}  // namespace fallwright::properties
