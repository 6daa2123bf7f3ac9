#include <algorithm>
#include <cmath>

#include "fall/falls.h"
#include "record/chapters.h"
#include "record/fit_words.h"
#include "record/pipe_words.h"

namespace fallwright::record {

namespace {

// Limits of the fall: "0.500 or more", "0.500 to 1.000".
std::string limits_of_fall(const Tolerance* tolerance) {
    if (tolerance == nullptr) return "";
    const bool least = tolerance->fall_min.has(), most = tolerance->fall_max.has();
    if (least && most)
        return percent_figure(tolerance->fall_min.value) + " to " + percent_figure(tolerance->fall_max.value);
    if (least) return percent_figure(tolerance->fall_min.value) + " or more";
    return most ? percent_figure(tolerance->fall_max.value) + " or less" : "";
}

class LineFallsChapter {
  public:
    LineFallsChapter(Writer& out, std::size_t line)
        : out_(out),
          design_(out.evaluation.designs.lines[line]),
          found_(out.evaluation.lines[line]),
          judge_(out.book, design_, found_, out.model),
          falls_(list_falls(out.book, design_, found_, out.model)) {}

    void run() {
        table(has_pipes() ? "From chamber to chamber, pipe by pipe and in all" : "In all", false);
        table("From reading to reading", true);
        std::vector<std::string> items;
        for (const Fit& fit : found_.fits) {
            const std::string even = fit_evenness(found_, fit, out_.unit);
            items.push_back(out_.name(fit.what) + ", the straight line that fits best: " +
                            fit_words(found_, fit, out_.unit) + (even.empty() ? "" : "; " + even));
        }
        out_.list(std::move(items));
    }

  private:
    bool has_pipes() const {
        return std::any_of(falls_.begin(), falls_.end(), [](const FoundFall& fall) {
            return fall.span == Span::Pipe || fall.span == Span::Chambers;
        });
    }

    void table(const char* title, bool neighbours) {
        Rows rows(title, {figure_column("from"), figure_column("to"), words_column("surface"),
                          words_column(neighbours ? "" : "span"), words_column("fall"), figure_column("%"),
                          figure_column("\u00b1 %"), figure_column("wanted %"), words_column("allowed %"),
                          words_column("verdict"), figure_column("sure it is within"),
                          figure_column("sure it falls back")});
        for (const FoundFall& fall : falls_) {
            if ((fall.span == Span::Neighbour) != neighbours || (neighbours && said_as_pipe(fall, falls_)))
                continue;
            const FallVerdict verdict = judge_.judge(fall);
            const bool tested = verdict.judged.verdict != Verdict::Untested;
            // A fall outside is too flat or too steep; the wedge is for levels.
            sheet::Cell word = verdict_cell(verdict.judged, 0);
            if (verdict.judged.verdict == Verdict::Outside) word.has_mark = false;
            rows.add_cells(
                {{level(fall.from, out_.unit)},
                 {level(fall.to, out_.unit)},
                 {std::string(fall.what)},
                 {neighbours ? "" : std::string(span_word(fall.span))},
                 {fall_text(fall.gradient)},
                 {percent_figure(fall.gradient)},
                 {percent_figure(fall.sd)},
                 {percent_figure(verdict.design)},
                 {tested ? limits_of_fall(judge_.tolerance_of(fall.what)) : ""},
                 std::move(word),
                 {tested ? percent(verdict.judged.probability) : ""},
                 {std::isnan(verdict.backfall_probability) ? "" : percent(verdict.backfall_probability)}});
        }
        out_.table(std::move(rows));
    }

    Writer& out_;
    const Design& design_;
    const LineFalls& found_;
    LineJudge judge_;
    std::vector<FoundFall> falls_;
};

}  // namespace

void add_falls(Writer& out) {
    out.heading(1, "The falls achieved");
    const bool any = std::any_of(out.evaluation.lines.begin(), out.evaluation.lines.end(),
                                 [](const LineFalls& line) { return !line.fits.empty(); });
    if (!any) return;
    out.say(
        "A fall is the difference of two levels over the distance between them, positive the way the water "
        "runs; 1 in -n runs the other way. \u00b1 is one standard deviation from the joint uncertainty of "
        "both "
        "levels.");
    for (std::size_t i = 0; i < out.evaluation.lines.size(); ++i) {
        out.heading(2, "Line " + out.name(out.book.lines[i].name));
        LineFallsChapter(out, i).run();
        out.figures(long_section(out.evaluation, i, out.turned()));
    }
}

}  // namespace fallwright::record
