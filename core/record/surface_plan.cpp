#include <algorithm>
#include <cmath>
#include <set>

#include "base/print.h"
#include "record/drawings.h"
#include "record/figure_words.h"
#include "record/legend.h"
#include "record/patches.h"
#include "record/plan_frame.h"
#include "record/scales.h"

namespace fallwright::record {

namespace {

using ground::EastNorth;
using sheet::Anchor;
using sheet::At;
using sheet::Dash;
using sheet::Ink;

constexpr std::size_t most_levels = 150, most_triangles = 4000, most_spots = 4000;
constexpr int heavy_every = 5;  // contours
constexpr double word_size = 3.4;

class SurfacePlan {
  public:
    SurfacePlan(const Evaluation& evaluation, const ground::SurveyedSurface& surface, Room room)
        : evaluation_(evaluation),
          book_(*evaluation.book),
          surface_(surface),
          sheet_(surface.ready.sheet),
          room_(room) {
        name_ = book_.name(surface.ready.entry->name);
        for (std::size_t t = 0; t < sheet_.triangles.size(); ++t) {
            for (const EastNorth& corner : outline_of(t)) extent_.take(corner.e, corner.n);
        }
    }

    sheet::Figure levels() {
        Drawing drawing(room_.width, room_.height + 300);
        const std::string title = "Surface " + name_ + ": levels";
        const PlanFrame frame = begin(drawing, title, level_facts());
        legend_.clear();
        draw_triangles(drawing, frame);
        draw_outline(drawing, frame);
        draw_contours(drawing, frame, true);
        draw_ponds(drawing, frame);
        draw_spot_levels(drawing, frame);
        return finish(drawing, frame, title, level_said());
    }

    sheet::Figure earthwork(const ground::SurfaceVolume& volume) {
        Drawing drawing(room_.width, room_.height + 300);
        const std::string to = target_name(*volume.target);
        const std::string title = "Surface " + name_ + ": cut and fill to " + to;
        const PlanFrame frame = begin(drawing, title, volume_facts(volume));
        legend_.clear();
        const CutAndFill parts = cut_and_fill(evaluation_, surface_, volume);
        draw_patches(drawing, frame, parts.cut, "CUT", Ink::Dig, sheet::Pattern::HatchDown);
        draw_patches(drawing, frame, parts.fill, "FILL", Ink::Fill, sheet::Pattern::HatchUp);
        draw_outline(drawing, frame);
        for (const auto& piece : parts.zero)
            drawing.line(on(frame, piece[0]), on(frame, piece[1]), {heavy_line, Ink::Line, Dash::Solid});
        if (!parts.zero.empty())
            legend_.push_back({sheet::Stroke{heavy_line, Ink::Line, Dash::Solid}, "neither cut nor fill"});
        draw_digs(drawing, frame, volume);
        draw_words(drawing, frame, parts.cut, "CUT");
        draw_words(drawing, frame, parts.fill, "FILL");
        return finish(drawing, frame, title, volume_facts(volume));
    }

  private:
    static At on(const PlanFrame& frame, const EastNorth& place) { return frame.at(place.e, place.n); }

    std::vector<EastNorth> outline_of(std::size_t t) const {
        std::vector<EastNorth> outline;
        const auto add = [&](const EastNorth& at) {
            outline.push_back({at.e + sheet_.origin.e, at.n + sheet_.origin.n});
        };
        if (t >= sheet_.whole()) {
            for (const EastNorth& at : sheet_.parts[t - sheet_.whole()]) add(at);
        } else {
            for (const std::int32_t corner : sheet_.triangles[t])
                add(sheet_.at[static_cast<std::size_t>(corner)]);
        }
        return outline;
    }

    PlanFrame begin(Drawing& drawing, const std::string& title, const std::string& facts) const {
        const double head = draw_head(drawing, title, facts, book_.title);
        const PlanFrame frame(extent_, head + 1, room_.width, std::max(room_.height - head - 28, 60.0),
                              book_.unit);
        frame.draw(drawing, book_, surface_.ready.spots.frame == 0);
        return frame;
    }

