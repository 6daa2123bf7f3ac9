#include "ground/surfaces.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/print.h"
#include "ground/contours.h"
#include "ground/volume_grid.h"

namespace fallwright::ground {

namespace {

constexpr double all_of_it = 0.999;  // of an area: less is said
constexpr double none_of_it = 1e-9;

class Surveyor {
  public:
    Surveyor(const Book& book, const Where& where, const Model& model)
        : book_(book), where_(where), model_(model), by_name_(book.surfaces) {}

    Surveys run() {
        for (const SurfaceEntry& entry : book_.surfaces) make(entry);
        for (SurveyedSurface& surface : found_.surfaces) {
            if (surface.made) ask(surface);
        }
        return std::move(found_);
    }

  private:
    void say(Code code, const SurfaceEntry& entry, std::vector<std::string> about, std::string message) {
        about.insert(about.begin(), book_.id_of(entry.entry));
        found_.findings.push_back(finding(code, std::move(about), std::move(message)));
    }

    std::string name(const SurfaceEntry& entry) const { return "surface " + book_.name(entry.name); }

    void make(const SurfaceEntry& entry) {
        SurveyedSurface surface;
        surface.ready.entry = &entry;
        surface.ready.spots = surface_of_book(book_, where_, model_, entry, found_.findings);
        if (surface.ready.spots.usable) {
            if (entry.grid[0].has()) {
                make_cells(surface.ready);
            } else {
                make_triangles(surface);
            }
        }
        surface.made = !surface.ready.sheet.triangles.empty();
        surface.ready.inner = spots_inside(surface.ready.spots.spots, entry);
        found_.surfaces.push_back(std::move(surface));
    }

    void make_triangles(SurveyedSurface& surface) {
        ReadySurface& ready = surface.ready;
        const SurfaceEntry& entry = *ready.entry;
        SurfaceInput input;
        for (const BookSpot& spot : ready.spots.spots) input.spots.push_back({spot.e, spot.n, spot.level});
        input.breaklines = ready.spots.breaklines;
        for (const std::array<double, 2>& corner : entry.inside)
            input.inside.push_back({corner[0], corner[1]});
        const Result<Triangulation> ground = triangulate(input);
        if (!ground) {
            say(ground.finding().code, entry, {}, name(entry) + ": " + ground.finding().message);
            return;
        }
        report_triangles(ready, *ground);
        ready.sheet = sheet_of(*ground);
        if (entry.contours.has()) surface.contours = contours_of(entry, *ground);
    }

    // At whole multiples of the step in the book's unit.
    std::vector<SurfaceContour> contours_of(const SurfaceEntry& entry, const Triangulation& ground) {
        const Result<std::vector<Decimal>> levels =
            contour_levels(ground, Decimal::metres(entry.contours.value));
        if (!levels) {
            say(levels.finding().code, entry, {}, name(entry) + ": " + levels.finding().message);
            return {};
        }
        const Contours drawn = draw_contours(ground, *levels);
        std::vector<SurfaceContour> all;
        all.reserve(drawn.lines.size());
        for (const ContourLine& line : drawn.lines) {
            SurfaceContour contour = {line.level.metres(), line.closed, {}};
            contour.at.reserve(line.count);
            for (std::size_t i = line.first; i < line.first + line.count; ++i)
                contour.at.push_back({drawn.at[i].e + ground.origin_e, drawn.at[i].n + ground.origin_n});
            all.push_back(std::move(contour));
        }
        return all;
    }

    std::string spot_name(const ReadySurface& ready, std::int32_t spot) const {
        return book_.name(ready.spots.spots[static_cast<std::size_t>(spot)].name);
    }

    void report_triangles(const ReadySurface& ready, const Triangulation& ground) {
        for (const Together& pair : ground.together) {
            const std::string kept = spot_name(ready, pair.kept), out = spot_name(ready, pair.left_out);
            say(Code::SurfaceSpotsTogether, *ready.entry, {kept, out},
                name(*ready.entry) + ": " + out + " lies where " + kept + " does; it is left out");
        }
        for (const Crossing& crossing : ground.crossings) {
            const auto part = [&](std::int32_t line, std::int32_t segment) {
                const std::vector<std::int32_t>& chain =
                    ready.spots.breaklines[static_cast<std::size_t>(line)];
                const auto at = static_cast<std::size_t>(segment);
                return spot_name(ready, chain[at]) + " to " + spot_name(ready, chain[at + 1]);
            };
            say(Code::SurfaceBreakline, *ready.entry, {},
                name(*ready.entry) + ": the breakline from " + part(crossing.line, crossing.segment) +
                    " crosses that from " + part(crossing.other_line, crossing.other_segment) +
                    "; it is not used there");
        }
    }

    void make_cells(ReadySurface& ready) {
        const SurfaceEntry& entry = *ready.entry;
        GridSheet grid =
            grid_sheet(ready.spots.spots, entry.grid[0].value, entry.grid[1].value, ready.spots.heading);
        std::vector<std::string> off;
        for (const std::int32_t spot : grid.off_grid) off.push_back(spot_name(ready, spot));
        if (!off.empty()) {
            const std::string which = off.front() + (off.size() > 1 ? " and others lie" : " lies");
            say(Code::SurfaceOffGrid, entry, off,
                name(entry) + ": " + which + " on no corner of the grid, or on one already read");
        }
        if (grid.sheet.triangles.empty())
            say(Code::SurfaceNoCells, entry, {}, name(entry) + " has no cell with four corners read");
        if (!entry.inside.empty() || !entry.breaklines.empty() || entry.contours.has())
            say(Code::SurfaceFieldUnused, entry, {},
                name(entry) + ": inside, breaklines and contours are not used with a grid");
        ready.sheet = std::move(grid.sheet);
    }

