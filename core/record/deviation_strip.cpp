#include <algorithm>
#include <cmath>
#include <limits>

#include "record/deviations.h"
#include "record/drawings.h"
#include "record/figure_words.h"
#include "record/scales.h"
#include "record/section_data.h"
#include "record/words.h"

namespace fallwright::record {

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double left_margin = 16, right_margin = 2, inset = 4, point_apart = 3;
constexpr double usual_panel = 46, least_panel = 24, side_by_side = 1.1;

class Strip {
  public:
    Strip(const Book& book, std::string line, const FoundSurface& surface, Room room)
        : book_(book), line_(std::move(line)), surface_(surface), room_(room), of_fit_(!surface.designed) {
        for (const Found& found : surface.found) {
            if (!std::isnan(value(found))) shown_.push_back(&found);
        }
    }

    void add_to(std::vector<sheet::Figure>& figures) {
        if (shown_.empty()) return;
        std::vector<double> chainages;
        for (const Found* found : shown_) chainages.push_back(found->ch);
        scale_ = scale_along(chainages, inner_width(), point_apart, book_.unit);
        const auto most = static_cast<std::size_t>(inner_width() / (point_apart * 0.7));
        const std::vector<Window> windows =
            windows_of(chainages, inner_width() * scale_ / mm_per_metre, std::max<std::size_t>(most, 1));
        for (std::size_t i = 0; i < windows.size(); ++i)
            figures.push_back(draw(windows[i], windows.size() < 2
                                                   ? ""
                                                   : ", sheet " + std::to_string(i + 1) + " of " +
                                                         std::to_string(windows.size())));
    }

  private:
    double value(const Found& found) const { return of_fit_ ? found.off_fit : found.deviation; }
    double inner_width() const { return room_.width - left_margin - right_margin - 2 * inset; }

    std::string name() const {
        std::string words = line_ + ", " + surface_.what;
        if (surface_.off != 0)
            words +=
                (surface_.off > 0 ? ", right " : ", left ") + short_words(book_, std::fabs(surface_.off));
        return words;
    }

    sheet::Figure draw(const Window& window, const std::string& part) const {
        Drawing drawing(room_.width, std::max(room_.height, 300.0));
        const std::string title =
            (of_fit_ ? "Off the straight line of best fit: " : "Deviations from the design: ") + name() +
            part;
        double y = draw_head(drawing, title, facts(window), book_.title);
        const double most = std::clamp(room_.height - y - 30, least_panel, usual_panel);
        const double right = std::clamp(x_of(window, window.to) + inset, left_margin + least_panel * 3,
                                        room_.width - right_margin);
        const DeviationPanel panel = fitted_panel({left_margin, y + 3, right, y + 3 + most});
        const Box& box = panel.box;
        draw_panel(drawing, panel, book_);
        y = draw_chainages(drawing, window, box);
        UsedMarks used;
        draw_points(drawing, panel, points(window), book_, true, used);
        std::vector<LegendEntry> legend;
        legend.push_back({sheet::Stroke{wide, sheet::Ink::Design, sheet::Dash::Solid},
                          of_fit_ ? "line of best fit" : "design"});
        if (!of_fit_ && surface_.tolerance != nullptr)
            legend.push_back(
                {Hatched{sheet::Ink::Faint, sheet::Pattern::HatchUp}, "band of tolerance " + band_words()});
        legend.push_back({sheet::Stroke{heavy_line, sheet::Ink::Line, sheet::Dash::Solid},
                          "one standard deviation of the level either way"});
        legend.push_back({sheet::Stroke{thin, sheet::Ink::Line, sheet::Dash::Solid}, "95 % (1.96 of them)"});
        add_marks(legend, used);
        y = draw_legend(drawing, legend, {0, y + 3}, room_.width);
        drawing.text(label({left_margin - 1.8, box.top - 1.6}, difference_unit(book_), small_type,
                           sheet::Anchor::End));
        drawing.cut(y + 0.5);
        return drawing.take(title, said(window, panel));
    }

