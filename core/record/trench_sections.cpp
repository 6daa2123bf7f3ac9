#include <algorithm>
#include <cmath>

#include "base/print.h"
#include "caution/caution.h"
#include "drain/trench.h"
#include "fall/dig_to.h"
#include "record/dimensions.h"
#include "record/drawings.h"
#include "record/figure_words.h"
#include "record/legend.h"
#include "record/scales.h"

namespace fallwright::record {

namespace {

using sheet::At;
using sheet::Ink;

constexpr double left_room = 26, right_room = 52, most_height = 105, most_width = 90;
constexpr double ground_beside = 12;     // mm of ground drawn on either side
constexpr double open_above = 0.3;       // metres drawn over the surround where no ground is known
constexpr double trench_dimension = 14;  // mm from the side of the trench

// Pipes of one size, at the deepest place of all their stretches.
struct TrenchKind {
    const Pipe* pipe = nullptr;
    double deepest = NAN, width = NAN;
    std::string stretches;
};

bool same(const Maybe& a, const Maybe& b) {
    return a.has() ? a.value == b.value : !b.has();
}

bool alike(const Pipe& a, const Pipe& b) {
    return same(a.bore, b.bore) && same(a.wall, b.wall) && same(a.bedding, b.bedding);
}

// Heights above the trench bottom, metres.
struct Layers {
    double bedding = 0, wall = 0, bore = 0, crown = 0, surround = 0, ground = 0;
    bool ground_known = false;
};

class TrenchFigure {
  public:
    TrenchFigure(const Evaluation& evaluation, std::size_t line, const drain::TrenchRule& rule,
                 const TrenchKind& kind, Room room)
        : evaluation_(evaluation),
          book_(*evaluation.book),
          index_(line),
          rule_(rule),
          kind_(kind),
          room_(room) {
        layers_.bedding = kind.pipe->bedding.or_else(0);
        layers_.wall = kind.pipe->wall.or_else(0);
        layers_.bore = kind.pipe->bore.value;
        layers_.crown = layers_.bedding + layers_.bore + 2 * layers_.wall;
        layers_.surround = layers_.crown + rule.surround;
        layers_.ground_known = kind.deepest > 0;
        layers_.ground = layers_.ground_known ? kind.deepest : layers_.surround + open_above;
    }

    sheet::Figure draw() {
        const double widest = width_at(layers_.ground);
        const double across = std::min(room_.width - left_room - right_room, most_width) - 2 * ground_beside;
        const double up = std::clamp(room_.height - 70, 40.0, most_height);
        scale_ = round_scale(std::max(widest * mm_per_metre / across, layers_.ground * mm_per_metre / up),
                             book_.unit);
        Drawing drawing(room_.width, room_.height + 200);
        const std::string title =
            "Trench of " + line_name() + ", " + size_words(book_, layers_.bore) + " bore";
        const double head = draw_head(drawing, title, facts(), book_.title);
        middle_ = left_room + ground_beside + on_paper(widest, scale_) / 2;
        bottom_ = head + 8 + on_paper(layers_.ground, scale_);
        draw_layers(drawing);
        draw_ground(drawing);
        draw_dimensions(drawing);
        draw_names(drawing);
        const double end = draw_cautions(drawing, bottom_ + 14);
        drawing.cut(end + 0.5);
        return drawing.take(title, said());
    }

  private:
    std::string line_name() const { return book_.name(book_.lines[index_].name); }
    double width_at(double height) const { return kind_.width + 2 * rule_.batter * height; }
    double x(double metres) const { return middle_ + on_paper(metres, scale_); }
    double y(double height) const { return bottom_ - on_paper(height, scale_); }

    std::string facts() const {
        std::string words =
            "Scale " + scale_words(scale_, book_.unit) + ". Chainage " + kind_.stretches + ". ";
        words += layers_.ground_known ? "Drawn at the deepest place; depth to the trench bottom."
                                      : "No ground was read here, so the depth is not known.";
        return words;
    }

    // Between two heights, as wide as the trench.
    std::vector<At> slice(double from, double to) const {
        const double low = width_at(from) / 2, high = width_at(to) / 2;
        return {{x(-low), y(from)}, {x(low), y(from)}, {x(high), y(to)}, {x(-high), y(to)}};
    }

