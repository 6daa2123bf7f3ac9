#include "exchange/handover/entries.h"

#include <algorithm>
#include <array>
#include <map>
#include <memory>
#include <set>
#include <utility>

#include "base/json_out.h"
#include "base/print.h"
#include "exchange/handover/known_points.h"
#include "exchange/handover/surface_edges.h"
#include "quantity/unit.h"

namespace fallwright::handover {

namespace {

constexpr std::size_t longest_entry = 60000;  // of the 64 KiB of a line: the tools add id, at and by
constexpr std::size_t most_entries = 400000;

bool is_use(const std::string& word) {
    constexpr std::array<std::string_view, 5> uses = {"drain", "road", "kerb", "slab", "other"};
    return std::find(uses.begin(), uses.end(), word) != uses.end();
}

std::vector<std::string> where(std::uint32_t line, std::string what) {
    std::vector<std::string> about;
    if (line > 0) about.push_back("line " + std::to_string(line));
    about.push_back(std::move(what));
    return about;
}

class Writer {
  public:
    Writer(const Handover& from, const Book* into, const Intake& intake)
        : from_(from), into_(into), intake_(intake), known_(into) {
        unit_ = into != nullptr       ? into->unit
                : intake.unit.empty() ? from.unit
                : intake.unit == "ft" ? Unit::Foot
                                      : Unit::Metre;
    }

    Prepared all() {
        if (into_ == nullptr) book();
        remark("imported from " + source());
        for (const Line& line : from_.lines) this->line(line);
        for (const Point& point : from_.points) this->point(point);
        for (const Surface& surface : from_.surfaces) this->surface(surface);
        notes();
        if (failed_) made_.lines.clear();
        return std::move(made_);
    }

  private:
    std::string source() const { return intake_.source.empty() ? "a file" : intake_.source; }

    static JsonOut entry(std::string_view kind) {
        JsonOut json;
        json.begin_object().text("kind", kind);
        return json;
    }

    void refuse(Code code, std::vector<std::string> about, std::string message, std::string cure = {}) {
        constexpr std::size_t most = 20;
        failed_ = true;
        if (++refused_ > most) return;
        made_.findings.push_back(cure.empty()
                                     ? finding(code, std::move(about), std::move(message))
                                     : finding(code, std::move(about), std::move(message), std::move(cure)));
    }

    void note(Code code, std::string message) {
        made_.findings.push_back(finding(code, {}, std::move(message)));
    }

    void add(JsonOut& json, const std::vector<std::string>& about) {
        json.end_object();
        std::string line = json.take();
        if (line.size() > longest_entry)
            return refuse(Code::ImportTooLarge, about, "it is longer than one entry of a book may be",
                          "split it, or thin it out, in the program it is from");
        if (made_.lines.size() == most_entries)
            return refuse(Code::ImportTooLarge, {},
                          "the file gives more than " + std::to_string(most_entries) + " entries");
        if (!failed_) made_.lines.push_back(std::move(line));
    }

    // A length in the book's unit.
    std::string written(double metres) const {
        constexpr int metre_places = 7, foot_places = 8;
        return unit_ == Unit::Foot ? trimmed(metres / metres_per_foot, foot_places)
                                   : trimmed(metres, metre_places);
    }
    void length(JsonOut& json, std::string_view name, double metres) const {
        if (known(metres)) json.key(name).raw(written(metres));
    }

    void book() {
        JsonOut json = entry("book");
        json.text("format", "fallwright").integer("version", 1);
        const std::string& title = intake_.title.empty() ? from_.title : intake_.title;
        const std::string& datum = intake_.datum.empty() ? from_.datum : intake_.datum;
        if (!title.empty()) json.text("title", title);
        if (!datum.empty()) json.text("datum", datum);
        json.text("unit", unit_ == Unit::Foot ? "ft" : "m");
        add(json, {});
    }

    void remark(const std::string& text) {
        JsonOut json = entry("remark");
        json.text("text", text);
        add(json, {});
    }

    void place(const Point& point) {
        const Said said = known_.place(point);
        if (said == Said::Same) return void(++same_);
        if (said == Said::Other)
            return refuse(Code::ImportTaken, where(point.line, point.name),
                          "the book has it at another place than the file");
        JsonOut json = entry("place");
        json.text("point", point.name);
        if (point.on.empty()) {
            length(json, "e", point.e);
            length(json, "n", point.n);
        } else {
            json.text("line", point.on);
            length(json, "ch", point.ch);
            if (point.off != 0) length(json, "off", point.off);
        }
        add(json, where(point.line, point.name));
    }