    void ask(SurveyedSurface& surface) {
        const std::vector<BookSpot>& spots = surface.ready.inner;
        surface.area = surface.ready.sheet.area();
        if (!spots.empty()) {
            const auto lower = [](const BookSpot& a, const BookSpot& b) { return a.level < b.level; };
            const auto first = spots.begin(), last = spots.end();
            surface.lowest = static_cast<std::int32_t>(std::min_element(first, last, lower) - first);
            surface.highest = static_cast<std::int32_t>(std::max_element(first, last, lower) - first);
        }
        Result<BestPlane> plane = best_plane(spots, surface.ready.spots.heading, model_);
        if (plane) surface.plane = std::move(*plane);
        for (const SurfaceTarget& target : surface.ready.entry->to) add_volume(surface, target);
        surface.water = standing_water(surface.ready, model_);
        if (!surface.water.drains)
            say(Code::SurfaceNoOutlet, *surface.ready.entry, {},
                name(*surface.ready.entry) + " is kerbed all round and has no outlet on it");
        for (const NameId preset : surface.ready.entry->flatness) add_flatness(surface, preset);
        add_levels(surface);
    }

    void add_levels(SurveyedSurface& surface) {
        const SurfaceEntry& entry = *surface.ready.entry;
        for (const Want& want : book_.wants) {
            if (want.surface != entry.name || !want.every.has()) continue;
            GridLevels found = grid_levels(surface.ready, want.every.value, model_);
            if (found.too_many)
                say(Code::SurfaceTooMany, entry, {},
                    name(entry) + " has more than " + std::to_string(most_grid_levels) +
                        " corners on so close a grid; no levels are listed");
            surface.levels = std::move(found.levels);
            return;
        }
    }

    void add_volume(SurveyedSurface& surface, const SurfaceTarget& target) {
        if (target.surface == no_name) return add_plane_volume(surface, target);
        const SurfaceEntry& entry = *surface.ready.entry;
        const SurveyedSurface& other = found_.surfaces[static_cast<std::size_t>(by_name_(target.surface))];
        const std::string to = "surface " + book_.name(target.surface);
        if (!other.made || other.ready.spots.frame != surface.ready.spots.frame)
            return say(Code::VolumeNoTarget, entry, {},
                       name(entry) + ": " + to + (other.made ? " lies on another grid" : " cannot be made"));
        SurfaceVolume volume = volume_between(surface.ready, target, other.ready, model_);
        const double part = volume.area / surface.area;
        if (part < none_of_it)
            return say(Code::VolumeNoTarget, entry, {},
                       name(entry) + " and " + to + " do not lie over one another");
        if (part < all_of_it)
            say(Code::VolumePartly, entry, {book_.name(target.surface)},
                to + " lies over or under " + trimmed(part * 100, 1) + " % of " + name(entry));
        surface.volumes.push_back(std::move(volume));
    }

    void add_plane_volume(SurveyedSurface& surface, const SurfaceTarget& target) {
        EastNorth at = {target.at[0].or_else(0), target.at[1].or_else(0)};
        if (target.place != no_name) {
            const Spot& spot = where_.points[target.place];
            if (!spot.known || spot.frame != surface.ready.spots.frame)
                return say(Code::VolumeNoTarget, *surface.ready.entry, {book_.name(target.place)},
                           name(*surface.ready.entry) + ": where " + book_.name(target.place) +
                               " lies is not known there");
            at = {spot.e, spot.n};
        }
        surface.volumes.push_back(volume_to_plane(surface.ready, target, at, model_));
    }

    void add_flatness(SurveyedSurface& surface, NameId name_of_preset) {
        const SurfaceEntry& entry = *surface.ready.entry;
        const std::string& text = book_.name(name_of_preset);
        const preset::FlatnessPreset* preset = preset::find_flatness(text);
        if (preset == nullptr)
            return say(
                Code::UnknownPreset, entry, {},
                "flatness preset " + text + " is not known; " + name(entry) + " is not held against it");
        const bool is_new =
            std::find(found_.presets.begin(), found_.presets.end(), preset) == found_.presets.end();
        if (is_new) {
            found_.presets.push_back(preset);
            if (preset->source.provenance == preset::Provenance::FromMemory)
                found_.findings.push_back(finding(Code::PresetFromMemory, {text},
                                                  "preset " + text + " is from memory, not confirmed"));
        }
        for (Flatness& each : flatness(book_, surface.ready.inner, *preset, model_)) {
            if (each.checks == 0)
                say(Code::FlatnessNotTold, entry, {text},
                    name(entry) + ": no points lie as " + text + " asks for (" +
                        std::string(preset::flatness_rule_word(each.criterion->rule)) + ")");
            surface.flatness.push_back(std::move(each));
        }
    }

    const Book& book_;
    const Where& where_;
    const Model& model_;
    ByName by_name_;
    Surveys found_;
};

}  // namespace

Surveys survey_surfaces(const Book& book, const Where& where, const Model& model) {
    if (book.surfaces.empty()) return {};
    return Surveyor(book, where, model).run();
}

}  // namespace fallwright::ground