    void draw_layers(Drawing& drawing) const {
        const double top = std::min(layers_.surround, layers_.ground);
        if (layers_.bedding > 0)
            drawing.area(slice(0, std::min(layers_.bedding, top)), Ink::Line, sheet::Pattern::Dots);
        drawing.area(slice(std::min(layers_.bedding, top), top), Ink::Line, sheet::Pattern::HatchUp);
        const sheet::Stroke edge = {thin, Ink::Line, sheet::Dash::Dashed};
        for (const double height : {layers_.bedding, layers_.surround}) {
            if (height <= 0 || height >= layers_.ground) continue;
            drawing.line({x(-width_at(height) / 2), y(height)}, {x(width_at(height) / 2), y(height)}, edge);
        }
        draw_pipe(drawing);
        const double foot = kind_.width / 2, head = width_at(layers_.ground) / 2;
        drawing.path(
            {{x(-head), y(layers_.ground)}, {x(-foot), y(0)}, {x(foot), y(0)}, {x(head), y(layers_.ground)}},
            {heavy_line, Ink::Line, sheet::Dash::Solid});
    }

    void draw_pipe(Drawing& drawing) const {
        const double radius = on_paper(layers_.bore / 2 + layers_.wall, scale_);
        const At centre = {x(0), y(layers_.bedding + layers_.wall + layers_.bore / 2)};
        // Paper under the pipe, a many-sided circle: each corner half way between the two before it, pushed
        // out.
        std::vector<At> round = {{1, 0}, {0, 1}, {-1, 0}, {0, -1}};
        for (int turn = 0; turn < 4; ++turn) {
            std::vector<At> finer;
            for (std::size_t i = 0; i < round.size(); ++i) {
                const At a = round[i], b = round[(i + 1) % round.size()];
                const double mx = a.x + b.x, my = a.y + b.y, length = std::sqrt(mx * mx + my * my);
                finer.push_back(a);
                finer.push_back({mx / length, my / length});
            }
            round = std::move(finer);
        }
        for (At& corner : round) corner = {centre.x + radius * corner.x, centre.y + radius * corner.y};
        drawing.area(round, Ink::Paper, sheet::Pattern::Solid);
        const sheet::Stroke stroke = {wide, Ink::Line, sheet::Dash::Solid};
        drawing.arc({centre, radius, 0, 360, stroke});
        if (layers_.wall > 0) drawing.arc({centre, on_paper(layers_.bore / 2, scale_), 0, 360, stroke});
        drawing.line({centre.x - radius - 2, centre.y}, {centre.x + radius + 2, centre.y},
                     {hair, Ink::Line, sheet::Dash::DashDot});
        drawing.line({centre.x, centre.y - radius - 2}, {centre.x, centre.y + radius + 2},
                     {hair, Ink::Line, sheet::Dash::DashDot});
    }

    void draw_ground(Drawing& drawing) const {
        const double head = width_at(layers_.ground) / 2, level = y(layers_.ground);
        if (!layers_.ground_known) {
            for (const double side : {-1.0, 1.0})
                drawing.line({x(side * head), level}, {x(side * head), level - 3},
                             {heavy_line, Ink::Line, sheet::Dash::Dotted});
            return;
        }
        for (const double side : {-1.0, 1.0}) {
            const double from = x(side * head), to = from + side * ground_beside;
            drawing.line({from, level}, {to, level}, {heavy_line, Ink::Ground, sheet::Dash::Solid});
            for (int i = 1; i < 6; ++i) {
                const double at = from + side * i * 2.0;
                drawing.line({at, level}, {at - 1.2, level + 1.6}, {thin, Ink::Ground, sheet::Dash::Solid});
            }
        }
    }

    void draw_dimensions(Drawing& drawing) const {
        const double foot = kind_.width / 2;
        for (const double side : {-foot, foot})
            drawing.line({x(side), y(0) + 1}, {x(side), y(0) + 7.5}, {hair, Ink::Line, sheet::Dash::Solid});
        dimension_across(drawing, x(-foot), x(foot), y(0) + 6, size_words(book_, kind_.width));
        const double head = width_at(layers_.ground) / 2;
        if (layers_.ground_known) {
            const double at = x(-head) - trench_dimension;
            drawing.line({at - 1.5, y(0)}, {x(-foot) - 1, y(0)}, {hair, Ink::Line, sheet::Dash::Solid});
            drawing.line({at - 1.5, y(layers_.ground)}, {x(-head) - ground_beside, y(layers_.ground)},
                         {hair, Ink::Line, sheet::Dash::Solid});
            dimension_up(drawing, at, y(0), y(layers_.ground), "depth " + size_words(book_, layers_.ground));
        }
    }