    void level(const Point& point) {
        if (point.standing == Standing::Wanted) return void(++wanted_);
        const Said said = known_.level(point);
        if (said == Said::Same) return void(++same_);
        const bool held = point.standing == Standing::Held;
        if (said == Said::Other && held)
            return refuse(Code::ImportTaken, where(point.line, point.name),
                          "the book has another level for it than the file");
        if (!held && known_.speaks_of(point.name)) return void(++same_);
        JsonOut json = entry("benchmark");
        json.text("point", point.name);
        length(json, "level", point.level);
        if (!held) {
            if (!known(point.sd)) ++assumed_;
            // 0 would hold it fixed, which a measured level never is.
            const double sd = known(point.sd) ? std::max(point.sd, least_sd) : intake_.sd;
            json.key("sd").raw(written(sd));
        }
        std::string from = point.line > 0 ? source() + ", line " + std::to_string(point.line) : source();
        if (!point.note.empty()) from = point.note + " (" + from + ")";
        json.text("source", from);
        add(json, where(point.line, point.name));
    }

    void point(const Point& point) {
        if (point.name.empty())
            return refuse(Code::ImportElement, where(point.line, "point"), "it has no name",
                          "give every point a name; nothing has been imported");
        const auto [other, is_new] = points_.emplace(point.name, &point);
        if (!is_new) return twice(point, *other->second);
        if (point.placed() || !point.on.empty()) place(point);
        if (known(point.level)) level(point);
    }

    void twice(const Point& point, const Point& other) {
        const auto apart = [](double a, double b) {
            return known(a) && known(b) && std::fabs(a - b) >= same_length;
        };
        if (apart(point.e, other.e) || apart(point.n, other.n) || apart(point.level, other.level))
            refuse(Code::ImportElement, where(point.line, point.name),
                   "its name stands for another point in line " + std::to_string(other.line),
                   "give the two points names of their own; nothing has been imported");
    }

    bool line_in_book(const std::string& name) const {
        return into_ != nullptr && ByName(into_->lines)(into_->names.find(name)) >= 0;
    }

    // A profile steps at chambers only: where the file steps without one, one is made.
    static Line with_steps(Line line) {
        const std::vector<Corner>& profile = line.profile;
        if (profile.empty()) return line;
        const bool falls = profile.front().after >= profile.back().before;
        const bool with = line.flow == Line::Flow::Unknown ? falls : line.flow == Line::Flow::With;
        for (std::size_t i = 1; i + 1 < profile.size(); ++i) {
            const Corner& corner = profile[i];
            const auto here = [&](const Chamber& chamber) {
                return std::fabs(chamber.ch - corner.ch) < same_chainage && known(chamber.out);
            };
            if (std::fabs(corner.before - corner.after) < least_sd ||
                std::any_of(line.chambers.begin(), line.chambers.end(), here))
                continue;
            line.chambers.push_back({"", corner.ch, with ? corner.before : corner.after,
                                     with ? corner.after : corner.before, unknown, unknown});
        }
        return line;
    }

    void line(const Line& given) {
        const Line line = with_steps(given);
        const std::vector<std::string> about = where(line.line, line.name);
        if (line.name.empty())
            return refuse(Code::ImportElement, where(line.line, "line"), "it has no name",
                          "give every line a name; nothing has been imported");
        if (line_in_book(line.name))
            return refuse(Code::ImportTaken, about, "the book has a line of that name");
        if (!lines_.insert(line.name).second)
            return refuse(Code::ImportElement, about, "two lines of the file have that name",
                          "give them names of their own; nothing has been imported");
        JsonOut json = entry("line");
        json.text("name", line.name);
        const std::string& use = is_use(line.use) ? line.use : intake_.use;
        if (!use.empty()) json.text("use", use);
        plan(json, line);
        profile(json, line);
        if (line.flow != Line::Flow::Unknown && !(line.pipes.empty() && line.chambers.empty()))
            json.text("flow", line.flow == Line::Flow::With ? "with" : "against");
        pipes(json, line);
        chambers(json, line);
        add(json, about);
    }

