#include "setout/targets.h"

#include <algorithm>
#include <cmath>

#include "base/print.h"

namespace fallwright {

namespace {

constexpr double usual_staff = 10;  // metres, of a staff of unknown length (contract section 1)

std::vector<PointTerm> terms_of(const DesignLevel& design, const Model& model) {
    std::vector<PointTerm> terms;
    for (const Hang& hang : design.hangs) terms.push_back({model.points.at(hang.point), hang.coefficient});
    return terms;
}

}  // namespace

Targets::Targets(const SetoutBasis& basis, std::size_t line, std::size_t setup, Findings& findings)
    : basis_(basis),
      setup_(setup),
      terms_(basis.model.sights.setups[setup]),
      line_(basis.book.lines[line], static_cast<std::int32_t>(line)),
      predictor_(basis.book, basis.where, basis.model),
      findings_(findings) {
    const Setup& tripod = basis.book.setups[static_cast<std::size_t>(basis.where.tripods[setup])];
    staff_ = tripod.staff == no_name ? -1 : ByName(basis.book.staffs)(tripod.staff);
    staff_length_ = staff_ < 0
                        ? usual_staff
                        : basis.book.staffs[static_cast<std::size_t>(staff_)].length.or_else(usual_staff);
    range_ =
        basis.book.instruments[static_cast<std::size_t>(basis.book.setups[setup].instrument_at)].range.value;
    hangs_ = plane_hangs();
}

std::string Targets::setup_name() const {
    return basis_.book.name(basis_.book.setups[setup_].name);
}

void Targets::say(Code code, const std::string& message, const std::string& cure) {
    if (std::find(said_.begin(), said_.end(), message) != said_.end()) return;
    said_.push_back(message);
    findings_.push_back(finding(code, {setup_name()}, "set-up " + setup_name() + message, cure));
}

// A set-up in which nothing is read may stand on a tripod that has a plane.
bool Targets::plane_hangs() {
    const auto root = static_cast<std::size_t>(basis_.where.tripods[setup_]);
    const bool own = basis_.model.plane_columns[setup_] != no_column;
    if (!std::isnan(basis_.model.planes[own ? setup_ : root].level)) return true;
    if (own) {
        say(Code::SetoutNoTarget, ": the level of its plane is not determined, so no target can be told",
            "read a known point in it");
    } else if (!terms_.level() && !terms_.oriented) {
        say(Code::SetoutNoTarget, ": its plane slopes and its bearing is not known, so no target can be told",
            "give bearing or towards in plane, and a place");
    } else {
        say(Code::SetoutNoTarget,
            ": no point of known place and level is read in it, so its plane hangs nowhere",
            "read a known point in it, on a slope one with a place");
    }
    return false;
}

bool Targets::refused(const SightPlace& place) {
    if (!terms_.level() && !terms_.oriented) {
        say(Code::SetoutNoTarget, ": its plane slopes and its bearing is not known, so no target can be told",
            "give bearing or towards in plane, and a place");
        return true;
    }
    if (!terms_.level() && !place.has_uv) {
        say(Code::SetoutNoTarget,
            ": its plane slopes and where it stands from the line is not known, so no target can be told",
            "give the set-up a place on the grid or line of this line, and a bearing");
        return true;
    }
    if (place.assumed_d) {
        const Book& book = basis_.book;
        say(Code::SetoutAssumedSight,
            ": its place from the line is not known; targets are taken at the assumed sight of " +
                trimmed(book.in_unit(place.d), 1) + (book.unit == Unit::Foot ? " ft" : " m"),
            "give the set-up a place");
    }
    return false;
}

Target Targets::at(const DesignLevel& design, double ch, double off) {
    if (!hangs_ || !design.has()) return {};
    const SightPlace place = seen_from(basis_.where, setup_, line_.at(ch, off));
    if (refused(place)) return {};
    const std::vector<PointTerm> terms = terms_of(design, basis_.model);
    const bool found =
        std::none_of(terms.begin(), terms.end(), [](const PointTerm& t) { return t.point < 0; });
    if (!found) return {};
    const Prediction read = predictor_.read(setup_, place, {design.constant, terms}, staff_);
    const double noise = predictor_.reading_noise(terms_.g, setup_, read.staff, place.d);
    return {read.staff, std::sqrt(read.sd * read.sd + noise * noise), place.assumed_d ? NAN : place.d};
}

}  // namespace fallwright
