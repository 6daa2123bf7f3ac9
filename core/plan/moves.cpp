#include "plan/moves.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "base/stable_order.h"
#include "where/plan_line.h"

namespace fallwright {

namespace {

constexpr double same_place = 0.5;             // metres between two places that are one
constexpr std::size_t most_change_points = 2;  // proposed ones between the same two set-ups
constexpr std::size_t nearest_places = 3;      // tried for a set-up that moves

class Mover {
  public:
    Mover(Grounds& grounds, const Layout& layout, const Visit& visit)
        : grounds_(grounds), layout_(layout), visit_(visit) {}

    void all(NameId worst) {
        checks();
        read_again(worst);
        read_all_again();
        half_round();
        other_setup(worst);
        change_points();
        move_setups();
        add_setups();
        remove_setups();
    }

    void checks() {
        benchmarks();
        joined_again();
    }

  private:
    void offer(Change change, std::vector<NameId> setups, std::vector<NameId> points, Layout layout,
               Spot place = {}) {
        visit_({change, std::move(setups), std::move(points), place, std::move(layout)});
    }

    bool is_benchmark(NameId point) const {
        const std::vector<Benchmark>& all = grounds_.work.basis().book.benchmarks;
        return std::any_of(all.begin(), all.end(),
                           [point](const Benchmark& each) { return each.point == point; });
    }

    // Read from one set-up only, so that it may as well be read from another.
    bool is_lone(const PlannedSight& sight) const {
        return !is_benchmark(sight.as.point) && !layout_.joins(sight.as.point);
    }

    std::size_t times(std::size_t stand, NameId point) const {
        return static_cast<std::size_t>(std::count_if(
            layout_.sights.begin(), layout_.sights.end(),
            [&](const PlannedSight& sight) { return sight.stand == stand && sight.as.point == point; }));
    }

    // The point is read from the same set-up before.
    bool is_repeat(std::size_t i) const {
        const auto end = layout_.sights.begin() + static_cast<std::ptrdiff_t>(i);
        return std::any_of(layout_.sights.begin(), end, [&](const PlannedSight& sight) {
            return sight.stand == layout_.sights[i].stand && sight.as.point == layout_.sights[i].as.point;
        });
    }

    static PlannedSight once_more(const PlannedSight& sight) {
        PlannedSight again = sight;
        again.given = -1;
        return again;
    }

    void again(const PlannedSight& sight) {
        Layout layout = layout_;
        layout.sights.push_back(once_more(sight));
        offer(Change::ReadAgain, {layout_.stands[sight.stand].name}, {sight.as.point}, std::move(layout));
    }

    // Benchmarks and change points carry all the others: at the end, before the tripod is lifted.
    void joined_again() {
        std::set<std::pair<std::size_t, NameId>> seen;
        for (const PlannedSight& sight : layout_.sights) {
            if (is_lone(sight) || !seen.insert({sight.stand, sight.as.point}).second) continue;
            if (times(sight.stand, sight.as.point) < 2) again(sight);
        }
    }

    void read_again(NameId worst) {
        for (const PlannedSight& sight : layout_.sights) {
            if (sight.as.point != worst || !is_lone(sight) || times(sight.stand, worst) > 2) continue;
            again(sight);
            return;
        }
    }

    void read_all_again() {
        Layout layout = layout_;
        for (const PlannedSight& sight : layout_.sights) {
            if (is_lone(sight) && times(sight.stand, sight.as.point) == 1)
                layout.sights.push_back(once_more(sight));
        }
        if (layout.sights.size() > layout_.sights.size() + 1)
            offer(Change::ReadAllAgain, {}, {}, std::move(layout));
    }

    bool turns(std::size_t i) const { return !layout_.stands[i].fixed && layout_.stands[i].bearing.has(); }

