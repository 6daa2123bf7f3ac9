#include "fall/falls.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace fallwright {

namespace {

constexpr double same_chainage = 0.001;  // as in the names of points
constexpr double same_level = 1e-6;      // metres: inverts of a chamber that are one

bool is_laid(std::string_view what) {
    return what == "laid" || what == "laid in" || what == "laid out";
}

class FallLister {
  public:
    FallLister(const Book& book, const Design& design, const Model& model)
        : book_(book), design_(design), model_(model), with_chainage_(runs_with(design, model)) {}

    void list(const LaidSurface& surface) {
        surface_ = &surface;
        const std::vector<const Station*>& stations = surface.stations;
        for (std::size_t i = 1; i < stations.size(); ++i) add(stations[i - 1], stations[i], Span::Neighbour);
        if (design_.heights().find(surface.what).any()) {
            for (const Pipe* pipe : design_.pipes().pipes()) add_pipe(*pipe);
        }
        if (is_laid(surface.what)) add_chambers();
        if (!stations.empty()) add(stations.front(), stations.back(), Span::Line);
    }

    std::vector<FoundFall> falls;

  private:
    static bool runs_with(const Design& design, const Model& model) {
        return design.runs_with_chainage(levels_found(model));
    }

    void add(const Station* from, const Station* to, Span span) {
        if (from == nullptr || to == nullptr) return;
        const double length = to->ch - from->ch;
        if (length < least_chainage) return;
        const auto level = [this](const Station* station) {
            return model_.levels[static_cast<std::size_t>(station->point)].level;
        };
        const double sign = with_chainage_ ? -1 : 1;
        const std::array<PointTerm, 2> sum = {{{to->point, 1}, {from->point, -1}}};
        const double sd = std::sqrt(std::max(0.0, model_.variance_of(sum))) / length;
        const double gradient = sign * (level(to) - level(from)) / length;
        falls.push_back({from->ch, to->ch, surface_->what, span, gradient, sd, from, to});
    }

    // laid in, seen by chainage: whether the staff stood where the pipe from smaller chainages ends.
    bool is_before(const Station& station) const {
        const std::string_view what = book_.names.text(station.what);
        return (what == "laid in" && with_chainage_) || (what == "laid out" && !with_chainage_);
    }
    bool is_after(const Station& station) const {
        const std::string_view what = book_.names.text(station.what);
        return (what == "laid in" && !with_chainage_) || (what == "laid out" && with_chainage_);
    }
    bool has_one_invert(double ch) const {
        const double step = difference(design_.level("laid in", ch), design_.level("laid out", ch));
        return std::fabs(step) < same_level;
    }

    // The reading at which a pipe ends: the last one in it.
    const Station* end_of(double from, double to) const {
        const Station* other_side = nullptr;
        for (auto at = surface_->stations.rbegin(); at != surface_->stations.rend(); ++at) {
            const Station* station = *at;
            if (station->ch > to + least_chainage) continue;
            if (station->ch < from - least_chainage) break;
            const bool at_end = station->ch > to - least_chainage;
            if (!at_end || !is_after(*station)) return at_end || other_side == nullptr ? station : other_side;
            if (has_one_invert(station->ch)) other_side = station;
        }
        return other_side;
    }

    const Station* start_of(double from, double to) const {
        const Station* other_side = nullptr;
        for (const Station* station : surface_->stations) {
            if (station->ch < from - least_chainage) continue;
            if (station->ch > to + least_chainage) break;
            const bool at_start = station->ch < from + least_chainage;
            if (!at_start || !is_before(*station))
                return at_start || other_side == nullptr ? station : other_side;
            if (has_one_invert(station->ch)) other_side = station;
        }
        return other_side;
    }

    void add_pipe(const Pipe& pipe) {
        add(start_of(pipe.from, pipe.to), end_of(pipe.from, pipe.to), Span::Pipe);
    }

    // Only from chamber to chamber: a reading between them does not stand in for one at a chamber.
    void add_chambers() {
        std::vector<double> chainages;
        for (const Chamber& chamber : design_.line().chambers) chainages.push_back(chamber.ch);
        std::sort(chainages.begin(), chainages.end());
        for (std::size_t i = 1; i < chainages.size(); ++i) {
            const Station* from = start_of(chainages[i - 1], chainages[i]);
            const Station* to = end_of(chainages[i - 1], chainages[i]);
            const auto at = [](const Station* station, double ch) {
                return station != nullptr && std::fabs(station->ch - ch) < least_chainage;
            };
            if (at(from, chainages[i - 1]) && at(to, chainages[i])) add(from, to, Span::Chambers);
        }
    }

    const Book& book_;
    const Design& design_;
    const Model& model_;
    const bool with_chainage_;
    const LaidSurface* surface_ = nullptr;
};

void sort_along(std::vector<LaidSurface>& surfaces, const Book& book, bool with_chainage) {
    const auto later = [&](const Station* station) {
        const std::string_view what = book.names.text(station->what);
        return what == "laid in" ? !with_chainage : with_chainage;
    };
    for (LaidSurface& surface : surfaces) {
        std::sort(surface.stations.begin(), surface.stations.end(), [&](const Station* a, const Station* b) {
            const long long left = std::llround(a->ch / same_chainage);
            const long long right = std::llround(b->ch / same_chainage);
            return left != right ? left < right : later(a) < later(b);
        });
    }
}

}  // namespace

std::string_view span_word(Span span) {
    switch (span) {
        case Span::Pipe:
            return "pipe";
        case Span::Chambers:
            return "chambers";
        case Span::Line:
            return "line";
        default:
            return "neighbour";
    }
}

LevelOf levels_found(const Model& model) {
    return [&model](NameId name) {
        const std::int32_t point = model.points.at(name);
        return point < 0 ? NAN : model.levels[static_cast<std::size_t>(point)].level;
    };
}

std::vector<LaidSurface> laid_surfaces(const Book& book, const Design& design, const LineFalls& found,
                                       const Model& model) {
    const bool joined = !design.line().chambers.empty();
    std::vector<LaidSurface> surfaces;
    for (const Station& station : found.stations) {
        const bool has_level = !std::isnan(model.levels[static_cast<std::size_t>(station.point)].level);
        if (std::fabs(station.off) >= least_offset || !has_level) continue;
        std::string_view what = book.names.text(station.what);
        if (joined && is_laid(what)) what = "laid";
        const auto of_it = [what](const LaidSurface& surface) { return surface.what == what; };
        auto surface = std::find_if(surfaces.begin(), surfaces.end(), of_it);
        if (surface == surfaces.end()) surface = surfaces.insert(surfaces.end(), LaidSurface{what, {}});
        surface->stations.push_back(&station);
    }
    sort_along(surfaces, book, design.runs_with_chainage(levels_found(model)));
    return surfaces;
}

std::vector<FoundFall> list_falls(const Book& book, const Design& design, const LineFalls& found,
                                  const Model& model) {
    FallLister lister(book, design, model);
    for (const LaidSurface& surface : laid_surfaces(book, design, found, model)) lister.list(surface);
    return std::move(lister.falls);
}

bool said_as_pipe(const FoundFall& fall, const std::vector<FoundFall>& all) {
    return fall.span == Span::Neighbour &&
           std::any_of(all.begin(), all.end(), [&fall](const FoundFall& other) {
               return other.span == Span::Pipe && other.start == fall.start && other.end == fall.end;
           });
}

}  // namespace fallwright