    sheet::Figure finish(Drawing& drawing, const PlanFrame& frame, const std::string& title,
                         const std::string& said) {
        double y = frame.draw_scale_bar(drawing, book_, frame.box().bottom + 4);
        drawing.place(label({}, "Scale " + scale_words(frame.scale(), book_.unit), usual_type),
                      {{{frame.box().right, y - 1.5}, Anchor::End}});
        y = draw_legend(drawing, legend_, {0, y + 1}, room_.width);
        drawing.cut(y + 0.5);
        return drawing.take(title, said);
    }

    std::string square(double area) const {
        const double unit = book_.metres_per_unit();
        return significant(area / unit / unit, 4) + (book_.unit == Unit::Foot ? " ft\xc2\xb2" : " m\xc2\xb2");
    }
    std::string cubic(double volume, int figures = 4) const {
        const double unit = book_.metres_per_unit();
        return significant(volume / unit / unit / unit, figures) +
               (book_.unit == Unit::Foot ? " ft\xc2\xb3" : " m\xc2\xb3");
    }

    std::string level_facts() const {
        std::string words = std::to_string(surface_.ready.inner.size()) + " spots, " + square(surface_.area) +
                            ". Levels in " + unit_words(book_) + ".";
        if (surface_.ready.entry->contours.has())
            words += " Contours every " + short_words(book_, surface_.ready.entry->contours.value) + " " +
                     unit_words(book_) + ".";
        return words;
    }

    std::string level_said() const {
        std::string words = "Plan of surface " + name_ + ", " + level_facts();
        const auto spot = [this](std::int32_t i) {
            const ground::BookSpot& at = surface_.ready.inner[static_cast<std::size_t>(i)];
            return book_.name(at.name) + ", " + level_words(book_, at.level);
        };
        if (surface_.highest >= 0)
            words += " Highest " + spot(surface_.highest) + "; lowest " + spot(surface_.lowest) + ".";
        if (!surface_.water.ponds.empty())
            words += " Water would stand at " + std::to_string(surface_.water.ponds.size()) + " places.";
        return words;
    }

    std::string target_name(const SurfaceTarget& target) const {
        if (target.name != no_name) return book_.name(target.name);
        if (target.surface != no_name) return "surface " + book_.name(target.surface);
        return target.sloped ? "a plane" : "level " + level_words(book_, target.level.value);
    }

    std::string volume_facts(const ground::SurfaceVolume& volume) const {
        return "Cut " + cubic(volume.work.cut) + " \xc2\xb1 " + cubic(volume.cut_sd, 2) + " over " +
               square(volume.work.cut_area) + ", fill " + cubic(volume.work.fill) + " \xc2\xb1 " +
               cubic(volume.fill_sd, 2) + " over " + square(volume.work.fill_area) +
               ", in place; one standard deviation.";
    }

    void draw_triangles(Drawing& drawing, const PlanFrame& frame) {
        if (sheet_.triangles.size() > most_triangles) return;
        std::set<std::pair<std::int32_t, std::int32_t>> drawn;
        const sheet::Stroke stroke = {hair, Ink::Faint, Dash::Dotted};
        for (std::size_t t = 0; t < sheet_.whole(); ++t) {
            for (std::size_t k = 0; k < 3; ++k) {
                const std::int32_t a = sheet_.triangles[t][k], b = sheet_.triangles[t][(k + 1) % 3];
                if (!drawn.insert({std::min(a, b), std::max(a, b)}).second) continue;
                drawing.line(corner(frame, a), corner(frame, b), stroke);
            }
        }
        legend_.push_back({stroke, "triangles between spots"});
    }

    At corner(const PlanFrame& frame, std::int32_t i) const {
        const EastNorth& at = sheet_.at[static_cast<std::size_t>(i)];
        return frame.at(at.e + sheet_.origin.e, at.n + sheet_.origin.n);
    }

    void draw_outline(Drawing& drawing, const PlanFrame& frame) const {
        std::vector<std::vector<EastNorth>> polygons;
        for (std::size_t t = 0; t < sheet_.triangles.size(); ++t) polygons.push_back(outline_of(t));
        for (const std::vector<EastNorth>& ring : joined(polygons)) {
            std::vector<At> places;
            places.reserve(ring.size());
            for (const EastNorth& at : ring) places.push_back(on(frame, at));
            drawing.path(std::move(places), {wide, Ink::Line, Dash::DashDot}, name_, true);
        }
    }

