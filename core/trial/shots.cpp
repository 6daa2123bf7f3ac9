#include "trial/shots.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <tuple>
#include <utility>

#include "staff/figures.h"
#include "staff/reduce.h"
#include "trial/one_line.h"

namespace fallwright {

namespace {

constexpr double radians_per_degree = 0.017453292519943295;

// Exact for the quarter turns, where a rounding in cos or sin would make an error of its own.
std::pair<double, double> direction(double degrees) {
    const double turned = std::fmod(std::fmod(degrees, 360) + 360, 360);
    if (turned == 0) return {1, 0};
    if (turned == 90) return {0, 1};
    if (turned == 180) return {-1, 0};
    if (turned == 270) return {0, -1};
    return {std::cos(turned * radians_per_degree), std::sin(turned * radians_per_degree)};
}

// Numbers things from 0 as they come.
template <class Key>
class Numbered {
  public:
    std::size_t operator()(const Key& key) { return numbers_.emplace(key, numbers_.size()).first->second; }
    std::size_t size() const { return numbers_.size(); }

  private:
    std::map<Key, std::size_t> numbers_;
};

class ShotReader {
  public:
    ShotReader(const Book& book, const Trial& trial, const InstrumentErrors& errors,
               const Curvature& curvature)
        : book_(book), trial_(trial), errors_(errors), curvature_(curvature) {}

    UsableShots run() {
        for (std::size_t i = 0; i < trial_.shots.size(); ++i) add(i);
        found_.stations = stations_.size();
        found_.pegs = pegs_.size();
        found_.levelling_ups = turns_.size();
        found_.heights = heights_.size();
        found_.any_faced = std::any_of(found_.shots.begin(), found_.shots.end(),
                                       [](const UsableShot& shot) { return shot.faced; });
        found_.all_faced = std::all_of(found_.shots.begin(), found_.shots.end(),
                                       [](const UsableShot& shot) { return shot.faced; });
        lay_in_one_line(found_.shots);
        report();
        return std::move(found_);
    }

  private:
    double distance(const Shot& shot) const {
        if (shot.dist.has()) return shot.dist.value;
        if (shot.figure.form != Form::ThreeWires) return NAN;
        return staff::distance_of_wires(shot.figure.a, shot.figure.c).metres();
    }

    bool possible(const Shot& shot) {
        bool usable = true;
        const Instrument& instrument = instrument_of();
        for (Finding& each : judge_shot(shot.figure, book_.unit, instrument.reading_sd)) {
            each.about = {book_.id_of(trial_.entry), book_.name(trial_.name)};
            each.message = "check " + book_.name(trial_.name) + ", peg " + book_.name(shot.peg) + " from " +
                           book_.name(shot.station) + ": " + each.message;
            usable = usable && catalogue(each.code).severity != Severity::Error;
            found_.findings.push_back(std::move(each));
        }
        return usable;
    }

    const Instrument& instrument_of() const {
        const ByName instruments(book_.instruments);
        return book_.instruments[static_cast<std::size_t>(instruments(trial_.instrument))];
    }

    void add(std::size_t index) {
        const Shot& shot = trial_.shots[index];
        if (!possible(shot)) return;
        const double d = distance(shot);
        if (!(d > 0)) {
            ++without_distance_;
            return;
        }
        UsableShot usable;
        usable.shot = index;
        const double r = figure_on_staff(shot.figure, shot.figure.a).metres();
        const float sign = shot.figure.inverted ? -1.0F : 1.0F;
        usable.faced = shot.facing.has();
        const auto [along, across] =
            usable.faced ? direction(shot.facing.value) : std::pair<double, double>{0, 0};
        usable.terms = {along * d, across * d, d, r, sign, usable.faced};
        usable.y = sign * r - curvature_.at(d);
        const double far = errors_.sd_per_m * d;
        usable.sd = std::sqrt(errors_.reading_sd * errors_.reading_sd + far * far);
        place(shot, usable);
        found_.shots.push_back(usable);
    }

    void place(const Shot& shot, UsableShot& usable) {
        usable.station = stations_(shot.station);
        usable.peg = pegs_(shot.peg);
        const bool named = shot.turn != no_name;
        const double facing = shot.facing.or_else(-1);  // no facing is that of no body turned
        usable.levelling_up = turns_({shot.station, named, shot.turn, named ? 0 : facing});
        usable.height = heights_({shot.station, usable.faced ? no_name : shot.turn});
        found_.turned_by_name = found_.turned_by_name || (named && usable.faced);
    }

    void report() {
        const std::string name = book_.name(trial_.name);
        const std::string id = book_.id_of(trial_.entry);
        if (trial_.shots.empty())
            found_.findings.push_back(
                finding(Code::TrialNoShots, {id, name}, "check " + name + " has no shots"));
        if (without_distance_ > 0)
            found_.findings.push_back(finding(Code::TrialNoDistance, {id, name},
                                              "check " + name + ": " + std::to_string(without_distance_) +
                                                  (without_distance_ == 1 ? " shot has" : " shots have") +
                                                  " no distance and cannot be used"));
    }

    const Book& book_;
    const Trial& trial_;
    const InstrumentErrors& errors_;
    const Curvature& curvature_;
    UsableShots found_;
    Numbered<NameId> stations_, pegs_;
    Numbered<std::tuple<NameId, bool, NameId, double>> turns_;
    Numbered<std::pair<NameId, NameId>> heights_;
    std::size_t without_distance_ = 0;
};

}  // namespace

UsableShots usable_shots(const Book& book, const Trial& trial, const InstrumentErrors& errors,
                         const Curvature& curvature) {
    return ShotReader(book, trial, errors, curvature).run();
}

}  // namespace fallwright
