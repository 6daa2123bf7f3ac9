#include <cmath>

#include "desk/absent.h"
#include "desk/evaluation_out.h"
#include "quantity/gradient.h"

namespace fallwright {

namespace {

using ground::BestPlane;
using ground::BookSpot;
using ground::Earthwork;
using ground::Flatness;
using ground::OffPlane;
using ground::SurfacePond;
using ground::SurfaceVolume;
using ground::SurveyedSurface;
using ground::WaterCorner;

class SurfaceWriter : EvaluationOut {
  public:
    SurfaceWriter(const Evaluation& evaluation, JsonOut& out) : EvaluationOut(evaluation, out) {}

    void write() {
        if (evaluation_.surveys.surfaces.empty()) return;
        out_.key("surfaces").begin_array();
        for (const SurveyedSurface& surface : evaluation_.surveys.surfaces) write_surface(surface);
        out_.end_array();
    }

  private:
    void write_surface(const SurveyedSurface& surface) {
        const std::vector<BookSpot>& spots = surface.ready.inner;
        out_.begin_object().text("name", book_.names.text(surface.ready.entry->name));
        out_.key("points").begin_array();
        for (std::size_t i = 0; i < spots.size(); ++i)
            write_spot(spots[i], surface.plane ? surface.plane->off[i] : NAN);
        out_.end_array();
        out_.integer("triangles", static_cast<std::int64_t>(surface.ready.sheet.triangles.size()));
        area("area", surface.made ? surface.area : NAN);
        write_end("lowest", spots, surface.lowest);
        write_end("highest", spots, surface.highest);
        out_.key("plane");
        surface.plane ? write_plane(*surface.plane, spots) : static_cast<void>(out_.null());
        out_.key("volumes").begin_array();
        for (const SurfaceVolume& volume : surface.volumes) write_volume(volume, spots);
        out_.end_array().boolean("drains", surface.made && surface.water.drains).key("ponds").begin_array();
        for (const SurfacePond& pond : surface.water.ponds) write_pond(pond);
        out_.end_array().integer("ponds_more", static_cast<std::int64_t>(surface.water.more));
        out_.key("flatness").begin_array();
        for (const Flatness& flatness : surface.flatness) write_flatness(flatness, spots);
        out_.end_array().key("contours").begin_array();
        for (const ground::SurfaceContour& contour : surface.contours) write_contour(contour);
        out_.end_array().key("levels").begin_array();
        for (const ground::GridLevel& corner : surface.levels) {
            out_.begin_object();
            length("e", corner.e);
            length("n", corner.n);
            length("level", corner.level);
            length("sd", corner.sd);
            out_.end_object();
        }
        out_.end_array().end_object();
    }

    void write_contour(const ground::SurfaceContour& contour) {
        out_.begin_object();
        length("level", contour.level);
        out_.boolean("closed", contour.closed).key("line").begin_array();
        for (const ground::EastNorth& at : contour.at) {
            out_.begin_array().number(book_.in_unit(at.e), length_places);
            out_.number(book_.in_unit(at.n), length_places).end_array();
        }
        out_.end_array().end_object();
    }

    // Powers of the book's unit.
    void area(std::string_view key, double square_metres) {
        const double unit = book_.metres_per_unit();
        out_.figures(key, square_metres / (unit * unit), significant_figures);
    }
    void volume(std::string_view key, double cubic_metres) {
        const double unit = book_.metres_per_unit();
        out_.figures(key, cubic_metres / (unit * unit * unit), significant_figures);
    }
    void bearing(std::string_view key, double degrees) { out_.figures(key, degrees, significant_figures); }

    void write_spot(const BookSpot& spot, double off_plane) {
        out_.begin_object().text("point", book_.names.text(spot.name));
        length("e", spot.e);
        length("n", spot.n);
        length("level", spot.level);
        length("sd", model_.levels[static_cast<std::size_t>(spot.point)].sd);
        length("off_plane", off_plane);
        out_.end_object();
    }

    void write_end(std::string_view key, const std::vector<BookSpot>& spots, std::int32_t at) {
        out_.key(key);
        if (at < 0) {
            out_.null();
            return;
        }
        const BookSpot& spot = spots[static_cast<std::size_t>(at)];
        out_.begin_object().text("point", book_.names.text(spot.name));
        length("level", spot.level);
        out_.end_object();
    }

    void write_plane(const BestPlane& plane, const std::vector<BookSpot>& spots) {
        out_.begin_object();
        length("e", plane.e);
        length("n", plane.n);
        length("level", plane.level);
        length("sd", plane.level_sd);
        with_sd("east", plane.slope.east, plane.east_sd);
        with_sd("north", plane.slope.north, plane.north_sd);
        with_sd("gradient", plane.steepest, plane.steepest_sd);
        out_.figures("one_in", Gradient::ratio(plane.steepest).one_in().value_or(NAN), significant_figures);
        bearing("falls_to", plane.falls_to);
        bearing("bearing", bearing_of(plane.heading.e, plane.heading.n));
        with_sd("main", plane.along.main, plane.along_sd.main);
        with_sd("cross", plane.along.cross, plane.along_sd.cross);
        length("rms", plane.rms);
        write_off("high", plane.highest, spots);
        write_off("low", plane.lowest, spots);
        out_.end_object();
    }