    void draw_contours(Drawing& drawing, const PlanFrame& frame, bool words) {
        const double every = surface_.ready.entry->contours.or_else(1);
        bool any_heavy = false, any = false;
        for (const ground::SurfaceContour& contour : surface_.contours) {
            const bool is_heavy = std::llround(contour.level / every) % heavy_every == 0;
            std::vector<At> places;
            for (const EastNorth& at : contour.at) places.push_back(on(frame, at));
            drawing.path(std::move(places), {is_heavy ? heavy_line : thin, Ink::Ground, Dash::Solid}, "",
                         contour.closed);
            any_heavy = any_heavy || is_heavy;
            any = any || !is_heavy;
        }
        if (any) legend_.push_back({sheet::Stroke{thin, Ink::Ground, Dash::Solid}, "contour"});
        if (any_heavy)
            legend_.push_back({sheet::Stroke{heavy_line, Ink::Ground, Dash::Solid}, "every fifth contour"});
        for (const bool heavies : {true, false}) {
            for (const ground::SurfaceContour& contour : surface_.contours) {
                if (!words || (std::llround(contour.level / every) % heavy_every == 0) != heavies) continue;
                draw_contour_level(drawing, frame, contour, heavies);
            }
        }
    }

    void draw_contour_level(Drawing& drawing, const PlanFrame& frame, const ground::SurfaceContour& contour,
                            bool bold) const {
        sheet::Label words = label({}, short_words(book_, contour.level), small_type);
        words.bold = bold;
        words.cleared = true;
        words.ink = Ink::Ground;
        std::vector<LabelPlace> places;
        const std::size_t count = contour.at.size();
        for (const double share : {0.5, 0.3, 0.7, 0.15, 0.85}) {
            const auto i = static_cast<std::size_t>(share * static_cast<double>(count - 1));
            const At a = on(frame, contour.at[i]), b = on(frame, contour.at[std::min(i + 1, count - 1)]);
            places.push_back({{(a.x + b.x) / 2, (a.y + b.y) / 2 + small_type * 0.36}, Anchor::Middle});
        }
        drawing.place(words, places);
    }

    void draw_ponds(Drawing& drawing, const PlanFrame& frame) {
        for (const ground::SurfacePond& pond : surface_.water.ponds) {
            const At at = frame.at(pond.low.e, pond.low.n);
            const double half = 1.6;
            const Box box = {at.x - half, at.y - half, at.x + half, at.y + half};
            drawing.area(
                {{box.left, box.top}, {box.right, box.top}, {box.right, box.bottom}, {box.left, box.bottom}},
                Ink::Water, sheet::Pattern::CrossHatch);
            drawing.box(box, {thin, Ink::Water, Dash::Solid});
            drawing.keep_clear(box);
            sheet::Label words = label({}, "water " + size_words(book_, pond.depth), small_type);
            words.bold = true;
            words.cleared = true;
            drawing.place(words, places_around(at, 2.2, small_type));
        }
        if (!surface_.water.ponds.empty())
            legend_.push_back({Hatched{Ink::Water, sheet::Pattern::CrossHatch},
                               "lowest place of standing water, and how deep"});
    }

    void draw_spot_levels(Drawing& drawing, const PlanFrame& frame) {
        const std::vector<ground::BookSpot>& spots = surface_.ready.inner;
        if (spots.size() > most_spots) return;
        for (const ground::BookSpot& spot : spots)
            drawing.mark({frame.at(spot.e, spot.n), sheet::Mark::Spot, 1, 0, Ink::Line},
                         book_.name(spot.name));
        legend_.push_back({Marked{sheet::Mark::Spot, Ink::Line}, "spot, with its level"});
        if (spots.size() > most_levels) return;
        for (const ground::BookSpot& spot : spots) {
            sheet::Label words = label({}, level_words(book_, spot.level), small_type);
            words.cleared = true;
            drawing.place(words, places_around(frame.at(spot.e, spot.n), 1, small_type),
                          book_.name(spot.name));
        }
    }

    static void fill(Drawing& drawing, const PlanFrame& frame, const Patches& patches, Ink ink,
                     sheet::Pattern pattern) {
        const auto placed = [&frame](const std::vector<EastNorth>& ring) {
            std::vector<At> places;
            places.reserve(ring.size());
            for (const EastNorth& at : ring) places.push_back(on(frame, at));
            return places;
        };
        for (const PatchArea& area : patches.areas) {
            std::vector<std::vector<At>> holes;
            for (const std::vector<EastNorth>& hole : area.holes) holes.push_back(placed(hole));
            drawing.area(placed(area.outline), ink, pattern, std::move(holes));
        }
    }

