#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "properties/answers.h"
#include "properties/transform.h"

namespace fallwright::properties {

namespace {

constexpr double whole_line = 70;  // D1 of a random site

}  // namespace

RC_GTEST_PROP(I03, ReversingALineTurnsTheSignOfItsGradientAndNothingElse, ()) {
    Wishes wishes;
    wishes.on_grid = true;
    const RandomBook book = any_book(wishes);
    const Evaluation a = evaluated(book);
    const Evaluation b = evaluated(reversed_line(book));
    RC_ASSERT(a.model->levels.size() == b.model->levels.size());
    for (std::size_t i = 0; i < a.model->levels.size(); ++i) {
        RC_ASSERT(same(a.model->levels[i].level, b.model->levels[i].level, 1e-9));
        RC_ASSERT(alike(a.model->levels[i].sd, b.model->levels[i].sd, 1e-7));
    }
    const LineFalls& there = a.lines.front();
    const LineFalls& back = b.lines.front();
    RC_ASSERT(there.fits.size() == back.fits.size());
    for (std::size_t i = 0; i < there.fits.size(); ++i) {
        RC_ASSERT(same(there.fits[i].gradient, -back.fits[i].gradient, 1e-10));
        RC_ASSERT(alike(there.fits[i].sd, back.fits[i].sd, 1e-6));
        RC_ASSERT(same(there.fits[i].rms, back.fits[i].rms, 1e-9));
        const double at_end = there.fits[i].level_at_0 + there.fits[i].gradient * whole_line;
        RC_ASSERT(same(at_end, back.fits[i].level_at_0, 1e-8));
    }
    for (std::size_t i = 0; i < there.stations.size(); ++i)
        RC_ASSERT(same(there.stations[i].off_fit, back.stations[i].off_fit, 1e-9));
    RC_CLASSIFY(!there.fits.empty(), "has a fit");
}

// One set-up, one benchmark, a level plane: nothing but the figures given tells how the light tilts.
RC_GTEST_PROP(I15, AGradientFromOneSetUpIsNeverSurerThanTheTilt, ()) {
    const double tilt_sd = static_cast<double>(*rc::gen::inRange(0, 10)) * 1e-5;
    const double setting_sd = static_cast<double>(*rc::gen::inRange(0, 5)) * 1e-5;
    const bool oriented = *rc::gen::arbitrary<bool>();
    const bool placed = *rc::gen::arbitrary<bool>();
    const auto stations = *rc::gen::inRange(2, 12);
    const auto repeats = *rc::gen::inRange(1, 5);
    RandomBook book;
    book.lines = {{{"kind", "book"}, {"format", "fallwright"}, {"version", 1}},
                  {{"kind", "instrument"},
                   {"name", "L"},
                   {"type", "rotating-laser"},
                   {"tilt_sd", tilt_sd},
                   {"setting_tilt_sd", setting_sd}},
                  {{"kind", "line"}, {"name", "D1"}, {"plan", {{0, 0}, {80, 60}}}},
                  {{"kind", "benchmark"}, {"point", "BM"}, {"level", 50}},
                  {{"kind", "setup"}, {"name", "U1"}, {"instrument", "L"}}};
    Json& setup = book.lines.back();
    if (oriented) setup["plane"] = {{"bearing", *rc::gen::inRange(0, 360)}};
    if (placed) setup["place"] = {{"e", *rc::gen::inRange(-20, 80)}, {"n", *rc::gen::inRange(-20, 80)}};
    book.lines.push_back({{"kind", "reading"}, {"point", "BM"}, {"staff", 1.5}});
    for (int i = 0; i < stations * repeats; ++i) {
        const int ch = i % stations * 7 + 1;
        book.lines.push_back({{"kind", "reading"}, {"line", "D1"}, {"ch", ch}, {"what", "laid"}});
        book.lines.back()["staff"] = 1.4 + 0.01 * ch + 0.001 * (i % 3);
    }
    const Evaluation evaluation = evaluated(book);
    const Fit& fit = evaluation.lines.front().fits.front();
    RC_ASSERT(fit.sd >= std::sqrt(tilt_sd * tilt_sd + setting_sd * setting_sd) * (1 - 1e-9));
}

}  // namespace fallwright::properties
