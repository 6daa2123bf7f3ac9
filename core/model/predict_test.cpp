#include "model/predict.h"

#include <gtest/gtest.h>

#include "staff/figures.h"

namespace fallwright {

namespace {

struct Solved {
    std::unique_ptr<Book> book;
    Figures figures;
    Where where;
    std::unique_ptr<Model> model;

    explicit Solved(const std::string& entries) {
        book = std::move(*read_book(
            "{\"kind\":\"book\",\"format\":\"fallwright\",\"version\":1,\"curvature\":false}\n" + entries));
        figures = read_figures(*book);
        where = locate(*book, 30);
        model = build_model(*book, figures, where);
    }
    Prediction at(double u, double v, double level) const {
        return Predictor(*book, where, *model)
            .read(0, {u, v, std::sqrt(u * u + v * v), true, false}, {level, {}}, -1);
    }
};

// geo-5: the staff reading to set a point, the plane through a benchmark (derived for this project).
const char* const geo_5 =
    R"({"kind":"benchmark","point":"BM","level":51.234}
{"kind":"instrument","name":"L","type":"rotating-laser"}
{"kind":"setup","name":"S1","instrument":"L","plane":{"main":0.015,"cross":-0.01}}
{"kind":"reading","point":"BM","staff":1.678,"along":-12,"across":8}
)";

}  // namespace

TEST(Predict, AReadingToSetAPointOnASlopedPlane) {
    const Solved solved(geo_5);
    EXPECT_NEAR(solved.model->planes[0].level, 53.172, 1e-6);
    EXPECT_NEAR(solved.at(40, -15, 51.950).staff, 1.972, 1e-6);
}

TEST(Predict, ItsUncertaintyIsThatOfTheSameReadingInTheModel) {
    // The point is read once more, on a surface found without error: its level is as uncertain as the
    // prediction and that reading together, and nothing else.
    const Solved before(geo_5);
    const Solved after(std::string(geo_5) + R"({"kind":"what","name":"exact","foot_sd":0}
{"kind":"reading","point":"P","what":"exact","staff":1.972,"along":40,"across":-15,"sd":0.0001}
)");
    const std::int32_t point = after.model->points.at(after.book->names.find("P"));
    const std::size_t row = after.model->sights.rows.size() - 1;
    const double noise = after.model->sights.rows[row].sd;
    const double predicted = before.at(40, -15, 51.950).sd;
    EXPECT_NEAR(after.model->levels[static_cast<std::size_t>(point)].sd,
                std::sqrt(predicted * predicted + noise * noise), 1e-9);
}

TEST(Predict, WhatIsReadOnItsOwnPlaneIsWhatWasRead) {
    // At the benchmark itself every error of the plane cancels but that of the one reading and its foot.
    const Solved solved(geo_5);
    const Prediction again = solved.at(-12, 8, 51.234);
    EXPECT_NEAR(again.staff, 1.678, 1e-9);
    const double noise = solved.model->sights.rows[0].sd;
    EXPECT_NEAR(again.sd, std::sqrt(noise * noise + solved.model->sights.rows[0].foot_variance), 1e-9);
}

TEST(Predict, PredictionAndResidualMakeTheReadingAsBooked) {
    // Two benchmarks that disagree by millimetres, a tested tilt and cone, a worn staff: each reading is what
    // is predicted for its point and what is left over. Surfaces found exactly: a foot would take its share.
    const Solved solved(R"({"kind":"what","name":"exact","foot_sd":0}
{"kind":"benchmark","point":"BM","level":51.234}
{"kind":"benchmark","point":"BM2","level":51.1,"sd":0.001}
{"kind":"instrument","name":"L","type":"rotating-laser","tilt":[2e-5,-3e-5],"cone":1e-5,"grade_gain_sd":0.001}
{"kind":"staff","name":"T","zero":0.002,"zero_sd":0.001}
{"kind":"setup","name":"S1","instrument":"L","place":{"e":0,"n":0},"plane":{"main":0.015,"cross":-0.01,"bearing":30},"staff":"T"}
{"kind":"reading","point":"BM","what":"exact","staff":1.678,"along":-12,"across":8}
{"kind":"reading","point":"BM2","what":"exact","staff":2.9,"along":52,"across":-20}
{"kind":"reading","point":"P","what":"exact","staff":1.5,"along":31,"across":7}
{"kind":"setup","name":"S2","instrument":"L","plane":{"main":0,"cross":0,"bearing":210},"staff":"T"}
{"kind":"reading","point":"P","what":"exact","staff":1.2,"along":-25,"across":3}
{"kind":"reading","point":"BM2","what":"exact","staff":1.411,"along":30,"across":30}
)");
    const Predictor predictor(*solved.book, solved.where, *solved.model);
    for (std::size_t i = 0; i < solved.book->readings.size(); ++i) {
        const Reading& reading = solved.book->readings[i];
        const PointTerm level = {solved.model->points.at(reading.point), 1};
        const Prediction predicted = predictor.read(static_cast<std::size_t>(reading.setup_at),
                                                    solved.where.readings[i], {0, {&level, 1}}, 0);
        const double residual = solved.model->fit(i).residual;
        EXPECT_GT(std::fabs(residual), 1e-6);
        EXPECT_NEAR(predicted.staff + residual, solved.figures.value[i].metres(), 1e-9);
    }
}

TEST(Predict, AnotherPlaneOnTheSameHeadTurnsAboutTheInstrument) {
    const Solved solved(geo_5);
    const Predictor predictor(*solved.book, solved.where, *solved.model);
    const SightPlace ahead = {50, 0, 50, true, false};
    const Prediction level = predictor.read_on({0, 0}, 0, ahead, {51, {}}, -1);
    const Prediction sloped = predictor.read_on({0.02, 0}, 0, ahead, {51, {}}, -1);
    EXPECT_NEAR(level.staff, 53.172 - 51, 1e-6);
    EXPECT_NEAR(sloped.staff - level.staff, 0.02 * 50, 1e-9);
}

TEST(Predict, NothingReadInTheSetUpPredictsNothing) {
    const Solved solved(R"({"kind":"benchmark","point":"BM","level":51.234}
{"kind":"instrument","name":"L","type":"rotating-laser"}
{"kind":"setup","name":"S1","instrument":"L"}
)");
    EXPECT_TRUE(std::isnan(solved.at(10, 0, 50).staff));
    EXPECT_TRUE(std::isnan(solved.at(10, 0, 50).sd));
}

}  // namespace fallwright