    void draw_patches(Drawing& drawing, const PlanFrame& frame, const Patches& patches,
                      const std::string& word, Ink ink, sheet::Pattern pattern) {
        if (patches.areas.empty()) return;
        fill(drawing, frame, patches, ink, pattern);
        legend_.push_back({Hatched{ink, pattern}, word == "CUT" ? "CUT: dig here" : "FILL: bring up here"});
    }

    // Once or twice, where there is most of it.
    static void draw_words(Drawing& drawing, const PlanFrame& frame, const Patches& patches,
                           const std::string& word) {
        sheet::Label words = label({}, word, word_size);
        words.bold = true;
        words.cleared = true;
        std::vector<LabelPlace> places;
        for (const Patch& patch : patches.places) {
            const At at = on(frame, patch.middle);
            places.push_back({{at.x, at.y + word_size * 0.36}, Anchor::Middle});
        }
        drawing.place(words, places);
    }

    void draw_digs(Drawing& drawing, const PlanFrame& frame, const ground::SurfaceVolume& volume) {
        const std::vector<ground::BookSpot>& spots = surface_.ready.inner;
        if (spots.size() > most_spots) return;
        bool cut = false, filled = false, none = false;
        for (std::size_t i = 0; i < spots.size() && i < volume.digs.size(); ++i) {
            const double dig = volume.digs[i].dig;
            if (std::isnan(dig)) continue;
            const double shown = rounded_to(book_.in_unit(dig), 3);
            const sheet::Mark mark = shown > 0   ? sheet::Mark::DigWedge
                                     : shown < 0 ? sheet::Mark::FillWedge
                                                 : sheet::Mark::OnBar;
            (shown > 0 ? cut : shown < 0 ? filled : none) = true;
            drawing.mark({frame.at(spots[i].e, spots[i].n), mark, 2, 0,
                          shown > 0   ? Ink::Dig
                          : shown < 0 ? Ink::Fill
                                      : Ink::Line},
                         book_.name(spots[i].name));
        }
        for (std::size_t i = 0; spots.size() <= most_levels && i < spots.size() && i < volume.digs.size();
             ++i) {
            if (std::isnan(volume.digs[i].dig)) continue;
            sheet::Label words = label({}, level_words(book_, std::fabs(volume.digs[i].dig)), small_type);
            words.cleared = true;
            drawing.place(words, places_around(frame.at(spots[i].e, spots[i].n), 1.3, small_type),
                          book_.name(spots[i].name));
        }
        const std::string unit = " (" + unit_words(book_) + ")";
        if (cut) legend_.push_back({Marked{sheet::Mark::DigWedge, Ink::Dig}, "so deep to dig" + unit});
        if (filled) legend_.push_back({Marked{sheet::Mark::FillWedge, Ink::Fill}, "so high to fill" + unit});
        if (none) legend_.push_back({Marked{sheet::Mark::OnBar, Ink::Line}, "on grade"});
    }

    const Evaluation& evaluation_;
    const Book& book_;
    const ground::SurveyedSurface& surface_;
    const ground::Sheet& sheet_;
    Room room_;
    std::string name_;
    Extent extent_;
    std::vector<LegendEntry> legend_;
};

}  // namespace

std::vector<sheet::Figure> surface_plan(const Evaluation& evaluation, std::size_t surface, Room room) {
    std::vector<sheet::Figure> figures;
    const ground::SurveyedSurface* found = nullptr;
    const NameId name = evaluation.book->surfaces[surface].name;
    for (const ground::SurveyedSurface& each : evaluation.surveys.surfaces) {
        if (each.ready.entry->name == name) found = &each;
    }
    if (found == nullptr || !found->made) return figures;
    SurfacePlan plan(evaluation, *found, room);
    figures.push_back(plan.levels());
    for (const ground::SurfaceVolume& volume : found->volumes) {
        if (volume.target != nullptr) figures.push_back(plan.earthwork(volume));
    }
    return figures;
}

}  // namespace fallwright::record
