#include "dial/setter.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/print.h"
#include "dial/aim.h"
#include "dial/keypad.h"
#include "dial/proof.h"

namespace fallwright {

namespace {

// 60 degrees, and room for a plan whose coordinates are typed to a tenth of a millimetre.
constexpr double least_cosine = 0.5 - 1e-6;
constexpr double rounding_room = 1e-12;  // of a product that ought to be exact
constexpr double same_grade = 5e-8;      // half the last place of a gradient in results

double& axis_of(Axes& axes, std::size_t axis) {
    return axis == 0 ? axes.main : axes.cross;
}

std::string percent_text(double ratio) {
    return trimmed(ratio * 100, gradient_places - 2) + " %";
}

}  // namespace

DialSetter::DialSetter(const DialBasis& basis, std::size_t setup, Findings& findings)
    : basis_(basis),
      index_(setup),
      setup_(basis.book.setups[setup]),
      machine_(basis.book.instruments[static_cast<std::size_t>(setup_.instrument_at)]),
      findings_(findings),
      main_(basis.where.headings[setup]) {}

void DialSetter::say(Code code, std::vector<std::string> about, std::string message) {
    const bool said = std::any_of(findings_.begin(), findings_.end(), [&](const Finding& each) {
        return each.code == code && each.message == message;
    });
    if (!said) findings_.push_back(finding(code, std::move(about), std::move(message)));
}

void DialSetter::refuse(Code code, const WantedPlane& wanted, std::string message) {
    std::vector<std::string> about = {name()};
    about.insert(about.end(), wanted.about.begin(), wanted.about.end());
    say(code, std::move(about), std::move(message));
}

std::string DialSetter::length(double metres) const {
    return fixed(basis_.book.in_unit(metres), 1) + (basis_.book.unit == Unit::Foot ? " ft" : " m");
}

bool DialSetter::can_tilt() const {
    return machine_.type != InstrumentType::OpticalLevel;
}

bool DialSetter::locked(std::size_t axis) const {
    return machine_.grade_limit[axis].has() && machine_.grade_limit[axis].value == 0;
}

bool DialSetter::set(const WantedPlane& wanted, Dial& dial) {
    dial.setup = index_;
    if (!choose_aim(wanted, dial) || !choose_axes(wanted, dial)) return false;
    key_in(wanted, dial);
    compare_with_book(dial);
    find_costs(wanted, dial);
    check_range(wanted, dial);
    dial.proof = find_proof(basis_, dial, main_, wanted.from, wanted.to);
    return true;
}

// The set-up's own bearing is kept; where it has none, along the line is what makes the keying simplest and
// the aim cheapest.
bool DialSetter::choose_aim(const WantedPlane& wanted, Dial& dial) {
    const Spot& at = basis_.where.setups[index_];
    const Setup& tripod = basis_.book.setups[static_cast<std::size_t>(basis_.where.tripods[index_])];
    const bool level =
        std::fabs(wanted.along.main) < same_grade && std::fabs(wanted.along.cross) < same_grade;
    if (at.known && at.frame != wanted.from.frame && !level) {
        refuse(Code::DialNoBearing, wanted,
               "set-up " + name() + " and " + wanted.name + " lie on different grids");
        return false;
    }
    main_ = basis_.where.headings[index_];
    const bool asked = tripod.bearing.has() || tripod.towards != no_name;
    if (!main_.known && asked && !level) {
        refuse(Code::DialNoBearing, wanted,
               "where the main axis of set-up " + name() + " points is not known");
        return false;
    }
    dial.aim_is_advice = !main_.known;
    if (!main_.known) main_ = wanted.heading;
    if (!main_.known) {
        if (level) return true;
        refuse(Code::DialNoBearing, wanted,
               "set-up " + name() + " has no bearing, and " + wanted.name + " no direction of its own");
        return false;
    }
    dial.aim =
        dial.aim_is_advice || !tripod.bearing.has() ? bearing_of(main_.e, main_.n) : tripod.bearing.value;
    return true;
}

bool DialSetter::choose_axes(const WantedPlane& wanted, Dial& dial) {
    dial.grades = main_.known ? turned(wanted.along, wanted.heading, main_) : Axes{};
    for (std::size_t axis = 0; axis < 2; ++axis) {
        if (!locked(axis) || std::fabs(axis_of(dial.grades, axis)) < same_grade) continue;
        if (wanted.across_given || locked(1 - axis)) {
            refuse(Code::DialAxisLocked, wanted,
                   wanted.name + " needs " + percent_text(axis_of(dial.grades, axis)) +
                       (axis == 0 ? " on the main axis" : " on the cross axis") + ", which does not tilt");
            return false;
        }
        return with_one_axis(wanted, 1 - axis, dial);
    }
    return true;
}

// gradient / cos(angle between the line and the axis that tilts); the other axis stays level.
bool DialSetter::with_one_axis(const WantedPlane& wanted, std::size_t free, Dial& dial) {
    const Axes line = in_axes({wanted.heading.e, wanted.heading.n}, main_);
    const double cosine = free == 0 ? line.main : line.cross;
    if (std::fabs(cosine) < least_cosine) {
        refuse(Code::DialAxisFarOff, wanted,
               "set-up " + name() + ": the axis that tilts points more than 60 degrees off " + wanted.name);
        return false;
    }
    dial.grades = {};
    axis_of(dial.grades, free) = wanted.along.main / cosine;
    const double across = turned(dial.grades, main_, wanted.heading).cross;
    refuse(Code::DialNotLevelAcross, wanted,
           "set-up " + name() + ": with one axis the plane holds along " + wanted.name +
               " only; across it rises " + percent_text(across) + " to the right");
    return true;
}

void DialSetter::key_in(const WantedPlane& wanted, Dial& dial) {
    Axes tangents = to_step(tangents_for(dial.grades, machine_.keypad), machine_.grade_step);
    dial.set = grades_of(tangents, machine_.keypad);
    dial.keyed = as_keyed(tangents, machine_.keypad);
    for (std::size_t axis = 0; axis < 2; ++axis) {
        const Maybe& limit = machine_.grade_limit[axis];
        const double steep = std::fabs(axis_of(tangents, axis));
        if (!limit.has() || locked(axis) || steep <= limit.value + rounding_room) continue;
        dial.reachable = false;
        axis_of(dial.keyed, axis) = NAN;
        refuse(Code::DialBeyondLimit, wanted,
               wanted.name + " needs " + percent_text(axis_of(tangents, axis)) +
                   (axis == 0 ? " on the main axis; " : " on the cross axis; ") +
                   basis_.book.name(machine_.name) + " tilts to " + percent_text(limit.value));
    }
}

void DialSetter::compare_with_book(Dial& dial) {
    const double room = machine_.grade_step / 2 + same_grade;
    dial.as_in_book = true;
    for (std::size_t axis = 0; axis < 2; ++axis) {
        const Axis& book = setup_.plane[axis];
        axis_of(dial.in_book, axis) = book.matched ? NAN : book.dialled;
        const double off = std::fabs(axis_of(dial.grades, axis) - axis_of(dial.in_book, axis));
        dial.as_in_book = dial.as_in_book && off <= room;
    }
    if (dial.as_in_book || setup_.plane[0].matched || setup_.plane[1].matched) return;
    say(Code::DialDiffers, {name()},
        "set-up " + name() + " has main " + percent_text(dial.in_book.main) + ", cross " +
            percent_text(dial.in_book.cross) + " in the book; main " + percent_text(dial.grades.main) +
            ", cross " + percent_text(dial.grades.cross) + " is wanted");
}

void DialSetter::find_costs(const WantedPlane& wanted, Dial& dial) {
    const Spot& at = basis_.where.setups[index_];
    if (!at.known || at.frame != wanted.from.frame) {
        say(Code::DialNoPlace, {name()},
            "set-up " + name() + " has no place: range, costs and the proving reading cannot be told");
        return;
    }
    const double half_step = machine_.grade_step / 2;
    for (const Spot* end : {&wanted.from, &wanted.to}) {
        const Axes way = in_axes({end->e - at.e, end->n - at.n}, main_);
        const double distance = std::sqrt(way.main * way.main + way.cross * way.cross);
        if (!std::isnan(dial.farthest) && distance <= dial.farthest) continue;
        dial.farthest = distance;
        dial.rounding_cost = (dial.grades.main != 0 ? half_step * std::fabs(way.main) : 0) +
                             (dial.grades.cross != 0 ? half_step * std::fabs(way.cross) : 0);
        dial.aim_cost = cost_of_turn(dial.grades, way.main, way.cross, one_degree);
    }
}

void DialSetter::check_range(const WantedPlane& wanted, Dial& dial) {
    if (!machine_.range.has() || std::isnan(dial.farthest)) return;
    const Book& book = basis_.book;
    if (rounded_to(book.in_unit(dial.farthest), length_places) <=
        rounded_to(book.in_unit(machine_.range.value), length_places))
        return;
    dial.reachable = false;
    refuse(Code::DialOutOfRange, wanted,
           wanted.name + " reaches " + length(dial.farthest) + " from set-up " + name() + "; " +
               book.name(machine_.name) + " reaches " + length(machine_.range.value));
}

}  // namespace fallwright