    void with_sd(const std::string& key, double value, double sd) {
        gradient(key, value);
        gradient(key + "_sd", sd);
    }

    void write_off(std::string_view key, const OffPlane& off, const std::vector<BookSpot>& spots) {
        out_.key(key).begin_object().text("point",
                                          book_.names.text(spots[static_cast<std::size_t>(off.spot)].name));
        length("off", off.off);
        length("sd", off.sd);
        out_.end_object();
    }

    void write_volume(const SurfaceVolume& found, const std::vector<BookSpot>& spots) {
        const SurfaceTarget& target = *found.target;
        out_.begin_object();
        text_or_null(out_, "name", book_.names.text(target.name));
        text_or_null(out_, "surface", book_.names.text(target.surface));
        length("level", target.level.value);
        length("by", target.by);
        area("area", found.area);
        volume("cut", found.work.cut);
        volume("cut_sd", found.cut_sd);
        volume("fill", found.work.fill);
        volume("fill_sd", found.fill_sd);
        volume("net", found.work.net());
        volume("net_sd", found.net_sd);
        area("cut_area", found.work.cut_area);
        area("fill_area", found.work.fill_area);
        volume("strip", found.strip);
        volume("loose", found.loose);
        volume("surplus", found.surplus);
        volume("surplus_sd", found.surplus_sd);
        write_balance(found);
        out_.key("digs").begin_array();
        for (std::size_t i = 0; i < found.digs.size(); ++i) {
            out_.begin_object().text("point", book_.names.text(spots[i].name));
            length("dig", found.digs[i].dig);
            length("sd", found.digs[i].sd);
            out_.end_object();
        }
        out_.end_array().end_object();
    }

    void write_balance(const SurfaceVolume& found) {
        out_.key("balance");
        if (std::isnan(found.raised)) {
            out_.null();
            return;
        }
        out_.begin_object();
        length("raised", found.raised);
        length("sd", found.raised_sd);
        length("level", found.target->level.value + found.raised);
        volume("cut", found.balanced.cut);
        volume("fill", found.balanced.fill);
        out_.end_object();
    }

    void write_pond(const SurfacePond& pond) {
        out_.begin_object();
        write_corner("low", pond.low);
        write_corner("sill", pond.sill);
        length("depth", pond.depth);
        length("sd", pond.depth_sd);
        out_.number("probability", pond.probability, probability_places);
        area("area", pond.area);
        volume("volume", pond.volume);
        volume("volume_sd", pond.volume_sd);
        out_.end_object();
    }

    void write_corner(std::string_view key, const WaterCorner& corner) {
        out_.key(key).begin_object();
        text_or_null(out_, "point", book_.names.text(corner.name));
        length("e", corner.e);
        length("n", corner.n);
        length("level", corner.level);
        out_.end_object();
    }

    void write_flatness(const Flatness& found, const std::vector<BookSpot>& spots) {
        const preset::FlatnessPreset& preset = *found.preset;
        out_.begin_object().text("preset", preset.name);
        out_.text("provenance", preset::provenance_word(preset.source.provenance));
        out_.text("rule", preset::flatness_rule_word(found.criterion->rule));
        out_.integer("checks", static_cast<std::int64_t>(found.checks));
        out_.integer("outside", static_cast<std::int64_t>(found.outside));
        out_.number("share", found.criterion->share, probability_places);
        length("longest", found.checks > 0 ? found.longest : NAN);
        length("reach", found.reach);
        write_worst(found, spots);
        out_.key("plain");
        if (found.checks == 0) {
            out_.null();
        } else {
            out_.text(found.plain_within ? "within" : "outside");
        }
        out_.number("probability", found.probability, probability_places);
        out_.text("verdict", verdict_word(found.verdict)).end_object();
    }

    void write_worst(const Flatness& found, const std::vector<BookSpot>& spots) {
        out_.key("worst");
        if (found.checks == 0) {
            out_.null();
            return;
        }
        out_.begin_object().key("points").begin_array();
        for (const std::int32_t spot : found.worst.spots) {
            if (spot >= 0) out_.text(book_.names.text(spots[static_cast<std::size_t>(spot)].name));
        }
        out_.end_array();
        length("base", found.worst.base);
        length("value", found.worst.value);
        length("sd", found.worst.sd);
        length("limit", found.worst.limit);
        out_.end_object();
    }
};

}  // namespace

void write_surfaces(const Evaluation& evaluation, JsonOut& out) {
    SurfaceWriter(evaluation, out).write();
}

}  // namespace fallwright