    void plan(JsonOut& json, const Line& line) const {
        if (line.start != 0) length(json, "start", line.start);
        if (line.plan.empty()) return;
        json.key("plan").begin_array();
        for (const EastNorth& at : line.plan)
            json.begin_array().raw(written(at.e)).raw(written(at.n)).end_array();
        json.end_array();
    }

    // Corners that a chamber gives with both its inverts are left to the chamber, but at the ends, between
    // which a profile reaches.
    static bool left_to_chamber(const Line& line, std::size_t corner) {
        if (corner == 0 || corner + 1 == line.profile.size()) return false;
        if (line.profile[corner].curve != 0) return false;
        for (const Chamber& chamber : line.chambers) {
            if (std::fabs(chamber.ch - line.profile[corner].ch) < same_chainage && known(chamber.out))
                return true;
        }
        return false;
    }

    void profile(JsonOut& json, const Line& line) const {
        if (line.profile.empty()) return;
        json.key("profile").begin_array();
        for (std::size_t i = 0; i < line.profile.size(); ++i) {
            if (left_to_chamber(line, i)) continue;
            const Corner& corner = line.profile[i];
            json.begin_object();
            length(json, "ch", corner.ch);
            length(json, "level", i + 1 == line.profile.size() ? corner.before : corner.after);
            if (corner.curve != 0) length(json, "curve", corner.curve);
            json.end_object();
        }
        json.end_array();
    }

    void pipes(JsonOut& json, const Line& line) const {
        if (line.pipes.empty()) return;
        json.key("pipes").begin_array();
        for (const Pipe& pipe : line.pipes) {
            json.begin_object();
            length(json, "from", pipe.from);
            length(json, "to", pipe.to);
            length(json, "bore", pipe.bore);
            length(json, "wall", pipe.wall);
            json.end_object();
        }
        json.end_array();
    }

    void chambers(JsonOut& json, const Line& line) const {
        if (line.chambers.empty()) return;
        json.key("chambers").begin_array();
        for (const Chamber& chamber : line.chambers) {
            json.begin_object();
            // A book wants every chamber named.
            json.text("name", chamber.name.empty() ? line.name + " " + fixed(chamber.ch, 3) : chamber.name);
            length(json, "ch", chamber.ch);
            length(json, "in", chamber.in);
            if (!(chamber.in == chamber.out)) length(json, "out", chamber.out);
            length(json, "cover", chamber.cover);
            length(json, "size", chamber.size);
            json.end_object();
        }
        json.end_array();
    }

    // A spot is the point at its place and level where there is one; else it gets a name of its own.
    std::string spot_name(const Surface& surface, std::size_t index) {
        const Spot& spot = surface.spots[index];
        if (!spot.name.empty()) {
            const auto found = points_.find(spot.name);
            if (found != points_.end() && is_there(*found->second, spot)) return spot.name;
        }
        for (const Point* point : near(spot)) {
            if (is_there(*point, spot)) return point->name;
        }
        const std::string base = spot.name.empty() ? surface.name + " " + std::to_string(index + 1)
                                                   : surface.name + " " + spot.name;
        std::string name = base;
        for (int more = 2; points_.count(name) > 0; ++more) name = base + " (" + std::to_string(more) + ")";
        Point& point = *made_points_.emplace(made_points_.end(), std::make_unique<Point>())->get();
        point.name = name;
        point.e = spot.e;
        point.n = spot.n;
        point.level = spot.level;
        point.line = surface.line;
        cells_[cell_of(point.e, point.n)].push_back(&point);
        this->point(point);
        return name;
    }

    static bool is_there(const Point& point, const Spot& spot) {
        return point.standing != Standing::Wanted && std::fabs(point.e - spot.e) < same_length &&
               std::fabs(point.n - spot.n) < same_length && std::fabs(point.level - spot.level) < same_length;
    }

    using Cell = std::pair<long long, long long>;
    static Cell cell_of(double e, double n) {
        constexpr double per_metre = 1000;
        return {std::llround(e * per_metre), std::llround(n * per_metre)};
    }
    std::vector<const Point*> near(const Spot& spot) {
        if (!celled_) {
            celled_ = true;
            for (const Point& point : from_.points) {
                if (point.placed()) cells_[cell_of(point.e, point.n)].push_back(&point);
            }
        }
        std::vector<const Point*> all;
        const Cell middle = cell_of(spot.e, spot.n);
        for (long long de = -1; de <= 1; ++de) {
            for (long long dn = -1; dn <= 1; ++dn) {
                const auto found = cells_.find({middle.first + de, middle.second + dn});
                if (found != cells_.end()) all.insert(all.end(), found->second.begin(), found->second.end());
            }
        }
        return all;
    }

