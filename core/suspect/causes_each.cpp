// Which causes a book can hold, in a fixed order: by time, then by name, so that of equals the same one
// stands first however the lines of the book are ordered.
#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "base/stable_order.h"
#include "suspect/causes.h"

namespace fallwright {

namespace {

constexpr double usual_joint = 1.30;  // metres, where the staff's joints are not known
constexpr std::size_t longest_run = 4;

}  // namespace

void Causes::each(const Visit& visit) const {
    for (const std::int32_t setup : setup_order_) {
        if (first_on_tripod(setup)) each_on_tripod(setup, visit);
        each_of_setup(setup, visit);
        each_section(setup, visit);
        each_change_point(setup, visit);
    }
    each_benchmark(visit);
    each_instrument(visit);
}

void Causes::each_change_point(std::int32_t setup, const Visit& visit) const {
    auto found = std::lower_bound(change_points_.begin(), change_points_.end(), setup,
                                  [](const ChangePoint& a, std::int32_t of) { return a.setup < of; });
    for (; found != change_points_.end() && found->setup == setup; ++found) {
        const ChangePoint& moved = *found;
        Cause cause;
        cause.kind = SuspectKind::MovedChangePoint;
        cause.row = moved.first_row;
        cause.setup = moved.setup;
        cause.point = moved.point;
        cause.share = moved.share;
        visit(cause);
    }
}

void Causes::each_on_tripod(std::int32_t setup, const Visit& visit) const {
    std::vector<std::int32_t> near;
    for (const std::uint32_t row : on_tripod(static_cast<std::size_t>(setup))) {
        each_of_reading(static_cast<std::int32_t>(row), visit);
        each_assignment(static_cast<std::int32_t>(row), near, visit);
    }
    each_gap(setup, visit);
}

bool Causes::laser(std::int32_t setup) const {
    const auto at = static_cast<std::size_t>(book_.setups[static_cast<std::size_t>(setup)].instrument_at);
    return book_.instruments[at].type != InstrumentType::OpticalLevel;
}

double Causes::offset_in(std::int32_t row) const {
    const Reading& booked = reading(row);
    const double figure = sight(row).terms.r;
    if (booked.figure.form == Form::Mark) return figure - booked.figure.a.metres();
    if (booked.figure.form != Form::Clamp) return 0;
    const Setup& setup = book_.setups[static_cast<std::size_t>(sight(row).setup)];
    return figure - setup.clamp.or_else(figure);
}

bool Causes::offset_may_lack(std::int32_t row) const {
    const Reading& booked = reading(row);
    const bool bare = booked.figure.form == Form::Staff ||
                      (booked.figure.form == Form::Mark && booked.figure.b == Decimal{});
    const Setup& setup = book_.setups[static_cast<std::size_t>(sight(row).setup)];
    return bare && (booked.receiver != no_name || setup.receiver != no_name);
}

void Causes::each_of_reading(std::int32_t row, const Visit& visit) const {
    Cause cause;
    cause.row = row;
    cause.setup = sight(row).setup;
    cause.share = 1;
    const auto say = [&](SuspectKind kind) {
        cause.kind = kind;
        visit(cause);
    };
    const Form form = reading(row).figure.form;
    if (form != Form::Clamp) say(SuspectKind::Misread);
    if (form == Form::Staff || form == Form::Mark) say(SuspectKind::DigitsSwapped);
    if (offset_in(row) != 0) say(SuspectKind::OffsetReversed);
    if (offset_may_lack(row)) say(SuspectKind::OffsetOmitted);
    if (!reading(row).figure.inverted) say(SuspectKind::StaffInverted);
    if (depends_on_chainage(row)) say(SuspectKind::WrongDistance);
    if (!laser(cause.setup)) return;
    const std::span<const std::uint32_t> all = on_tripod(static_cast<std::size_t>(cause.setup));
    const std::size_t at = place_on_tripod(row);
    for (std::size_t count = 1; count <= longest_run && at + count <= all.size(); ++count) {
        cause.count = static_cast<std::uint8_t>(count);
        say(SuspectKind::OtherBeam);
    }
}

void Causes::each_assignment(std::int32_t row, std::vector<std::int32_t>& near, const Visit& visit) const {
    const SightRow& of = sight(row);
    Cause cause;
    cause.row = row;
    cause.setup = of.setup;
    cause.share = 1;
    cause.kind = SuspectKind::WrongPoint;
    near.clear();
    if (const auto named = near_names_.find(of.point); named != near_names_.end()) near = named->second;
    const std::size_t at = place_[static_cast<std::size_t>(row)];
    for (const std::size_t beside : {at - 1, at + 1}) {
        if (beside >= by_time_.size()) continue;
        const SightRow& other = model_.sights.rows[by_time_[beside]];
        if (other.setup == of.setup && other.point != of.point) near.push_back(other.point);
    }
    std::sort(near.begin(), near.end(),
              [this](std::int32_t a, std::int32_t b) { return point_name(a) < point_name(b); });
    near.erase(std::unique(near.begin(), near.end()), near.end());
    for (const std::int32_t point : near) {
        cause.point = point;
        visit(cause);
    }
    cause.kind = SuspectKind::WrongSetup;
    cause.point = -1;
    const auto here = setup_order_.begin() + order_of_[static_cast<std::size_t>(of.setup)];
    const auto visit_setup = [&](std::int32_t other) {
        cause.other = other;
        visit(cause);
    };
    if (here != setup_order_.begin()) visit_setup(*(here - 1));
    if (here + 1 != setup_order_.end()) visit_setup(*(here + 1));
}

void Causes::each_of_setup(std::int32_t setup, const Visit& visit) const {
    if (!laser(setup)) return;
    constexpr std::array<double, 2> axis_share = {5.0 / 7, 2.0 / 7};
    const SetupTerms& terms = model_.sights.setups[static_cast<std::size_t>(setup)];
    Cause cause;
    cause.setup = setup;
    const auto say = [&](SuspectKind kind, std::int16_t axis, double share) {
        cause.kind = kind;
        cause.axis = axis;
        cause.share = share;
        visit(cause);
    };
    for (std::int16_t axis = 0; axis < 2; ++axis) {
        const auto at = static_cast<std::size_t>(axis);
        if (terms.matched[at]) continue;
        say(SuspectKind::GradeLeftIn, axis, axis_share[at]);
        if (terms.g[at] != 0) say(SuspectKind::GradeReversed, axis, 1);
    }
    const bool dialled = !terms.matched[0] && !terms.matched[1];
    if (dialled && terms.g[0] != terms.g[1]) say(SuspectKind::AxesSwapped, -1, 1);
    if (terms.g[0] == 0 && terms.g[1] == 0) return;
    say(SuspectKind::AimOff, -1, 0.5);
    cause.half_round = true;
    say(SuspectKind::AimOff, -1, 0.5);
}

// A section can show only where some figures are above the joint and some are not.
void Causes::each_section(std::int32_t setup, const Visit& visit) const {
    std::map<double, std::array<std::int32_t, 2>> joints;  // first row not above it, first row above it
    const auto note = [&](double joint, std::int32_t row) {
        auto& found = joints.emplace(joint, std::array<std::int32_t, 2>{-1, -1}).first->second;
        std::int32_t& first = found[sight(row).terms.r > joint ? 1 : 0];
        if (first < 0) first = row;
    };
    for (const std::uint32_t at : on_tripod(static_cast<std::size_t>(setup))) {
        const auto row = static_cast<std::int32_t>(at);
        if (sight(row).setup != setup) continue;
        const std::int32_t staff = sight(row).staff;
        const bool known = staff >= 0 && !book_.staffs[static_cast<std::size_t>(staff)].joints.empty();
        if (!known) note(usual_joint, row);
        if (!known) continue;
        for (const Joint& joint : book_.staffs[static_cast<std::size_t>(staff)].joints) note(joint.at, row);
    }
    for (const auto& [joint, first] : joints) {
        if (first[0] < 0 || first[1] < 0) continue;
        Cause cause;
        cause.kind = SuspectKind::StaffSection;
        cause.setup = setup;
        cause.row = first[1];
        cause.joint = joint;
        cause.share = 1;
        visit(cause);
    }
}

void Causes::each_gap(std::int32_t tripod, const Visit& visit) const {
    const std::span<const std::uint32_t> all = on_tripod(static_cast<std::size_t>(tripod));
    if (all.size() < 2) return;
    Cause cause;
    cause.share = 1 / static_cast<double>(all.size() - 1);
    cause.kind = SuspectKind::Knocked;
    for (std::size_t i = 1; i < all.size(); ++i) {
        cause.row = static_cast<std::int32_t>(all[i]);
        cause.setup = sight(cause.row).setup;
        visit(cause);
    }
    if (time_of(static_cast<std::int32_t>(all.front())) == time_of(static_cast<std::int32_t>(all.back())))
        return;
    cause.kind = SuspectKind::Settling;
    cause.row = static_cast<std::int32_t>(all.front());
    cause.setup = sight(cause.row).setup;
    cause.share = 1;
    visit(cause);
}

void Causes::each_benchmark(const Visit& visit) const {
    std::map<std::string_view, std::vector<std::int32_t>> by_source;
    std::vector<bool> used(model_.points.size(), false);
    for (const SightRow& row : model_.sights.rows) used[static_cast<std::size_t>(row.point)] = true;
    for (const Step& step : book_.steps)
        used[static_cast<std::size_t>(model_.points.at(step.from))] =
            used[static_cast<std::size_t>(model_.points.at(step.to))] = true;
    Cause cause;
    cause.kind = SuspectKind::WrongBenchmark;
    cause.share = 1;
    std::size_t counted = 0;
    for (const std::int32_t at : benchmarks_by_name()) {
        const Benchmark& benchmark = book_.benchmarks[static_cast<std::size_t>(at)];
        cause.point = model_.points.at(benchmark.point);
        cause.other = at;
        if (!used[static_cast<std::size_t>(cause.point)]) continue;
        ++counted;
        if (benchmark.source != no_name) by_source[book_.names.text(benchmark.source)].push_back(at);
        visit(cause);
    }
    for (const auto& [source, members] : by_source) {
        if (members.size() < 2 || members.size() == counted) continue;
        cause.other = members.front();
        cause.source = book_.benchmarks[static_cast<std::size_t>(cause.other)].source;
        cause.point = -1;
        visit(cause);
    }
}

std::string_view Causes::point_name(std::int32_t point) const {
    return book_.names.text(model_.points.name(static_cast<std::size_t>(point)));
}

std::vector<std::int32_t> Causes::benchmarks_by_name() const {
    std::vector<std::int32_t> all(book_.benchmarks.size());
    std::iota(all.begin(), all.end(), 0);
    sort_stably(all, [this](std::int32_t a, std::int32_t b) {
        const auto name = [this](std::int32_t at) {
            return book_.names.text(book_.benchmarks[static_cast<std::size_t>(at)].point);
        };
        return name(a) < name(b);
    });
    return all;
}

void Causes::each_instrument(const Visit& visit) const {
    std::map<std::pair<std::string_view, std::int32_t>, std::int32_t> by_name;  // name and stretch
    for (const auto& [which, unused] : model_.effect_columns.instruments) {
        const std::string_view name = book_.names.text(book_.instruments[which.first].name);
        by_name[{name, static_cast<std::int32_t>(which.second)}] = static_cast<std::int32_t>(which.first);
    }
    for (const auto& [name, instrument] : by_name) {
        Cause cause;
        cause.kind = SuspectKind::InstrumentOut;
        cause.other = instrument;
        cause.stretch = name.second;
        cause.share = 1;
        if (columns(cause) > 0) visit(cause);
    }
}

}  // namespace fallwright
