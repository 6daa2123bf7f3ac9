#include "drain/dips.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

#include "base/print.h"
#include "base/stable_order.h"
#include "quantity/length.h"

namespace fallwright::drain {

namespace {

constexpr double agreement = 1.96;  // sds of the difference

class DipFinder {
  public:
    DipFinder(const SetoutBasis& basis, const RunLevels& levels) : basis_(basis), levels_(levels) {}

    std::vector<Dip> run() {
        for (const Spot& spot : spots_of(levels_.line().name)) {
            if (spot.what == "invert") add(spot, spot.ch, levels_.design().level("invert", spot.ch));
        }
        for (const Join& join : levels_.line().joins) add_join(join);
        sort_stably(dips_, [](const Dip& a, const Dip& b) { return a.ch < b.ch; });
        return std::move(dips_);
    }

    // A level found on a line itself.
    struct Spot {
        std::int32_t point;
        double ch;
        std::string_view what;
    };

    // Read with a staff, or carried there by tape.
    std::vector<Spot> spots_of(NameId line) const {
        std::vector<Spot> spots;
        const std::size_t index = line_at(line);
        if (index == basis_.book.lines.size()) return spots;
        for (const Station& station : basis_.found[index].stations) {
            if (std::fabs(station.off) < least_offset)
                spots.push_back({station.point, station.ch, basis_.book.names.text(station.what)});
        }
        for (const Step& step : basis_.book.steps) {
            for (const NameId point : {step.from, step.to}) add_taped(line, point, spots);
        }
        return spots;
    }

  private:
    std::size_t line_at(NameId name) const {
        std::size_t i = 0;
        while (i < basis_.book.lines.size() && basis_.book.lines[i].name != name) ++i;
        return i;
    }

    // A point of a step that no staff was read on: its name alone says where it lies ("D1 40.000 invert").
    void add_taped(NameId line, NameId point, std::vector<Spot>& spots) const {
        constexpr std::string_view what = "invert";
        const std::string_view text = basis_.book.names.text(point);
        const std::string_view name = basis_.book.names.text(line);
        if (text.size() <= name.size() + what.size() + 2 || text.substr(0, name.size()) != name) return;
        const std::string_view between =
            text.substr(name.size() + 1, text.size() - name.size() - what.size() - 2);
        const Result<Length> ch = parse_chainage(between, basis_.book.unit);
        if (!ch || line_point_name(name, basis_.book.in_unit(ch->metres()), 0, what) != text) return;
        const std::int32_t found = basis_.model.points.at(point);
        const bool known = std::any_of(spots.begin(), spots.end(),
                                       [found](const Spot& spot) { return spot.point == found; });
        if (!known) spots.push_back({found, ch->metres(), what});
    }

    // What the other line has there as found, against what its design has, which this line leans on.
    void add_join(const Join& join) {
        const std::size_t other = line_at(join.line);
        if (other == basis_.book.lines.size()) return;
        const double end = joining_end(levels_, join);
        const DesignLevel wanted = basis_.designs.lines[other].level("invert", join.ch);
        constexpr std::array<std::string_view, 3> found = {"invert", "laid", "laid out"};
        for (const Spot& spot : spots_of(join.line)) {
            const bool there = std::fabs(spot.ch - join.ch) < least_chainage;
            if (there && std::find(found.begin(), found.end(), spot.what) != found.end())
                add(spot, end, wanted);
        }
    }

    void add(const Spot& spot, double ch, const DesignLevel& wanted) {
        Dip dip;
        dip.point = basis_.model.points.name(static_cast<std::size_t>(spot.point));
        dip.ch = ch;
        std::tie(dip.level, dip.sd) = levels_.found(spot.point);
        const OverDesign over = over_design({dip.level, {{spot.point, 1}}}, wanted, basis_.model);
        if (std::isnan(over.value)) return;
        dip.design = wanted.value(levels_.level_of());
        dip.difference = over.value;
        dip.difference_sd = over_sd(over, basis_.model);
        dip.agrees = shown(std::fabs(over.value)) <= shown(agreement * dip.difference_sd);
        dips_.push_back(dip);
    }

    double shown(double metres) const { return rounded_to(basis_.book.in_unit(metres), length_places); }

    const SetoutBasis& basis_;
    const RunLevels& levels_;
    std::vector<Dip> dips_;
};

}  // namespace

std::optional<InvertFound> invert_found(const SetoutBasis& basis, const RunLevels& levels, double ch) {
    for (const auto& spot : DipFinder(basis, levels).spots_of(levels.line().name)) {
        const double level = levels.found(spot.point).first;
        if (spot.what == "invert" && std::fabs(spot.ch - ch) < least_chainage && !std::isnan(level))
            return InvertFound{basis.model.points.name(static_cast<std::size_t>(spot.point)), level};
    }
    return std::nullopt;
}

double joining_end(const RunLevels& levels, const Join& join) {
    const std::vector<Join>& joins = levels.line().joins;
    const Profile& profile = levels.design().profile();
    if (!profile.any()) return NAN;
    const bool downstream = &join == joins.data();
    return downstream == levels.with_chainage() ? profile.to() : profile.from();
}

std::vector<Dip> find_dips(const SetoutBasis& basis, const RunLevels& levels) {
    return DipFinder(basis, levels).run();
}

}  // namespace fallwright::drain