    // As high as its round scale needs.
    DeviationPanel fitted_panel(Box box) const {
        const Tolerance* tolerance = of_fit_ ? nullptr : surface_.tolerance;
        const double reach = deviation_reach({surface_}, of_fit_);
        const double scale = deviation_panel(box, reach, tolerance, book_.unit).scale;
        const double needed = std::max(2 * on_paper(reach, scale), least_panel);
        box.bottom = std::min(box.bottom, box.top + needed);
        DeviationPanel panel = deviation_panel(box, reach, tolerance, book_.unit);
        panel.scale = scale;
        return panel;
    }

    std::string facts(const Window& window) const {
        return "Chainage " + level_words(book_, shown_[window.first]->ch) + " to " +
               level_words(book_, shown_[window.last]->ch) + ", " + scale_words(scale_, book_.unit) +
               " along the line. High is up. Differences in " + difference_unit(book_) + ".";
    }

    std::string band_words() const {
        const Maybe below = surface_.tolerance->below, above = surface_.tolerance->above;
        return (below.has() ? short_difference_words(book_, below.value) : std::string("open")) + " to " +
               (above.has() ? short_difference_words(book_, above.value) : std::string("open")) + " " +
               difference_unit(book_);
    }

    double x_of(const Window& window, double ch) const {
        return left_margin + inset + on_paper(ch - window.from, scale_);
    }

    std::vector<DeviationPoint> points(const Window& window) const {
        std::vector<DeviationPoint> all;
        for (std::size_t i = window.first; i <= window.last; ++i) {
            const Found& found = *shown_[i];
            const Judgement judged = of_fit_ ? Judgement{} : found.judged;
            // Two at a chamber stand beside each other.
            double x = x_of(window, found.ch);
            if (!all.empty() && x - all.back().x < side_by_side) {
                all.back().x -= side_by_side;
                x += side_by_side;
            }
            all.push_back({x, value(found), found.sd, judged, found.point});
        }
        return all;
    }

    double draw_chainages(Drawing& drawing, const Window& window, const Box& box) const {
        std::vector<double> wanted;
        for (std::size_t i = window.first; i <= window.last; ++i)
            wanted.push_back(x_of(window, shown_[i]->ch));
        // Every place has its tick; chainages are written where they have room.
        const double apart = small_type + 0.3;
        const bool all_fit = apart * static_cast<double>(wanted.size()) < (box.right - box.left);
        const std::vector<double> at = all_fit ? spread(wanted, apart, box.left + 1, box.right - 1) : wanted;
        double longest = 0;
        for (std::size_t i = 0; i < wanted.size(); ++i) {
            const std::string text = level_words(book_, shown_[window.first + i]->ch);
            longest = std::max(longest, text_width(text, small_type));
            drawing.path({{wanted[i], box.bottom}, {wanted[i], box.bottom + 1}, {at[i], box.bottom + 2.6}},
                         {hair, sheet::Ink::Line, sheet::Dash::Solid});
            sheet::Label chainage = turned({}, text, small_type, sheet::Anchor::End);
            drawing.place(chainage, {{{at[i] + small_type * 0.36, box.bottom + 3}, sheet::Anchor::End}});
        }
        return box.bottom + 3 + longest;
    }

    std::string said(const Window& window, const DeviationPanel& panel) const {
        std::string words = counted(window.last - window.first + 1, "place", "places") + " of " + name();
        double highest = -infinite, lowest = infinite;
        for (std::size_t i = window.first; i <= window.last; ++i) {
            highest = std::max(highest, value(*shown_[i]));
            lowest = std::min(lowest, value(*shown_[i]));
        }
        words += ": from " + difference_words(book_, lowest) + " to " + difference_words(book_, highest) +
                 " " + difference_unit(book_) + " against " +
                 (of_fit_ ? "the line of best fit" : "the design");
        if (!std::isnan(panel.below) || !std::isnan(panel.above)) words += ", tolerance " + band_words();
        return words + ".";
    }

    const Book& book_;
    std::string line_;
    const FoundSurface& surface_;
    Room room_;
    bool of_fit_;
    std::vector<const Found*> shown_;
    double scale_ = 100;
};

}  // namespace

std::vector<sheet::Figure> deviation_strip(const Evaluation& evaluation, std::size_t line, Room room) {
    const Book& book = *evaluation.book;
    std::vector<sheet::Figure> figures;
    for (const FoundSurface& surface : found_surfaces(evaluation, line))
        Strip(book, book.name(book.lines[line].name), surface, room).add_to(figures);
    return figures;
}

}  // namespace fallwright::record
