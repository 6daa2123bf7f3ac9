#include "exchange/handover/gather.h"

#include <algorithm>
#include <unordered_map>

#include "design/vertices.h"

namespace fallwright::handover {

namespace {

constexpr std::array<const char*, 5> use_words = {"drain", "road", "kerb", "slab", "other"};

double or_unknown(const Maybe& value) {
    return value.has() ? value.value : unknown;
}

class Gathering {
  public:
    explicit Gathering(const Evaluation& evaluation) : from_(evaluation), book_(*evaluation.book) {}

    Handover all() {
        for (const Benchmark& benchmark : book_.benchmarks) {
            if (benchmark.sd == 0) held_.emplace(benchmark.point, &benchmark);
        }
        made_.title = book_.title;
        made_.datum = book_.datum;
        made_.unit = book_.unit;
        points();
        for (const Design& design : from_.designs.lines) line(design);
        for (const ground::SurveyedSurface& surface : from_.surveys.surfaces) {
            if (surface.made) this->surface(surface);
        }
        return std::move(made_);
    }

  private:
    void points() {
        const Points& all = from_.model->points;
        std::vector<bool> taken(book_.names.size(), false);
        for (std::size_t i = 0; i < all.size(); ++i) {
            taken[all.name(i)] = true;
            point(all.name(i), static_cast<std::int32_t>(i));
        }
        for (const PlaceEntry& place : book_.places) {
            if (!taken[place.point]) point(place.point, -1);
            taken[place.point] = true;
        }
    }

    void point(NameId name, std::int32_t index) {
        Point made;
        made.name = book_.name(name);
        const Spot* at = name < from_.where.points.size() ? &spot_of(name) : nullptr;
        if (at != nullptr && at->known && at->frame == 0) {
            made.e = at->e;
            made.n = at->n;
        }
        if (index >= 0) {
            const PointLevel& level = from_.model->levels[static_cast<std::size_t>(index)];
            made.level = level.level;
            made.sd = level.sd;
        } else {
            made.standing = Standing::Wanted;
        }
        if (const Benchmark* benchmark = held(name)) {
            made.standing = Standing::Held;
            if (benchmark->source != no_name) made.note = book_.name(benchmark->source);
        }
        if (made.placed() || known(made.level)) made_.points.push_back(std::move(made));
    }

    using Spot = fallwright::Spot;
    const Spot& spot_of(NameId name) const { return from_.where.points[name]; }

    const Benchmark* held(NameId name) const {
        const auto found = held_.find(name);
        return found == held_.end() ? nullptr : found->second;
    }

    double level(const DesignLevel& wanted) const {
        return wanted.value([&](NameId name) {
            const std::int32_t point = from_.model->points.at(name);
            return point < 0 ? unknown : from_.model->levels[static_cast<std::size_t>(point)].level;
        });
    }

    void line(const Design& design) {
        const LineEntry& entry = design.line();
        Line made;
        made.name = book_.name(entry.name);
        made.use = use_words[static_cast<std::size_t>(entry.use)];
        made.start = entry.start;
        for (const auto& [e, n] : entry.plan) made.plan.push_back({e, n});
        if (made.plan.size() < 2) made.plan.clear();
        for (const ProfileVertex& vertex : design.profile().vertices()) {
            Corner corner{vertex.ch, level(vertex.before), level(vertex.after), vertex.curve};
            if (!known(corner.before)) corner.before = corner.after;
            if (!known(corner.after)) corner.after = corner.before;
            for (const RefusedCurve& refused : design.profile().refused()) {
                if (refused.ch == vertex.ch) corner.curve = 0;
            }
            if (known(corner.before)) made.profile.push_back(corner);
        }
        for (const fallwright::Pipe* pipe : design.pipes().pipes())
            made.pipes.push_back({pipe->from, pipe->to, or_unknown(pipe->bore), or_unknown(pipe->wall)});
        const bool with = design.runs_with_chainage([&](NameId name) {
            return level(DesignLevel{0, {{name, 1}}});
        });
        made.flow = with ? Line::Flow::With : Line::Flow::Against;
        for (const fallwright::Chamber* chamber : usable_chambers(entry)) chambers(made, *chamber);
        made_.lines.push_back(std::move(made));
    }

    void chambers(Line& line, const fallwright::Chamber& entry) const {
        Chamber made;
        made.name = entry.name == no_name ? "" : book_.name(entry.name);
        made.ch = entry.ch;
        made.in = or_unknown(entry.in);
        made.out = entry.out.has() ? entry.out.value : made.in;
        made.cover = or_unknown(entry.cover);
        made.size = or_unknown(entry.size);
        line.chambers.push_back(std::move(made));
    }

    void surface(const ground::SurveyedSurface& surface) {
        const ground::Sheet& sheet = surface.ready.sheet;
        Surface made;
        made.name = book_.name(surface.ready.entry->name);
        for (std::size_t i = 0; i < sheet.at.size(); ++i) {
            handover::Spot spot;
            spot.e = sheet.origin.e + sheet.at[i].e;
            spot.n = sheet.origin.n + sheet.at[i].n;
            spot.level = sheet.level[i];
            if (i < sheet.spots()) {
                // As read: the sheet's places are whole millimetres.
                const ground::BookSpot& read =
                    surface.ready.spots.spots[static_cast<std::size_t>(sheet.spot[i])];
                spot = {book_.name(read.name), read.e, read.n, read.level};
            }
            made.spots.push_back(std::move(spot));
        }
        made.faces.assign(sheet.triangles.begin(),
                          sheet.triangles.begin() + static_cast<std::ptrdiff_t>(sheet.whole()));
        made.breaklines = surface.ready.spots.breaklines;
        place_breaklines(made, surface);
        // Without a plan the spots lie on the line's own frame, which no other program knows.
        if (surface.ready.spots.frame == 0) made_.surfaces.push_back(std::move(made));
    }

    // Breaklines count spots as they were put together; the sheet has an order of its own.
    static void place_breaklines(Surface& made, const ground::SurveyedSurface& surface) {
        const ground::Sheet& sheet = surface.ready.sheet;
        std::vector<std::int32_t> corner(surface.ready.spots.spots.size(), -1);
        for (std::size_t i = 0; i < sheet.spots(); ++i)
            corner[static_cast<std::size_t>(sheet.spot[i])] = static_cast<std::int32_t>(i);
        for (std::vector<std::int32_t>& chain : made.breaklines) {
            for (std::int32_t& spot : chain) spot = corner[static_cast<std::size_t>(spot)];
            chain.erase(std::remove(chain.begin(), chain.end(), -1), chain.end());
        }
        made.breaklines.erase(std::remove_if(made.breaklines.begin(), made.breaklines.end(),
                                             [](const auto& chain) { return chain.size() < 2; }),
                              made.breaklines.end());
    }

    const Evaluation& from_;
    const Book& book_;
    std::unordered_map<NameId, const Benchmark*> held_;
    Handover made_;
};

}  // namespace

Handover gather(const Evaluation& evaluation) {
    return Gathering(evaluation).all();
}

}  // namespace fallwright::handover
