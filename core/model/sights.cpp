#include "model/sights.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <utility>

#include "effect/stretches.h"
#include "preset/error_figures.h"

namespace fallwright {

namespace {

constexpr double one_degree = 0.017453292519943295;

class SightMaker {
  public:
    SightMaker(const Book& book, const Points& points, const Figures& figures, const Where& where,
               CheckedInstruments checked)
        : book_(book),
          points_(points),
          figures_(figures),
          where_(where),
          staffs_(book.staffs),
          curvature_(book),
          stretches_(book) {
        sights_.checked = std::move(checked);
        for (const WhatEntry& what : book.whats) {
            if (what.foot_sd.has()) foot_[what.name] = what.foot_sd.value;
        }
        for (const LineEntry& line : book.lines) {
            for (const Layer& layer : line.layers)
                foot_.emplace(layer.what, preset::assumed_foot_sd(book.name(layer.what), true));
        }
    }

    Sights run() {
        for (const Instrument& instrument : book_.instruments)
            sights_.errors.push_back(errors_of(instrument));
        make_setups();
        make_rows();
        sort_by_setup();
        mark_repeats();
        say_assumed();
        return std::move(sights_);
    }

  private:
    void make_setups() {
        sights_.setups.reserve(book_.setups.size());
        for (std::size_t i = 0; i < book_.setups.size(); ++i) {
            const Setup& setup = book_.setups[i];
            SetupTerms terms;
            terms.errors = &sights_.errors[static_cast<std::size_t>(setup.instrument_at)];
            terms.oriented = where_.headings[i].known || where_.aligned[i];
            for (std::size_t axis = 0; axis < 2; ++axis) {
                terms.matched[axis] = setup.plane[axis].matched;
                terms.shown[axis] = setup.shown[axis];
                terms.g[axis] =
                    terms.matched[axis] ? setup.shown[axis].or_else(0) : setup.plane[axis].dialled;
            }
            sights_.setups.push_back(terms);
        }
    }

    void make_rows() {
        sights_.row_of.assign(book_.readings.size(), -1);
        sights_.rows.reserve(book_.readings_by_time.size());
        for (std::uint32_t i = 0; i < book_.readings.size(); ++i) {
            if (!figures_.usable[i] || !fits_its_plane(i)) continue;
            sights_.row_of[i] = static_cast<std::int32_t>(sights_.rows.size());
            sights_.rows.push_back(make_row(i));
        }
    }

    // On a sloped plane a reading needs its place and the body its bearing.
    bool fits_its_plane(std::uint32_t i) {
        const Reading& reading = book_.readings[i];
        const SetupTerms& setup = sights_.setups[static_cast<std::size_t>(reading.setup_at)];
        if (setup.level()) return true;
        if (!setup.oriented) {
            no_bearing_[reading.setup_at].push_back(book_.id_of(reading.entry));
        } else if (!where_.readings[i].has_uv) {
            no_place_[reading.setup_at].push_back(book_.id_of(reading.entry));
        } else {
            return true;
        }
        return false;
    }

    SightRow make_row(std::uint32_t i) {
        const Reading& reading = book_.readings[i];
        const SightPlace& place = where_.readings[i];
        const SetupTerms& setup = sights_.setups[static_cast<std::size_t>(reading.setup_at)];
        SightRow row;
        row.reading = i;
        row.setup = reading.setup_at;
        row.point = points_.at(reading.point);
        row.staff = staff_of(book_, reading, staffs_);
        row.stretch = stretches_.of(instrument_of(row.setup), reading.entry);
        row.terms = {
            place.u,     place.v, place.d, figures_.value[i].metres(), reading.figure.inverted ? -1.0F : 1.0F,
            place.has_uv};
        row.upright = figures_.upright(reading, i).metres();
        row.curvature = curvature_.at(place.d);
        row.sd = noise(reading, setup, row.terms);
        const double foot = foot_sd(reading.what);
        const double direction = place.has_uv ? 0 : setup.errors->own_tilt_sd() * place.d;
        row.foot_variance = foot * foot;
        row.direction_variance = direction * direction;
        assumed_distances_ += place.assumed_d ? 1 : 0;
        return row;
    }