    // Every second one; and each by itself.
    void half_round() {
        Layout alternate = layout_;
        std::vector<NameId> turned;
        bool second = false;
        for (std::size_t i = 0; i < layout_.stands.size(); ++i) {
            if (!turns(i)) continue;
            alternate.stands[i].turned = second;
            if (second) turned.push_back(layout_.stands[i].name);
            second = !second;
        }
        if (turned.size() > 1) offer(Change::HalfRound, turned, {}, std::move(alternate));
        for (std::size_t i = 0; i < layout_.stands.size(); ++i) {
            if (!turns(i)) continue;
            Layout layout = layout_;
            layout.stands[i].turned = !layout.stands[i].turned;
            offer(Change::HalfRound, {layout_.stands[i].name}, {}, std::move(layout));
        }
    }

    void benchmarks() {
        for (const PlannedSight& benchmark : grounds_.benchmarks) {
            const std::size_t stand = nearest_stand(layout_, benchmark.spot);
            if (stand == not_named || layout_.reads(stand, benchmark.as.point)) continue;
            Layout layout = layout_;
            layout.sights.push_back(sight_to(layout, stand, benchmark.as.point, benchmark.spot));
            offer(Change::Benchmark, {layout_.stands[stand].name}, {benchmark.as.point}, std::move(layout));
        }
    }

    static PlannedSight from_stand(const PlannedSight& sight, std::size_t stand) {
        PlannedSight other = once_more(sight);
        other.stand = stand;
        other.as.dist = other.as.along = other.as.across = {};
        return other;
    }

    void other_setup(NameId worst) {
        for (std::size_t a = 0; a < layout_.stands.size(); ++a) {
            const std::size_t b = nearest_stand(layout_, layout_.stands[a].spot, a);
            if (b != not_named) share_between(a, b);
        }
        for (const PlannedSight& sight : layout_.sights) {
            if (sight.as.point != worst || !is_lone(sight)) continue;
            const std::size_t b = nearest_stand(layout_, sight.spot, sight.stand);
            if (b == not_named) return;
            Layout layout = layout_;
            layout.sights.push_back(from_stand(sight, b));
            offer(Change::OtherSetup, {layout_.stands[b].name}, {worst}, std::move(layout));
            return;
        }
    }

    // The third of a set-up's stations that is nearest to the other one.
    void share_between(std::size_t a, std::size_t b) {
        std::vector<std::pair<double, std::size_t>> near;
        for (std::size_t i = 0; i < layout_.sights.size(); ++i) {
            const PlannedSight& sight = layout_.sights[i];
            if (sight.stand != a || !is_lone(sight) || !sight.spot.known || is_repeat(i)) continue;
            near.emplace_back(distance_between(sight.spot, layout_.stands[b].spot), i);
        }
        sort_stably(near);
        near.resize((near.size() + 2) / 3);
        if (near.size() < 2) return;
        Layout layout = layout_;
        std::vector<NameId> points;
        for (const auto& [distance, i] : near) {
            layout.sights.push_back(from_stand(layout_.sights[i], b));
            points.push_back(layout_.sights[i].as.point);
        }
        offer(Change::OtherSetup, {layout_.stands[b].name}, std::move(points), std::move(layout));
    }

    std::size_t proposed_between(std::size_t a, std::size_t b) const {
        return static_cast<std::size_t>(
            std::count_if(layout_.change_points.begin(), layout_.change_points.end(),
                          [&](NameId point) { return layout_.reads(a, point) && layout_.reads(b, point); }));
    }

    bool joined(std::size_t a, std::size_t b) const {
        return std::any_of(layout_.sights.begin(), layout_.sights.end(), [&](const PlannedSight& sight) {
            return sight.stand == a && !is_benchmark(sight.as.point) && layout_.reads(b, sight.as.point);
        });
    }

    void change_points() {
        for (std::size_t a = 0; a < layout_.stands.size(); ++a) {
            for (std::size_t b = a + 1; b < layout_.stands.size(); ++b) {
                if (!joined(a, b) || proposed_between(a, b) >= most_change_points) continue;
                Layout layout = layout_;
                const NameId point = join_stands(grounds_, layout, a, b);
                if (point == no_name) continue;
                offer(Change::ChangePoint, {layout_.stands[a].name, layout_.stands[b].name}, {point},
                      std::move(layout));
            }
        }
    }

    bool is_free(const Spot& place) const {
        return std::none_of(layout_.stands.begin(), layout_.stands.end(), [&](const Stand& stand) {
            return distance_between(stand.spot, place) < same_place;
        });
    }

