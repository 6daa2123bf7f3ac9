// The columns of causes, and what they do to a reading taken now.
#include <algorithm>
#include <cmath>

#include "suspect/causes.h"

namespace fallwright {

namespace {

constexpr double out_factor = 10;  // an instrument out of order, against what is believed of it

// By row, each once. Most columns are so already.
void sort_by_row(Shifts& shifts) {
    const auto not_before = [](const Shift& a, const Shift& b) { return a.row >= b.row; };
    if (std::adjacent_find(shifts.begin(), shifts.end(), not_before) == shifts.end()) return;
    std::sort(shifts.begin(), shifts.end(), [](const Shift& a, const Shift& b) { return a.row < b.row; });
    std::size_t count = 0;
    for (const Shift& shift : shifts) {
        if (count > 0 && shifts[count - 1].row == shift.row) {
            shifts[count - 1].by += shift.by;
        } else {
            shifts[count++] = shift;
        }
    }
    shifts.resize(count, {});
}

}  // namespace

// Effects that are switched off are none, even for an instrument out of order.
std::vector<Causes::InstrumentColumn> Causes::instrument_columns(const Cause& cause) const {
    const auto at = static_cast<std::size_t>(cause.other);
    const InstrumentErrors& errors = model_.sights.errors[at];
    std::vector<InstrumentColumn> columns;
    const auto add = [&](InstrumentColumn::What what, double sd) {
        if (sd > 0) columns.push_back({what, out_factor * sd});
    };
    if (book_.instruments[at].type == InstrumentType::OpticalLevel) {
        add(InstrumentColumn::What::Collimation, errors.collimation_sd);
    } else {
        add(InstrumentColumn::What::MainTilt, errors.tilt_sd);
        add(InstrumentColumn::What::CrossTilt, errors.tilt_sd);
        add(InstrumentColumn::What::Cone, errors.cone_sd);
    }
    return columns;
}

std::size_t Causes::columns(const Cause& cause) const {
    return cause.kind == SuspectKind::InstrumentOut ? instrument_columns(cause).size() : 1;
}

double Causes::minutes(std::int32_t row) const {
    constexpr double microseconds = 6e7;
    const auto first =
        static_cast<std::int32_t>(on_tripod(static_cast<std::size_t>(sight(row).setup)).front());
    const Instant from = time_of(first), to = time_of(row);
    if (from == before_all || to == before_all) return 0;
    return static_cast<double>(to - from) / microseconds;
}

// One metre of chainage, in the axes of the set-up; 0 where that cannot be told.
std::array<double, 2> Causes::metre_along(std::int32_t row) const {
    const Reading& booked = reading(row);
    if (booked.along.has()) return {1, 0};
    const std::int32_t line = booked.line == no_name ? -1 : lines_(booked.line);
    if (line < 0) return {0, 0};
    const PlanLine& plan = plans_[static_cast<std::size_t>(line)];
    const auto setup = static_cast<std::size_t>(sight(row).setup);
    const SightPlace here = seen_from(where_, setup, plan.at(booked.ch, booked.off));
    const SightPlace next = seen_from(where_, setup, plan.at(booked.ch + 1, booked.off));
    if (!here.has_uv || !next.has_uv) return {0, 0};
    return {next.u - here.u, next.v - here.v};
}

double Causes::along_line(std::int32_t row) const {
    const std::array<double, 2>& g = dialled(sight(row).setup);
    if (g[0] == 0 && g[1] == 0) return 0;
    const std::array<double, 2> metre = metre_along(row);
    return g[0] * metre[0] + g[1] * metre[1];
}

double Causes::design_gradient(std::int32_t row) const {
    const Reading& booked = reading(row);
    const std::int32_t line = booked.line == no_name ? -1 : lines_(booked.line);
    if (line < 0 || evidence_.expectation_of(sight(row).point) < 0) return 0;
    const DesignLevel gradient =
        designs_.lines[static_cast<std::size_t>(line)].gradient(booked.ch, Side::After);
    return gradient.has() && gradient.hangs.empty() ? gradient.constant : 0;
}

bool Causes::depends_on_chainage(std::int32_t row) const {
    const Reading& booked = reading(row);
    const bool sloped = !model_.sights.setups[static_cast<std::size_t>(sight(row).setup)].level();
    if (booked.along.has()) return sloped;
    return booked.line != no_name && (sloped || evidence_.expectation_of(sight(row).point) >= 0);
}

Shifts Causes::of_distance(const Cause& cause) const {
    Shifts shifts = {{static_cast<std::uint32_t>(cause.row), -along_line(cause.row)}};
    const std::int32_t expected = evidence_.expectation_of(sight(cause.row).point);
    if (expected >= 0) shifts.push_back({static_cast<std::uint32_t>(expected), design_gradient(cause.row)});
    return shifts;
}

void Causes::add_benchmark(std::size_t index, Shifts& shifts) const {
    const Benchmark& benchmark = book_.benchmarks[index];
    const std::size_t readings = model_.sights.rows.size();
    if (benchmark.sd > 0) {
        std::size_t row = readings + book_.steps.size();
        for (std::size_t i = 0; i < index; ++i) row += book_.benchmarks[i].sd > 0 ? 1 : 0;
        shifts.push_back({static_cast<std::uint32_t>(row), 1});
        return;
    }
    const std::int32_t point = model_.points.at(benchmark.point);
    for (const std::uint32_t row : rows_of(point)) shifts.push_back({row, 1});
    for (std::size_t i = 0; i < book_.steps.size(); ++i) {
        const auto row = static_cast<std::uint32_t>(readings + i);
        if (book_.steps[i].from == benchmark.point) shifts.push_back({row, 1});
        if (book_.steps[i].to == benchmark.point) shifts.push_back({row, -1});
    }
}

Shifts Causes::of_moved(const Cause& cause) const {
    Shifts shifts;
    const std::int32_t root = where_.tripods[static_cast<std::size_t>(cause.setup)];
    const Instant from = time_of(cause.row);
    for (const std::uint32_t row : rows_of(cause.point)) {
        const auto at = static_cast<std::int32_t>(row);
        const bool same = where_.tripods[static_cast<std::size_t>(sight(at).setup)] == root;
        const bool later = time_of(at) > from || (time_of(at) == from && at >= cause.row);
        if (same || later) shifts.push_back({row, -1});
    }
    return shifts;
}

double Causes::instrument_coefficient(const Cause& cause, const InstrumentColumn& column,
                                      std::uint32_t row) const {
    const SightRow& of = model_.sights.rows[row];
    const auto setup = static_cast<std::size_t>(of.setup);
    if (book_.setups[setup].instrument_at != cause.other || of.stretch != cause.stretch) return 0;
    return column.of(of.terms.u, of.terms.v, of.terms.d, model_.sights.setups[setup].oriented);
}

Shifts Causes::of_instrument(const Cause& cause, std::size_t which) const {
    Shifts shifts;
    const InstrumentColumn column = instrument_columns(cause)[which];
    for (std::uint32_t row = 0; row < model_.sights.rows.size(); ++row) {
        const double by = instrument_coefficient(cause, column, row);
        if (by != 0) shifts.push_back({row, by});
    }
    return shifts;
}

double Causes::in_setup(const Cause& cause, double u, double v) const {
    const std::array<double, 2>& g = dialled(cause.setup);
    switch (cause.kind) {
        case SuspectKind::AxesSwapped:
            return u - v;
        case SuspectKind::AimOff:
            return cause.half_round ? g[0] * u + g[1] * v : g[0] * v - g[1] * u;
        default:
            return cause.axis == 0 ? u : v;
    }
}

Shifts Causes::of_setup(const Cause& cause) const {
    Shifts shifts;
    const SightRow* rows = model_.sights.rows.data();
    const std::span<const std::uint32_t> here = on_tripod(static_cast<std::size_t>(cause.setup));
    shifts.reserve(here.size());
    for (const std::uint32_t row : here) {
        if (rows[row].setup != cause.setup) continue;
        if (cause.kind == SuspectKind::StaffSection) {
            if (rows[row].terms.r > cause.joint) shifts.push_back({row, rows[row].terms.sign});
        } else {
            shifts.push_back({row, in_setup(cause, rows[row].terms.u, rows[row].terms.v)});
        }
    }
    return shifts;
}

// Readings on the tripod from a cause's own on.
std::span<const std::uint32_t> Causes::from_here(const Cause& cause) const {
    const std::span<const std::uint32_t> all = on_tripod(static_cast<std::size_t>(cause.setup));
    const auto root = static_cast<std::size_t>(where_.tripods[static_cast<std::size_t>(cause.setup)]);
    return all.subspan(place_[static_cast<std::size_t>(cause.row)] - tripod_start_[root]);
}

Shifts Causes::column(const Cause& cause, std::size_t which) const {
    Shifts shifts;
    switch (cause.kind) {
        case SuspectKind::WrongBenchmark:
            for (std::size_t i = 0; i < book_.benchmarks.size(); ++i) {
                const bool meant = cause.source == no_name ? static_cast<std::int32_t>(i) == cause.other
                                                           : book_.benchmarks[i].source == cause.source;
                if (meant) add_benchmark(i, shifts);
            }
            break;
        case SuspectKind::MovedChangePoint:
            shifts = of_moved(cause);
            break;
        case SuspectKind::StaffSection:
        case SuspectKind::GradeLeftIn:
        case SuspectKind::GradeReversed:
        case SuspectKind::AxesSwapped:
        case SuspectKind::AimOff:
            shifts = of_setup(cause);
            break;
        case SuspectKind::Knocked:
            for (const std::uint32_t row : from_here(cause)) shifts.push_back({row, 1});
            break;
        case SuspectKind::Settling:
            for (const std::uint32_t row : from_here(cause))
                shifts.push_back({row, minutes(static_cast<std::int32_t>(row))});
            break;
        case SuspectKind::InstrumentOut:
            shifts = of_instrument(cause, which);
            break;
        case SuspectKind::WrongDistance:
            shifts = of_distance(cause);
            break;
        case SuspectKind::OtherBeam:
            for (const std::uint32_t row : from_here(cause).first(cause.count)) shifts.push_back({row, 1});
            break;
        default:
            shifts.push_back({static_cast<std::uint32_t>(cause.row), sight(cause.row).terms.sign});
    }
    sort_by_row(shifts);
    return shifts;
}

double Causes::effect_now(const Cause& cause, std::size_t which, std::int32_t setup, const SightPlace& place,
                          std::int32_t point, double staff) const {
    const auto at = static_cast<std::size_t>(setup);
    const bool same_tripod =
        cause.setup >= 0 && where_.tripods[static_cast<std::size_t>(cause.setup)] == where_.tripods[at];
    const bool here = setup == cause.setup;
    switch (cause.kind) {
        case SuspectKind::WrongBenchmark:
            return benchmark_now(cause, point);
        case SuspectKind::MovedChangePoint:
            return point == cause.point ? -1 : 0;
        case SuspectKind::StaffSection:
            return here && staff > cause.joint ? 1 : 0;
        case SuspectKind::GradeLeftIn:
        case SuspectKind::GradeReversed:
        case SuspectKind::AxesSwapped:
        case SuspectKind::AimOff:
            return here ? in_setup(cause, place.u, place.v) : 0;
        case SuspectKind::Knocked:
            return same_tripod ? 1 : 0;
        case SuspectKind::Settling:
            return same_tripod ? minutes(static_cast<std::int32_t>(on_tripod(at).back())) : 0;
        case SuspectKind::InstrumentOut:
            if (book_.setups[at].instrument_at != cause.other) return 0;
            return instrument_columns(cause)[which].of(place.u, place.v, place.d,
                                                       model_.sights.setups[at].oriented);
        default:
            return 0;
    }
}

// A level held fixed stands in the prediction itself.
double Causes::benchmark_now(const Cause& cause, std::int32_t point) const {
    for (std::size_t i = 0; i < book_.benchmarks.size(); ++i) {
        const Benchmark& benchmark = book_.benchmarks[i];
        const bool meant = cause.source == no_name ? static_cast<std::int32_t>(i) == cause.other
                                                   : benchmark.source == cause.source;
        if (meant && benchmark.sd == 0 && model_.points.at(benchmark.point) == point) return 1;
    }
    return 0;
}

}  // namespace fallwright
