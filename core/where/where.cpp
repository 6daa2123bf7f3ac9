#include "where/where.h"

#include <cmath>
#include <string>
#include <utility>

#include "base/print.h"
#include "quantity/angle.h"
#include "staff/reduce.h"

namespace fallwright {

namespace {

// Largest relative difference between a distance booked and that from the places.
constexpr double distance_agreement = 0.1;

// Absent where the two have nothing to do with one another.
Maybe distance(const Spot& from, const Spot& to) {
    if (!from.known || !to.known || from.frame != to.frame) return {};
    const double e = to.e - from.e;
    const double n = to.n - from.n;
    return {std::sqrt(e * e + n * n)};
}

class Locator {
  public:
    Locator(const Book& book, double assumed_sight)
        : book_(book), assumed_(assumed_sight), line_of_(book.lines) {
        for (std::size_t i = 0; i < book.lines.size(); ++i)
            lines_.emplace_back(book.lines[i], static_cast<std::int32_t>(i));
    }

    Where run() {
        place_points();
        place_setups();
        place_readings();
        if (other_frames_) {
            where_.findings.push_back(
                finding(Code::OtherFrames, {},
                        "some places lie on lines without a plan and cannot be related to places elsewhere"));
        }
        return std::move(where_);
    }

  private:
    Spot spot_on_line(NameId line, double ch, double off) const {
        const std::int32_t index = line_of_(line);
        return index < 0 ? Spot{} : lines_[static_cast<std::size_t>(index)].at(ch, off);
    }

    void place_points() {
        where_.points.resize(book_.names.size());
        for (const PlaceEntry& place : book_.places) {
            const Position& at = place.position;
            where_.points[place.point] = at.kind == Position::Kind::Grid
                                             ? Spot{true, 0, at.e, at.n}
                                             : spot_on_line(at.line, at.ch, at.off);
        }
        for (const Reading& reading : book_.readings) {
            if (reading.line != no_name)
                where_.points[reading.point] = spot_on_line(reading.line, reading.ch, reading.off);
        }
    }

    // A shared head needs a place, since its plane turns about it.
    void find_tripods() {
        for (std::size_t i = 0; i < book_.setups.size(); ++i) {
            std::size_t root = tripod_of(book_, i);
            const bool shares = book_.setups[i].head_at >= 0;
            if (shares && (root == i || !spot_of(book_.setups[root], false).known)) {
                const std::string& name = book_.name(book_.setups[i].name);
                where_.findings.push_back(finding(
                    Code::HeadWithoutPlace, {name},
                    "set-up " + name +
                        " shares the head of a set-up without a place; it is taken as a tripod of its own"));
                root = i;
            }
            where_.tripods.push_back(static_cast<std::int32_t>(root));
        }
    }

    void place_setups() {
        find_tripods();
        where_.setups.resize(book_.setups.size());
        where_.headings.resize(book_.setups.size());
        for (std::size_t i = 0; i < book_.setups.size(); ++i) {
            const auto root = static_cast<std::size_t>(where_.tripods[i]);
            where_.setups[i] = spot_of(book_.setups[root], root == i);
            where_.headings[i] = heading_of(book_.setups[root], where_.setups[i], root == i);
        }
    }

    void report_unknown(const Setup& setup, const std::string& message) {
        where_.findings.push_back(finding(Code::PlaceUnknown, {book_.name(setup.name)}, message));
    }

    Spot spot_of(const Setup& setup, bool report) {
        const Position& at = setup.position;
        switch (at.kind) {
            case Position::Kind::None:
                return {};
            case Position::Kind::Grid:
                return {true, 0, at.e, at.n};
            case Position::Kind::OnLine:
                return spot_on_line(at.line, at.ch, at.off);
            case Position::Kind::AtPoint:
                break;
        }
        const Spot spot = where_.points[at.point];
        if (!spot.known && report)
            report_unknown(setup,
                           "the set-up stands at " + book_.name(at.point) + ", whose place is not known");
        return spot;
    }

    Heading heading_of(const Setup& setup, const Spot& spot, bool report) {
        if (setup.bearing.has()) {
            const SinCos unit = sincos_degrees(setup.bearing.value);
            return {true, unit.sin, unit.cos};
        }
        if (setup.towards == no_name) return {};
        const std::int32_t line = line_of_(setup.towards);
        const Heading heading = line >= 0 ? lines_[static_cast<std::size_t>(line)].nearest_heading(spot)
                                          : towards_point(spot, where_.points[setup.towards]);
        if (!heading.known && report)
            report_unknown(setup,
                           "the way from the set-up to " + book_.name(setup.towards) + " is not known");
        return heading;
    }