    // Names of the layers and their thickness, one under the other on the right.
    void draw_names(Drawing& drawing) const {
        struct Name {
            double height;  // of what is meant
            double aside;   // from the middle, metres
            std::string words;
        };
        const double inner = kind_.width / 2 * 0.85, pipe = layers_.bore / 2 + layers_.wall;
        std::vector<Name> names;
        if (layers_.ground_known && layers_.ground > layers_.surround)
            names.push_back({(layers_.ground + layers_.surround) / 2, inner, "backfill"});
        names.push_back({(layers_.surround + layers_.crown) / 2, inner,
                         "surround, " + size_words(book_, rule_.surround) + " over the crown"});
        names.push_back({layers_.bedding + layers_.wall + layers_.bore / 2, pipe * 0.7, pipe_words()});
        if (layers_.bedding > 0)
            names.push_back({layers_.bedding / 2, inner, "bedding, " + size_words(book_, layers_.bedding)});
        std::vector<double> wanted;
        wanted.reserve(names.size());
        for (const Name& name : names) wanted.push_back(y(name.height));
        const std::vector<double> at = spread(wanted, usual_type * 1.5, y(layers_.ground) - 4, y(0) + 4);
        const double right = x(width_at(layers_.ground) / 2) + ground_beside + 1;
        for (std::size_t i = 0; i < names.size(); ++i)
            draw_name_of(drawing, {x(names[i].aside), y(names[i].height)}, {right, at[i]}, names[i].words);
    }

    std::string pipe_words() const {
        std::string words = "pipe, bore " + size_words(book_, layers_.bore);
        if (layers_.wall > 0) words += ", wall " + size_words(book_, layers_.wall);
        return words;
    }

    double draw_cautions(Drawing& drawing, double top) const {
        std::string source = "Width for working beside the pipe, by " + rule_.name;
        if (rule_.preset != nullptr && rule_.preset->source.provenance == preset::Provenance::FromMemory)
            source += " (from memory, not confirmed)";
        double end = draw_paragraph(drawing, source + ". No support is drawn, and none is judged here.",
                                    {0, top}, room_.width, small_type);
        for (const Caution& caution : cautions_beside(book_, evaluation_.cautions, index_)) {
            if (caution.code != "excavation") continue;
            std::string words = caution.text;
            if (!words.empty() && words.back() != '.') words += ".";
            end = draw_paragraph(drawing, "Caution: " + words, {0, end + 1}, room_.width, usual_type, true);
        }
        return end;
    }

    std::string said() const {
        std::string words = "Section across the trench of " + line_name() + ": " +
                            size_words(book_, kind_.width) + " wide at the bottom";
        if (layers_.ground_known) words += ", " + size_words(book_, layers_.ground) + " deep";
        return words + ", " + pipe_words() + ", bedding " + size_words(book_, layers_.bedding) +
               ", surround " + size_words(book_, rule_.surround) +
               " over the crown. It says nothing of support.";
    }

    const Evaluation& evaluation_;
    const Book& book_;
    std::size_t index_;
    const drain::TrenchRule& rule_;
    const TrenchKind& kind_;
    Room room_;
    Layers layers_;
    double scale_ = 20, middle_ = 0, bottom_ = 0;
};

constexpr std::size_t most_stretches_named = 4;

std::vector<TrenchKind> kinds_of(const Book& book, const drain::Trench& trench,
                                 const drain::TrenchRule& rule) {
    std::vector<TrenchKind> kinds;
    std::vector<std::size_t> counts;
    for (const drain::TrenchStretch& stretch : trench.stretches) {
        if (stretch.pipe == nullptr || !stretch.pipe->bore.has()) continue;
        std::size_t i = 0;
        while (i < kinds.size() && !alike(*kinds[i].pipe, *stretch.pipe)) ++i;
        if (i == kinds.size()) {
            kinds.push_back({stretch.pipe, NAN, NAN, ""});
            counts.push_back(0);
        }
        TrenchKind& kind = kinds[i];
        kind.deepest = std::fmax(kind.deepest, stretch.deepest);
        const std::string words = level_words(book, stretch.from) + " to " + level_words(book, stretch.to);
        if (++counts[i] <= most_stretches_named)
            kind.stretches += (kind.stretches.empty() ? "" : ", ") + words;
    }
    for (std::size_t i = 0; i < kinds.size(); ++i) {
        if (counts[i] > most_stretches_named)
            kinds[i].stretches += " and " + std::to_string(counts[i] - most_stretches_named) + " more";
        kinds[i].width =
            rule.least_width(*kinds[i].pipe, std::isnan(kinds[i].deepest) ? 0 : kinds[i].deepest);
    }
    return kinds;
}

}  // namespace

std::vector<sheet::Figure> trench_sections(const Evaluation& evaluation, std::size_t line, Room room) {
    std::vector<sheet::Figure> figures;
    const Book& book = *evaluation.book;
    if (!carries_pipes(book.lines[line])) return figures;
    Findings said_elsewhere;
    const drain::TrenchRule rule = drain::trench_rule(book, book.lines[line], said_elsewhere);
    const drain::Trench trench = drain::trench_of(setout_basis(evaluation), line, rule, said_elsewhere);
    for (const TrenchKind& kind : kinds_of(book, trench, rule)) {
        if (kind.width > 0) figures.push_back(TrenchFigure(evaluation, line, rule, kind, room).draw());
    }
    return figures;
}

}  // namespace fallwright::record