    std::size_t instrument_of(std::int32_t setup) const {
        return static_cast<std::size_t>(book_.setups[static_cast<std::size_t>(setup)].instrument_at);
    }

    // The reading's own sd; on a dialled plane with the lean of the staff and how well the distance is known.
    double noise(const Reading& reading, const SetupTerms& setup, const SightTerms& terms) const {
        if (reading.sd.has() && setup.level()) return reading.sd.value;
        const double far = setup.errors->sd_per_m * terms.d;
        const double own = reading.sd.has() ? reading.sd.value * reading.sd.value
                                            : setup.errors->reading_sd * setup.errors->reading_sd + far * far;
        const double steepest = std::sqrt(setup.g[0] * setup.g[0] + setup.g[1] * setup.g[1]);
        const double lean = terms.r * steepest * one_degree;
        const double along = terms.d > 0 ? (setup.g[0] * terms.u + setup.g[1] * terms.v) / terms.d : 0;
        const double reach = along * reading.dist_sd.or_else(0);
        return std::sqrt(own + lean * lean + reach * reach);
    }

    double foot_sd(NameId what) {
        const auto [known, is_new] = foot_.emplace(what, 0);
        if (is_new) known->second = preset::assumed_foot_sd(book_.name(what), false);
        return known->second;
    }

    void sort_by_setup() {
        sights_.row_start.assign(book_.setups.size() + 1, 0);
        for (const SightRow& row : sights_.rows) ++sights_.row_start[static_cast<std::size_t>(row.setup) + 1];
        for (std::size_t i = 1; i < sights_.row_start.size(); ++i)
            sights_.row_start[i] += sights_.row_start[i - 1];
        std::vector<std::uint32_t> next(sights_.row_start.begin(), sights_.row_start.end() - 1);
        sights_.by_setup.resize(sights_.rows.size());
        for (std::uint32_t i = 0; i < sights_.rows.size(); ++i)
            sights_.by_setup[next[static_cast<std::size_t>(sights_.rows[i].setup)]++] = i;
    }

    // The readings of one point in one set-up share a foot and a direction. Where they were booked with
    // different distances or surfaces the larger figure holds for all, so that their order does not matter.
    struct Together {
        std::size_t setup = SIZE_MAX;
        int readings = 0;
        double foot = 0, direction = 0;
    };

    void mark_repeats() {
        std::vector<Together> at(points_.size());
        for (std::size_t setup = 0; setup + 1 < sights_.row_start.size(); ++setup) {
            const std::uint32_t end = sights_.row_start[setup + 1];
            for (std::uint32_t k = sights_.row_start[setup]; k < end; ++k) {
                const SightRow& row = sights_.rows[sights_.by_setup[k]];
                Together& point = at[static_cast<std::size_t>(row.point)];
                if (point.setup != setup) point = {setup, 0, 0, 0};
                ++point.readings;
                point.foot = std::max(point.foot, row.foot_variance);
                point.direction = std::max(point.direction, row.direction_variance);
            }
            for (std::uint32_t k = sights_.row_start[setup]; k < end; ++k) {
                SightRow& row = sights_.rows[sights_.by_setup[k]];
                const Together& point = at[static_cast<std::size_t>(row.point)];
                row.repeated = point.readings > 1;
                row.foot_variance = point.foot;
                if (row.direction_variance > 0) row.direction_variance = point.direction;
            }
        }
    }

    void say(Code code, const std::map<std::int32_t, std::vector<std::string>>& left_out,
             const std::string& message) {
        for (const auto& [setup, ids] : left_out) {
            sights_.findings.push_back(finding(
                code, ids,
                "set-up " + book_.name(book_.setups[static_cast<std::size_t>(setup)].name) + ": " + message));
        }
    }