    static Heading towards_point(const Spot& from, const Spot& to) {
        if (!from.known || !to.known || from.frame != to.frame) return {};
        const double e = to.e - from.e;
        const double n = to.n - from.n;
        const double length = std::sqrt(e * e + n * n);
        if (length == 0) return {};
        return {true, e / length, n / length};
    }

    void place_readings() {
        where_.readings.resize(book_.readings.size());
        where_.assumed_sight = assumed_;
        where_.origins = where_.setups;
        find_origins(where_.origins);
        for (std::size_t i = 0; i < book_.readings.size(); ++i)
            where_.readings[i] = place_reading(book_.readings[i]);
    }

    // What is only planned says nothing where something was read.
    void find_aligned() {
        where_.aligned.assign(book_.setups.size(), false);
        std::vector<bool> read(book_.setups.size(), false);
        for (const std::uint32_t i : book_.readings_by_time)
            read[static_cast<std::size_t>(book_.readings[i].setup_at)] = true;
        for (const Reading& reading : book_.readings) {
            const auto setup = static_cast<std::size_t>(reading.setup_at);
            if (reading.along.has() && !(reading.planned && read[setup])) where_.aligned[setup] = true;
        }
    }

    // In a set-up without a place u and v count from its first point that has one, unless they are given.
    void find_origins(std::vector<Spot>& origins) {
        find_aligned();
        for (const std::uint32_t i : book_.readings_by_time) {
            const auto setup = static_cast<std::size_t>(book_.readings[i].setup_at);
            const Spot& spot = where_.points[book_.readings[i].point];
            if (!where_.aligned[setup] && !origins[setup].known && spot.known) origins[setup] = spot;
        }
    }

    SightPlace place_reading(const Reading& reading) {
        const auto setup = static_cast<std::size_t>(reading.setup_at);
        const Spot& origin = where_.origins[setup];
        const Spot& spot = where_.points[reading.point];
        const Maybe booked = booked_distance(reading);
        if (origin.known && spot.known && origin.frame != spot.frame) other_frames_ = true;
        SightPlace place = seen_from(where_, setup, spot);
        if (reading.along.has()) {
            place.has_uv = true;
            place.u = reading.along.value;
            place.v = reading.across.value;
        }
        const Maybe placed = placed_distance(reading, place);
        const bool from_places = placed.has();
        place.d = from_places ? placed.value : booked.or_else(assumed_);
        place.assumed_d = !from_places && !booked.has();
        if (from_places && booked.has()) compare(reading, place.d, booked.value);
        return place;
    }

    // From the instrument, as along and across or the two places say; absent where they do not.
    Maybe placed_distance(const Reading& reading, const SightPlace& place) const {
        if (reading.along.has()) return {std::sqrt(place.u * place.u + place.v * place.v)};
        return distance(where_.setups[static_cast<std::size_t>(reading.setup_at)],
                        where_.points[reading.point]);
    }

    void compare(const Reading& reading, double placed, double booked) {
        if (std::fabs(placed - booked) <= distance_agreement * std::fmax(placed, booked)) return;
        const std::string unit = book_.unit == Unit::Foot ? " ft" : " m";
        where_.findings.push_back(
            finding(Code::DistanceDiffers, {book_.id_of(reading.entry), book_.name(reading.point)},
                    "the distance booked is " + trimmed(book_.in_unit(booked), 2) + unit +
                        ", the places say " + trimmed(book_.in_unit(placed), 2) + unit));
    }

    const Book& book_;
    double assumed_;
    ByName line_of_;
    std::vector<PlanLine> lines_;
    Where where_;
    bool other_frames_ = false;
};

}  // namespace

SightPlace seen_from(const Where& where, std::size_t setup, const Spot& spot) {
    const Spot& origin = where.origins[setup];
    const Heading& main = where.headings[setup];
    // Where only along and across orient the body, places of other readings say nothing about its axes.
    const bool axes = main.known || !where.aligned[setup];
    SightPlace place;
    place.has_uv = axes && origin.known && spot.known && origin.frame == spot.frame;
    if (place.has_uv) {
        place.u = (spot.e - origin.e) * main.e + (spot.n - origin.n) * main.n;
        place.v = (spot.e - origin.e) * main.n - (spot.n - origin.n) * main.e;
    }
    const Maybe placed = distance(where.setups[setup], spot);
    place.d = placed.or_else(where.assumed_sight);
    place.assumed_d = !placed.has();
    return place;
}

Maybe booked_distance(const Reading& reading) {
    if (reading.dist.has() || reading.figure.form != Form::ThreeWires) return reading.dist;
    return {staff::distance_of_wires(reading.figure.a, reading.figure.c).metres()};
}

Where locate(const Book& book, double assumed_sight) {
    return Locator(book, assumed_sight).run();
}

}  // namespace fallwright
