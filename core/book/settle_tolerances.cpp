#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "book/settle.h"
#include "preset/tolerance.h"

namespace fallwright {

namespace {

constexpr double millimetres = 1000;  // in a metre

Maybe metres_of(double mm) {
    return {mm / millimetres};
}

// Fills what an entry leaves open from one preset after the other.
class PresetTaker {
  public:
    PresetTaker(std::string_view name, const preset::Source& source, Tolerance& to)
        : source_(source), to_(to) {
        to.used.push_back({name, &source});
    }

    void take(const preset::TolerancePreset& row) {
        const bool levels = to_.below.has() || to_.above.has();
        if (settles(!levels, !std::isnan(row.below_mm), to_.from_memory.levels)) {
            to_.below = metres_of(row.below_mm);
            to_.above = metres_of(row.above_mm);
        }
        const bool falls = to_.fall_min.has() || to_.fall_max.has();
        const bool says_falls = !std::isnan(row.fall_min) || !std::isnan(row.fall_max);
        if (settles(!falls, says_falls, to_.from_memory.falls)) {
            to_.fall_min = {row.fall_min};
            to_.fall_max = {row.fall_max};
        }
        take_gap(metres_of(row.gap_mm), row.over_m);
        std::vector<IrregularityLimit>& counts = to_.even.irregularities;
        if (settles(counts.empty(), !row.irregularities.empty(), to_.from_memory.irregularities)) {
            for (const preset::IrregularityCount& each : row.irregularities)
                counts.push_back({each.size_mm / millimetres, each.length_m, static_cast<double>(each.most)});
        }
    }

    // A straightedge only: differences over a grid are for surfaces.
    void take(const preset::FlatnessPreset& flat) {
        const preset::FlatnessCriterion& limits = flat.criteria[0];
        if (limits.one_base()) {
            take_gap(metres_of(limits.limits[0].limit), limits.limits[0].base);
        } else if (settles(to_.even.gaps.count == 0, true, to_.from_memory.gaps)) {
            to_.even.gaps = limits;
        }
    }

  private:
    void take_gap(Maybe gap, double over) {
        if (!settles(!to_.even.gap.has(), gap.has(), to_.from_memory.gap)) return;
        to_.even.gap = gap;
        to_.even.over = {to_.even.over.or_else(over)};
    }

    // Whether this preset is the one that settles a limit the entry leaves open.
    bool settles(bool open, bool there, bool& from_memory) const {
        if (!open || !there) return false;
        from_memory = source_.provenance == preset::Provenance::FromMemory;
        return true;
    }

    const preset::Source& source_;
    Tolerance& to_;
};

class ToleranceSettler {
  public:
    explicit ToleranceSettler(Book& book) : book_(book) {}

    void run() {
        for (const Tolerance& tolerance : book_.tolerances) {
            if (tolerance.what != no_name) own_.insert({tolerance.line, tolerance.what});
        }
        std::vector<Tolerance> settled;
        for (Tolerance& tolerance : book_.tolerances) {
            if (tolerance.what == no_name) {
                spread(tolerance, settled);
            } else {
                for (const NameId preset : tolerance.presets) take_for_surface(preset, tolerance);
                settled.push_back(std::move(tolerance));
            }
        }
        book_.tolerances = std::move(settled);
    }

  private:
    void say(const Tolerance& tolerance, const std::string& message) {
        book_.findings.push_back(finding(Code::UnknownPreset, {book_.id_of(tolerance.entry)}, message));
    }

    // Whether the name itself stands for figures of a line; they are then taken.
    static bool take_row(std::string_view name, Tolerance& to) {
        if (const preset::TolerancePreset* row = preset::find_tolerance(name)) {
            PresetTaker(row->name, row->source, to).take(*row);
            return true;
        }
        const preset::FlatnessPreset* flat = preset::find_flatness(name);
        if (flat == nullptr || flat->criteria[0].rule != preset::FlatnessRule::Straightedge) return false;
        PresetTaker(flat->name, flat->source, to).take(*flat);
        return true;
    }

    bool take_of_table(std::string_view table, Tolerance& to) const {
        const preset::TolerancePreset* row = preset::find_tolerance(table, book_.names.text(to.what));
        if (row != nullptr) PresetTaker(row->name, row->source, to).take(*row);
        return row != nullptr;
    }

    void take_for_surface(NameId preset, Tolerance& to) {
        const std::string name = book_.name(preset);
        if (take_row(name, to) || take_of_table(name, to)) return;
        if (preset::is_tolerance_table(name))
            say(to, "tolerance preset " + name + " has nothing for " + book_.name(to.what) +
                        "; name the row that is meant");
        else
            say_unknown(name, to);
    }

    void say_unknown(const std::string& name, const Tolerance& tolerance) {
        say(tolerance, "tolerance preset " + name +
                           (preset::find_flatness(name) != nullptr ? " is for surfaces, not for lines"
                                                                   : " is not known") +
                           "; it limits nothing");
    }

    // A line's tables, without a surface: each surface of the line that some row serves, and that has no
    // tolerance of its own.
    void spread(const Tolerance& tolerance, std::vector<Tolerance>& settled) {
        bool any = false;
        for (const NameId what : surfaces_of(tolerance.line)) {
            Tolerance each = tolerance;
            each.what = what;
            for (const NameId preset : tolerance.presets) take_of_table(book_.names.text(preset), each);
            any = any || !each.used.empty();
            if (!each.used.empty() && own_.insert({each.line, what}).second)
                settled.push_back(std::move(each));
        }
        for (const NameId preset : tolerance.presets) {
            if (!preset::is_tolerance_table(book_.names.text(preset)))
                say(tolerance,
                    "tolerance preset " + book_.name(preset) +
                        " is no table for the surfaces of a line; name the surface (what) it is for");
        }
        if (!any)
            say(tolerance, "no surface of line " + book_.name(tolerance.line) +
                               " is in the tables of this tolerance; name what it is for");
    }

    // From finished downward, each once.
    std::vector<NameId> surfaces_of(NameId name) {
        const std::int32_t at = ByName(book_.lines)(name);
        const LineEntry& line = book_.lines[static_cast<std::size_t>(at)];
        std::vector<NameId> whats = {book_.names.intern("finished")};
        for (const Layer& layer : line.layers) whats.push_back(layer.what);
        if (!line.layers.empty()) whats.push_back(book_.names.intern("formation"));
        for (const WhatHeight& what : line.whats) whats.push_back(what.what);
        std::set<NameId> seen;
        const auto again = [&seen](NameId what) { return !seen.insert(what).second; };
        whats.erase(std::remove_if(whats.begin(), whats.end(), again), whats.end());
        return whats;
    }

    Book& book_;
    std::set<std::pair<NameId, NameId>> own_;  // line and surface that have a tolerance
};

}  // namespace

void settle_tolerances(Book& book) {
    if (!book.tolerances.empty()) ToleranceSettler(book).run();
}

}  // namespace fallwright