    void move_setups() {
        for (std::size_t i = 0; i < layout_.stands.size(); ++i) {
            const Stand& stand = layout_.stands[i];
            if (stand.fixed) continue;
            std::vector<std::pair<double, std::size_t>> near;
            for (std::size_t k = 0; k < grounds_.places.size(); ++k) {
                const double distance = distance_between(stand.spot, grounds_.places[k]);
                if (is_free(grounds_.places[k]) && !std::isnan(distance)) near.emplace_back(distance, k);
            }
            sort_stably(near);
            if (near.size() > nearest_places) near.resize(nearest_places);
            for (const auto& [distance, k] : near) {
                Layout layout = layout_;
                layout.stands[i].spot = grounds_.places[k];
                layout.stands[i].moved = true;
                offer(Change::MoveSetup, {stand.name}, {}, std::move(layout), grounds_.places[k]);
            }
        }
    }

    // What lies nearer to the new set-up than to its own goes over to it.
    void take_over(Layout& layout, std::size_t stand) const {
        for (std::size_t i = 0; i < layout_.sights.size(); ++i) {
            const PlannedSight& sight = layout_.sights[i];
            const double here = distance_between(sight.spot, layout.stands[stand].spot);
            const double there = distance_between(sight.spot, layout_.stands[sight.stand].spot);
            if (!is_lone(sight) || !(here < there)) continue;
            PlannedSight& moved = layout.sights[i];
            moved.stand = stand;
            moved.as.dist = moved.as.along = moved.as.across = {};
        }
    }

    // Joined to its neighbour by a change point, or to the nearest benchmark.
    void add_setups() {
        for (std::size_t k = 0; k < grounds_.places.size(); ++k) {
            if (!is_free(grounds_.places[k])) continue;
            const std::size_t neighbour = nearest_stand(layout_, grounds_.places[k]);
            if (neighbour == not_named) continue;
            Layout layout = layout_;
            const std::size_t stand = add_stand(grounds_, layout, k);
            take_over(layout, stand);
            Layout tied = layout;
            const NameId point = join_stands(grounds_, layout, neighbour, stand);
            if (point != no_name)
                offer(Change::AddSetup, {tied.stands[stand].name, layout_.stands[neighbour].name}, {point},
                      std::move(layout), grounds_.places[k]);
            tie_to_nearest(std::move(tied), stand, grounds_.places[k]);
        }
    }

    void tie_to_nearest(Layout layout, std::size_t stand, const Spot& place) {
        const PlannedSight* nearest = nullptr;
        for (const PlannedSight& benchmark : grounds_.benchmarks) {
            const double distance = distance_between(benchmark.spot, place);
            if (std::isnan(distance)) continue;
            if (nearest == nullptr || distance < distance_between(nearest->spot, place)) nearest = &benchmark;
        }
        if (nearest == nullptr) return;
        layout.sights.push_back(sight_to(layout, stand, nearest->as.point, nearest->spot));
        const NameId name = layout.stands[stand].name;
        offer(Change::AddSetup, {name}, {nearest->as.point}, std::move(layout), place);
    }

    void remove_setups() {
        for (std::size_t i = 0; i < layout_.stands.size(); ++i) {
            if (layout_.stands[i].fixed || nearest_stand(layout_, layout_.stands[i].spot, i) == not_named)
                continue;
            offer(Change::RemoveSetup, {layout_.stands[i].name}, {}, without(i));
        }
    }

    // Its stations and benchmarks go to their nearest neighbours; set-ups it joined are joined one to the
    // next.
    Layout without(std::size_t gone) {
        Layout layout = layout_;
        std::set<std::size_t> joined_to;
        std::vector<PlannedSight> kept;
        for (const PlannedSight& sight : layout_.sights) {
            if (sight.stand != gone) {
                const bool dangles =
                    layout_.is_change_point(sight.as.point) && layout_.reads(gone, sight.as.point);
                if (layout_.reads(gone, sight.as.point) && !is_benchmark(sight.as.point))
                    joined_to.insert(sight.stand);
                if (!dangles) kept.push_back(sight);
                continue;
            }
            if (layout_.joins(sight.as.point)) continue;
            const std::size_t to = nearest_stand(layout_, sight.spot, gone);
            if (to != not_named) kept.push_back(from_stand(sight, to));
        }
        layout.sights = std::move(kept);
        std::size_t before = not_named;
        for (const std::size_t stand : joined_to) {
            if (before != not_named && !joined(before, stand)) join_stands(grounds_, layout, before, stand);
            before = stand;
        }
        drop_stand(layout, gone);
        return layout;
    }

