#include "record/cross_data.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/stable_order.h"
#include "fall/dig_to.h"
#include "fall/falls.h"

namespace fallwright::record {

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr std::size_t most_surfaces = 3;

// What was read at one place.
struct Read {
    double ch, off;
    std::size_t surface;  // most_surfaces and more: not shown
    Found found;
    double ground = NAN;
};

bool close(double a, double b) {
    return std::fabs(a - b) < least_chainage;
}

class CrossGatherer {
  public:
    CrossGatherer(const Evaluation& evaluation, std::size_t line)
        : evaluation_(evaluation),
          index_(line),
          design_(evaluation.designs.lines[line]),
          level_of_(levels_found(*evaluation.model)) {
        const LineEntry& entry = evaluation.book->lines[line];
        data_.name = evaluation.book->name(entry.name);
        data_.profile = std::string(profile_surface(entry));
        crossfall_ = entry.crossfall.given();
    }

    CrossData run() {
        read_ground();
        read_found();
        sort_stably(read_, [](const Read& a, const Read& b) { return a.ch < b.ch; });
        for (std::size_t from = 0; from < read_.size();) {
            std::size_t to = from;
            while (to < read_.size() && close(read_[to].ch, read_[from].ch)) ++to;
            add(from, to);
            from = to;
        }
        if (data_.sections.empty() && crossfall_ && design_.any()) add_designed();
        return std::move(data_);
    }

  private:
    void read_ground() {
        const Book& book = *evaluation_.book;
        for (const Station& station : evaluation_.lines[index_].stations) {
            if (book.names.text(station.what) != "ground") continue;
            const double level = evaluation_.model->levels[static_cast<std::size_t>(station.point)].level;
            if (!std::isnan(level)) read_.push_back({station.ch, station.off, SIZE_MAX, {}, level});
        }
    }

    void read_found() {
        for (const FoundSurface& surface : found_surfaces(evaluation_, index_)) {
            const auto known = std::find(data_.surfaces.begin(), data_.surfaces.end(), surface.what);
            const auto at = static_cast<std::size_t>(known - data_.surfaces.begin());
            if (at >= most_surfaces) continue;
            if (known == data_.surfaces.end()) data_.surfaces.push_back(surface.what);
            for (const Found& found : surface.found) read_.push_back({found.ch, found.off, at, found, NAN});
        }
    }

    // Only where two places or more lie across the line: one makes no section.
    void add(std::size_t from, std::size_t to) {
        bool across = false;
        for (std::size_t i = from + 1; i < to; ++i)
            across = across || std::fabs(read_[i].off - read_[from].off) >= least_offset;
        if (!across) return;
        CrossSection section = designed(read_[from].ch);
        for (std::size_t i = from; i < to; ++i) take(column_at(section, read_[i].off), read_[i]);
        finish(section);
    }

    static void take(CrossColumn& column, const Read& read) {
        if (!std::isnan(read.ground)) column.ground = read.ground;
        if (read.surface < column.found.size()) column.found[read.surface] = read.found;
    }

    CrossColumn& column_at(CrossSection& section, double off) const {
        for (CrossColumn& each : section.columns) {
            if (close(each.off, off)) return each;
        }
        CrossColumn column;
        column.off = std::fabs(off) < least_offset ? 0 : off;
        column.found.resize(std::min(data_.surfaces.size() + 1, most_surfaces));
        section.columns.push_back(std::move(column));
        return section.columns.back();
    }

    // The line itself, and the edges where the line has them.
    CrossSection designed(double ch) const {
        CrossSection section;
        section.ch = ch;
        if (!design_.any()) return section;
        column_at(section, 0);
        const std::array<Maybe, 2> edges = design_.edges();
        if (edges[0].has()) column_at(section, edges[0].value);
        if (edges[1].has()) column_at(section, edges[1].value);
        return section;
    }

    void finish(CrossSection& section) {
        sort_stably(section.columns,
                    [](const CrossColumn& a, const CrossColumn& b) { return a.off < b.off; });
        const DesignSurface profile = design_.heights().find(data_.profile);
        for (CrossColumn& column : section.columns) {
            if (design_.any())
                column.design = design_.level(profile, section.ch, column.off).value(level_of_);
        }
        data_.sections.push_back(std::move(section));
    }

    void add_designed() {
        double before = -infinite;
        for (const OwnPoint& own : design_.own_points(level_of_)) {
            if (own.ch - before < least_chainage) continue;
            before = own.ch;
            CrossSection section = designed(own.ch);
            if (section.columns.size() > 1) finish(section);
        }
    }

    const Evaluation& evaluation_;
    std::size_t index_;
    const Design& design_;
    LevelOf level_of_;
    bool crossfall_ = false;
    std::vector<Read> read_;
    CrossData data_;
};

}  // namespace

CrossData cross_data(const Evaluation& evaluation, std::size_t line) {
    CrossData data = CrossGatherer(evaluation, line).run();
    for (CrossSection& section : data.sections) {
        for (CrossColumn& column : section.columns) column.found.resize(data.surfaces.size());
    }
    return data;
}

}  // namespace fallwright::record
