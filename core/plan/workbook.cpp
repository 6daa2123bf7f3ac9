#include "plan/workbook.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "model/predict.h"

namespace fallwright {

namespace {

bool shares_head(const Book& book, std::size_t setup) {
    if (book.setups[setup].head_at >= 0) return true;
    return std::any_of(book.setups.begin(), book.setups.end(), [setup](const Setup& other) {
        return other.head_at == static_cast<std::int32_t>(setup);
    });
}

}  // namespace

Workbook::Workbook(const PlanBasis& basis)
    : basis_(basis), book_(new Book(basis.book)), setups_(basis.book.setups), places_(basis.book.places) {
    book_->forget_text();
    for (std::uint32_t i = 0; i < basis.book.readings.size(); ++i) {
        if (basis.book.readings[i].planned || !basis.figures.usable[i]) continue;
        readings_.push_back(basis.book.readings[i]);
        kept_.push_back(i);
    }
    Entry entry;
    entry.kind = Kind::Reading;
    for (const Entry& other : book_->entries) entry.at = std::max(entry.at, other.at);
    entry.line = static_cast<std::uint32_t>(book_->entries.size() + 1);
    entry_ = static_cast<std::uint32_t>(book_->entries.size());
    book_->entries.push_back(entry);
}

NameId Workbook::name_for(const std::string& stem, const Layout& layout) {
    for (int i = 1;; ++i) {
        const std::string text = stem + std::to_string(i);
        if (basis_.book.names.find(text) != no_name) continue;
        const NameId name = book_->names.intern(text);
        const bool taken = layout.is_change_point(name) ||
                           std::any_of(layout.stands.begin(), layout.stands.end(),
                                       [name](const Stand& stand) { return stand.name == name; });
        if (!taken) return name;
    }
}

void Workbook::use_instrument(std::size_t instrument) {
    instrument_ = instrument;
    if (instrument != not_named) return;
    Instrument laser;
    laser.entry = entry_;
    laser.name = name_for("laser ", {});
    instrument_ = book_->instruments.size();
    book_->instruments.push_back(laser);
}

// The figure a planned reading will have, where plane and level are known already.
double Workbook::predicted(std::size_t reading) const {
    const Reading& as = basis_.book.readings[reading];
    const std::int32_t point = basis_.model.points.at(as.point);
    if (point < 0) return usual_figure;
    const PointTerm term{point, 1};
    const Predictor predictor(basis_.book, basis_.where, basis_.model);
    const Prediction read =
        predictor.read(static_cast<std::size_t>(as.setup_at), basis_.where.readings[reading], {0, {&term, 1}},
                       staff_of(basis_.book, as, ByName(basis_.book.staffs)));
    constexpr double longest_staff = 10;
    const bool likely = std::isfinite(read.sd) && read.staff > 0 && read.staff < longest_staff;
    return likely ? read.staff : usual_figure;
}

Layout Workbook::as_planned() const {
    Layout layout;
    const Book& book = basis_.book;
    std::vector<std::int32_t> stand_of(book.setups.size(), -1);
    std::vector<bool> read(book.setups.size(), false);
    for (const Reading& reading : readings_) read[static_cast<std::size_t>(reading.setup_at)] = true;
    for (std::size_t i = 0; i < book.readings.size(); ++i) {
        const Reading& reading = book.readings[i];
        if (!reading.planned) continue;
        const auto setup = static_cast<std::size_t>(reading.setup_at);
        if (stand_of[setup] < 0) {
            stand_of[setup] = static_cast<std::int32_t>(layout.stands.size());
            Stand stand;
            stand.name = book.setups[setup].name;
            stand.setup = reading.setup_at;
            stand.spot = basis_.where.setups[setup];
            if (basis_.where.headings[setup].known)
                stand.bearing = {bearing_of(basis_.where.headings[setup])};
            stand.fixed = read[setup] || shares_head(book, setup) || !stand.spot.known;
            layout.stands.push_back(stand);
        }
        PlannedSight sight;
        sight.stand = static_cast<std::size_t>(stand_of[setup]);
        sight.as = reading;
        sight.given = static_cast<std::int32_t>(i);
        sight.figure = predicted(i);
        sight.spot = basis_.where.points[reading.point];
        layout.sights.push_back(std::move(sight));
    }
    return layout;
}

void Workbook::place_stands(const Layout& layout) {
    book_->setups = setups_;
    for (const Stand& stand : layout.stands) {
        if (stand.setup >= 0 && !stand.moved && !stand.turned) continue;
        Setup setup;
        if (stand.setup >= 0) {
            setup = setups_[static_cast<std::size_t>(stand.setup)];
        } else {
            setup.entry = entry_;
            setup.name = stand.name;
            setup.instrument_at = static_cast<std::int32_t>(instrument_);
            setup.instrument = book_->instruments[instrument_].name;
        }
        if (stand.setup < 0 || stand.moved) setup.position = position_of(*book_, stand.spot);
        setup.towards = no_name;
        setup.bearing = {stand.axis()};
        if (stand.turned) {
            for (Axis& axis : setup.plane) axis.dialled = -axis.dialled;
        }
        if (stand.setup >= 0) {
            book_->setups[static_cast<std::size_t>(stand.setup)] = setup;
        } else {
            book_->setups.push_back(setup);
        }
    }
}

void Workbook::place_change_points(const Layout& layout) {
    book_->places = places_;
    for (const NameId point : layout.change_points) {
        const Spot spot = layout.change_point_spot(point);
        if (spot.known) book_->places.push_back({entry_, point, position_of(*book_, spot)});
    }
}

void Workbook::list_readings(const Layout& layout) {
    book_->readings = readings_;
    std::vector<std::int32_t> setup_of;
    auto next = static_cast<std::int32_t>(setups_.size());
    for (const Stand& stand : layout.stands) setup_of.push_back(stand.setup >= 0 ? stand.setup : next++);
    for (const PlannedSight& sight : layout.sights) {
        Reading reading = sight.as;
        if (sight.given < 0) reading.entry = entry_;
        const Stand& stand = layout.stands[sight.stand];
        reading.setup_at = setup_of[sight.stand];
        reading.setup = stand.name;
        reading.planned = false;
        reading.figure.form = Form::Staff;
        reading.figure.a = Decimal::metres(sight.figure);
        if (stand.moved) reading.dist = reading.along = reading.across = {};
        book_->readings.push_back(reading);
    }
    // What is planned comes after all that is read.
    std::vector<std::uint32_t>& order = book_->readings_by_time;
    order.clear();
    std::vector<std::int32_t> now(basis_.book.readings.size(), -1);
    for (std::size_t i = 0; i < kept_.size(); ++i) now[kept_[i]] = static_cast<std::int32_t>(i);
    for (const std::uint32_t i : basis_.book.readings_by_time) {
        if (now[i] >= 0) order.push_back(static_cast<std::uint32_t>(now[i]));
    }
    for (std::size_t i = readings_.size(); i < book_->readings.size(); ++i)
        order.push_back(static_cast<std::uint32_t>(i));
}

Figures Workbook::figures_of(const Layout& layout) const {
    Figures figures;
    const bool stood_elsewhere = !basis_.figures.down.empty();
    for (const std::uint32_t i : kept_) {
        figures.value.push_back(basis_.figures.value[i]);
        if (stood_elsewhere) figures.down.push_back(basis_.figures.down[i]);
    }
    for (const PlannedSight& sight : layout.sights) figures.value.push_back(Decimal::metres(sight.figure));
    figures.usable.assign(figures.value.size(), true);
    if (stood_elsewhere) figures.down.resize(figures.value.size());
    return figures;
}

Solved Workbook::solve(const Layout& layout) {
    place_stands(layout);
    place_change_points(layout);
    list_readings(layout);
    Solved solved;
    solved.first = readings_.size();
    solved.where = locate(*book_, basis_.where.assumed_sight);
    solved.model = build_model(*book_, figures_of(layout), solved.where, basis_.checked);
    return solved;
}

}  // namespace fallwright