    bool surface_in_book(const std::string& name) const {
        return into_ != nullptr && ByName(into_->surfaces)(into_->names.find(name)) >= 0;
    }

    void surface(const Surface& surface) {
        const std::vector<std::string> about = where(surface.line, surface.name);
        if (surface_in_book(surface.name))
            return refuse(Code::ImportTaken, about, "the book has a surface of that name");
        if (!surfaces_.insert(surface.name).second || surface.name.empty())
            return refuse(Code::ImportElement, about, "surfaces of the file need names of their own",
                          "name every surface differently; nothing has been imported");
        // A surface names its points in one entry.
        constexpr std::size_t most_spots = 20000;
        if (surface.spots.size() > most_spots)
            return refuse(Code::ImportTooLarge, about,
                          "a surface of " + std::to_string(surface.spots.size()) +
                              " points; a book holds one of some thousands",
                          "thin it out, or cut out the part of the job, in the program it is from");
        const Result<SurfaceEdges> edges = edges_of(surface);
        if (!edges) return refuse(edges.finding().code, edges.finding().about, edges.finding().message);
        if (edges->holes > 0)
            note(Code::ImportNotUsed,
                 "surface " + surface.name + " has holes, which are closed over in the book");
        std::vector<std::string> names;
        for (std::size_t i = 0; i < surface.spots.size(); ++i) names.push_back(spot_name(surface, i));
        JsonOut json = entry("surface");
        json.text("name", surface.name).key("points").begin_array();
        for (const std::string& name : names) json.text(name);
        json.end_array();
        if (!edges->breaklines.empty()) {
            json.key("breaklines").begin_array();
            for (const std::vector<std::int32_t>& chain : edges->breaklines) {
                json.begin_array();
                for (const std::int32_t spot : chain) json.text(names[static_cast<std::size_t>(spot)]);
                json.end_array();
            }
            json.end_array();
        }
        if (!edges->outline.empty()) {
            json.key("inside").begin_array();
            for (const std::int32_t spot : edges->outline) {
                const Spot& at = surface.spots[static_cast<std::size_t>(spot)];
                json.begin_array().raw(written(at.e)).raw(written(at.n)).end_array();
            }
            json.end_array();
        }
        add(json, about);
    }

    void notes() {
        if (failed_) return;
        const auto counted = [](std::size_t count, const char* one, const char* many) {
            return std::to_string(count) + " " + (count == 1 ? one : many);
        };
        if (same_ > 0)
            note(Code::ImportSame, counted(same_, "place or level is", "places and levels are") +
                                       " the book's own already; not added again");
        if (wanted_ > 0)
            note(Code::ImportNotUsed, counted(wanted_, "level that is", "levels that are") +
                                          " wanted, not measured, not taken as known; the places are");
        if (assumed_ > 0 && !intake_.sd_given)
            note(Code::ImportAssumed, counted(assumed_, "measured level without", "measured levels without") +
                                          " an uncertainty: one standard deviation of " +
                                          trimmed(intake_.sd * 1000, 1) + " mm is assumed");
    }

    static constexpr double least_sd = 0.00001;
    static constexpr double same_chainage = 0.0005;

    const Handover& from_;
    const Book* into_;
    const Intake& intake_;
    KnownPoints known_;
    Unit unit_ = Unit::Metre;
    Prepared made_;
    bool failed_ = false;
    std::size_t refused_ = 0, same_ = 0, wanted_ = 0, assumed_ = 0;
    std::map<std::string, const Point*> points_;
    std::vector<std::unique_ptr<Point>> made_points_;
    std::set<std::string> lines_, surfaces_;
    std::map<Cell, std::vector<const Point*>> cells_;  // points by the millimetre they stand on
    bool celled_ = false;
};

}  // namespace

Prepared entries_of(const Handover& from, const Book* into, const Intake& intake) {
    return Writer(from, into, intake).all();
}

}  // namespace fallwright::handover