    void say_assumed() {
        say(Code::NoBearingOnSlope, no_bearing_,
            "its plane slopes and its bearing is not known; the readings are left out of the levels");
        say(Code::NoPlaceOnSlope, no_place_,
            "its plane slopes and the place of these readings is not known; they are left out of the levels");
        for (std::size_t i = 0; i < book_.instruments.size(); ++i) say_assumed_errors(i);
        say_not_oriented();
        if (assumed_distances_ > 0) {
            sights_.findings.push_back(finding(Code::AssumedDistance, {},
                                               std::to_string(assumed_distances_) +
                                                   " readings have no distance; the assumed sight is taken"));
        }
    }

    // A field that only a sloped plane needs is not worth a word where none slopes.
    bool slopes(std::size_t instrument) const {
        for (std::size_t i = 0; i < book_.setups.size(); ++i) {
            if (instrument_of(static_cast<std::int32_t>(i)) == instrument && !sights_.setups[i].level())
                return true;
        }
        return false;
    }

    // Seen by a check in every stretch that has readings; of an instrument never read, in every stretch
    // checked.
    bool is_checked(std::size_t instrument, const std::string& field) const {
        if (sights_.checked.empty()) return false;
        std::set<std::int32_t> stretches;
        for (const SightRow& row : sights_.rows) {
            if (instrument_of(row.setup) == instrument) stretches.insert(row.stretch);
        }
        if (stretches.empty()) {
            for (const auto& [which, checked] : sights_.checked) {
                if (which.first == instrument) stretches.insert(which.second);
            }
        }
        return !stretches.empty() &&
               std::all_of(stretches.begin(), stretches.end(), [&](std::int32_t stretch) {
                   const CheckedErrors* checked = sights_.checked_in(instrument, stretch);
                   return checked != nullptr && sees(*checked, field);
               });
    }

    static bool sees(const CheckedErrors& checked, const std::string& field) {
        if (field == "tilt_sd") return checked.seen[0] && checked.seen[1];
        return (field == "cone_sd" && checked.seen[2]) || (field == "collimation_sd" && checked.seen[3]);
    }

    void say_assumed_errors(std::size_t instrument) {
        const bool sloped = slopes(instrument);
        std::string fields;
        for (const std::string& field : sights_.errors[instrument].assumed) {
            if (!sloped && (field == "aim_sd" || field == "grade_sd")) continue;
            if (is_checked(instrument, field)) continue;
            fields += (fields.empty() ? "" : ", ") + field;
        }
        if (fields.empty()) return;
        const std::string& name = book_.name(book_.instruments[instrument].name);
        sights_.findings.push_back(finding(Code::AssumedErrors, {name},
                                           "instrument " + name + ": " + fields + " assumed, untested"));
    }

    bool not_oriented(std::size_t i) const {
        const SetupTerms& setup = sights_.setups[i];
        const bool tilts =
            setup.errors->tilt_sd > 0 || setup.errors->tilt[0] != 0 || setup.errors->tilt[1] != 0;
        return tilts && !setup.oriented && sights_.row_start[i] != sights_.row_start[i + 1];
    }

    void say_not_oriented() {
        std::vector<std::string> names;
        for (std::size_t i = 0; i < book_.setups.size(); ++i) {
            if (not_oriented(i)) names.push_back(book_.name(book_.setups[i].name));
        }
        if (names.empty()) return;
        const std::string which = names.size() == 1 ? "set-up " + names.front() + " has"
                                                    : std::to_string(names.size()) + " set-ups have";
        sights_.findings.push_back(
            finding(Code::BodyNotOriented, std::move(names),
                    which + " no bearing: the instrument's own tilt is taken as unknown there"));
    }

    const Book& book_;
    const Points& points_;
    const Figures& figures_;
    const Where& where_;
    ByName staffs_;
    Curvature curvature_;
    Stretches stretches_;
    Sights sights_;
    std::map<NameId, double> foot_;
    std::map<std::int32_t, std::vector<std::string>> no_bearing_, no_place_;
    std::size_t assumed_distances_ = 0;
};

}  // namespace

Sights prepare_sights(const Book& book, const Points& points, const Figures& figures, const Where& where,
                      CheckedInstruments checked) {
    return SightMaker(book, points, figures, where, std::move(checked)).run();
}

}  // namespace fallwright