    static void drop_stand(Layout& layout, std::size_t gone) {
        layout.stands.erase(layout.stands.begin() + static_cast<std::ptrdiff_t>(gone));
        for (PlannedSight& sight : layout.sights) sight.stand -= sight.stand > gone ? 1 : 0;
        const auto unread = [&](NameId point) {
            return std::none_of(layout.sights.begin(), layout.sights.end(),
                                [point](const PlannedSight& sight) { return sight.as.point == point; });
        };
        std::vector<NameId>& points = layout.change_points;
        points.erase(std::remove_if(points.begin(), points.end(), unread), points.end());
    }

    Grounds& grounds_;
    const Layout& layout_;
    const Visit& visit_;
};

}  // namespace

Grounds grounds_of(Workbook& work, const PlanWish& wish, const std::vector<Spot>& places) {
    const PlanBasis& basis = work.basis();
    Grounds grounds{work, places, {}, {}, no_name};
    std::set<NameId> seen;
    for (const Benchmark& benchmark : basis.book.benchmarks) {
        const Spot& spot = basis.where.points[benchmark.point];
        if (!spot.known || !seen.insert(benchmark.point).second) continue;
        PlannedSight sight;
        sight.as.point = benchmark.point;
        sight.spot = spot;
        grounds.benchmarks.push_back(sight);
    }
    for (const Spot& place : places) {
        double bearing = 0;
        if (wish.line != not_named) {
            const PlanLine line(basis.book.lines[wish.line], static_cast<std::int32_t>(wish.line));
            const Heading along = line.nearest_heading(place);
            if (along.known) bearing = bearing_of(along);
        }
        grounds.bearings.push_back(bearing);
    }
    if (wish.line != not_named) grounds.line = basis.book.lines[wish.line].name;
    return grounds;
}

void each_move(Grounds& grounds, const Layout& layout, NameId worst, const Visit& visit) {
    Mover(grounds, layout, visit).all(worst);
}

void each_check(Grounds& grounds, const Layout& layout, const Visit& visit) {
    Mover(grounds, layout, visit).checks();
}

PlannedSight sight_to(const Layout& layout, std::size_t stand, NameId point, const Spot& spot) {
    PlannedSight sight;
    sight.stand = stand;
    sight.as.point = point;
    sight.as.setup = layout.stands[stand].name;
    sight.figure = usual_figure;
    sight.spot = spot;
    return sight;
}

NameId join_stands(Grounds& grounds, Layout& layout, std::size_t a, std::size_t b) {
    if (!midway(layout.stands[a].spot, layout.stands[b].spot).known) return no_name;
    const NameId point = grounds.work.name_for("CP", layout);
    layout.change_points.push_back(point);
    for (const std::size_t stand : {a, b}) layout.sights.push_back(sight_to(layout, stand, point, {}));
    return point;
}

std::size_t add_stand(Grounds& grounds, Layout& layout, std::size_t place) {
    Stand stand;
    stand.name = grounds.work.name_for("P", layout);
    stand.spot = grounds.places[place];
    stand.bearing = {grounds.bearings[place]};
    layout.stands.push_back(stand);
    return layout.stands.size() - 1;
}

std::size_t nearest_stand(const Layout& layout, const Spot& spot, std::size_t except) {
    std::size_t nearest = not_named;
    double least = NAN;
    for (std::size_t i = 0; i < layout.stands.size(); ++i) {
        const double distance = distance_between(layout.stands[i].spot, spot);
        if (i == except || std::isnan(distance)) continue;
        if (nearest == not_named || distance < least) {
            nearest = i;
            least = distance;
        }
    }
    return nearest;
}

}  // namespace fallwright
