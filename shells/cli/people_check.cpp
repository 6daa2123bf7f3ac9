#include "shells/cli/people_check.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "base/print.h"
#include "fall/falls.h"
#include "shells/cli/people_evenness.h"
#include "shells/cli/people_surfaces.h"
#include "shells/cli/table.h"
#include "shells/cli/words.h"
#include "verdict/ponds.h"
#include "verdict/verdict.h"

namespace fallwright::cli {

namespace {

constexpr double most_rows = 60;

class LineText {
  public:
    LineText(const Evaluation& evaluation, std::size_t line)
        : book_(*evaluation.book),
          model_(*evaluation.model),
          entry_(book_.lines[line]),
          design_(evaluation.designs.lines[line]),
          found_(evaluation.lines[line]),
          judge_(book_, design_, found_, model_) {
        for (const Station& station : found_.stations) stations_.push_back({&station, judge_.judge(station)});
        std::stable_sort(stations_.begin(), stations_.end(), [](const Judged& a, const Judged& b) {
            const int x = urgency(a.verdict.judged.verdict);
            const int y = urgency(b.verdict.judged.verdict);
            return x != y ? x < y : a.station->ch < b.station->ch;
        });
    }

    std::string text() const {
        const std::string all = counts() + sentences() + stations_table() + falls_table() + ponds() +
                                together() + relaid() +
                                evenness_text({book_, design_, found_, model_}, judge_);
        return all.empty() ? "" : "\nLine " + book_.name(entry_.name) + "\n" + all;
    }

  private:
    struct Judged {
        const Station* station;
        StationVerdict verdict;
    };

    static bool tested(const Judged& each) { return each.verdict.judged.verdict != Verdict::Untested; }

    std::string mm(double metres) const { return small(std::fabs(metres), book_.unit); }

    std::string place(const Station& station) const { return station_words(book_, station); }

    std::string counts() const {
        std::array<int, 4> count{};
        for (const Judged& each : stations_)
            ++count[static_cast<std::size_t>(urgency(each.verdict.judged.verdict))];
        const int judged = count[0] + count[1] + count[2];
        if (judged == 0) return "";
        return "  " + std::to_string(judged) + " stations judged: " + std::to_string(count[0]) +
               " outside, " + std::to_string(count[1]) + " too close to call, " + std::to_string(count[2]) +
               " within\n";
    }

    // Only of what is not clearly within: the rest stands in the table.
    std::string sentences() const {
        std::string text;
        for (const Judged& each : stations_) {
            const Judgement& judged = each.verdict.judged;
            if (judged.verdict != Verdict::Outside && judged.verdict != Verdict::Undecided) continue;
            const Tolerance& tolerance = *judge_.tolerance_of(book_.names.text(each.station->what));
            text += "  " + place(*each.station) + ": " +
                    verdict_sentence(each.verdict.deviation, judged, tolerance, book_.unit) + "\n";
        }
        return text.empty() ? "" : text + "  Which counts, as measured or as sure, is for your contract.\n";
    }

    std::string stations_table() const {
        if (static_cast<double>(stations_.size()) > most_rows) return "";
        const std::string unit = small_unit(book_.unit);
        Table table({{"chainage"},
                     {"what", Align::Left},
                     {"level"},
                     {"design"},
                     {"off, " + unit},
                     {"± " + unit},
                     {"as measured", Align::Left},
                     {"sure"},
                     {"verdict", Align::Left}});
        for (const Judged& each : stations_) {
            if (!tested(each) && std::isnan(each.verdict.deviation)) continue;
            const Judgement& judged = each.verdict.judged;
            const PointLevel& found = model_.levels[static_cast<std::size_t>(each.station->point)];
            table.add({level(each.station->ch, book_.unit), book_.name(each.station->what),
                       level(found.level, book_.unit), level(each.verdict.design, book_.unit),
                       signed_small(each.verdict.deviation, book_.unit), small(found.sd, book_.unit),
                       !tested(each)         ? ""
                       : judged.plain_within ? "within"
                                             : "outside",
                       tested(each) ? percent(judged.probability) : "", said(judged.verdict)});
        }
        return table.empty() ? "" : table.text();
    }

    std::string falls_table() const {
        Table table({{"from"},
                     {"to"},
                     {"what", Align::Left},
                     {"span", Align::Left},
                     {"falls, %"},
                     {"±"},
                     {"design"},
                     {"verdict", Align::Left},
                     {"backfall"}});
        double rows = 0;
        const std::vector<FoundFall> falls = list_falls(book_, design_, found_, model_);
        // A pipe read at its two ends only is said once.
        const auto is_a_pipe = [&falls](const FoundFall& fall) {
            return std::any_of(falls.begin(), falls.end(), [&fall](const FoundFall& other) {
                return other.span == Span::Pipe && other.start == fall.start && other.end == fall.end;
            });
        };
        for (const FoundFall& fall : falls) {
            const FallVerdict verdict = judge_.judge(fall);
            if (std::isnan(verdict.design) || rows >= most_rows) continue;
            if (fall.span == Span::Neighbour && is_a_pipe(fall)) continue;
            ++rows;
            const auto shown = [](double ratio) { return fixed(ratio * 100, 3); };
            table.add(
                {level(fall.from, book_.unit), level(fall.to, book_.unit), std::string(fall.what),
                 std::string(span_word(fall.span)), shown(fall.gradient), shown(fall.sd),
                 shown(verdict.design), said(verdict.judged.verdict),
                 std::isnan(verdict.backfall_probability) ? "" : percent(verdict.backfall_probability)});
        }
        return table.empty() ? "" : "  Falls the way the water runs\n" + table.text();
    }

    std::string ponds() const {
        std::string text;
        for (const Pond& pond : find_ponds(book_, design_, found_, model_))
            text += "  water would stand from " + level(pond.from, book_.unit) + " to " +
                    level(pond.to, book_.unit) + ", " + mm(pond.depth) + " " + small_unit(book_.unit) +
                    " deep; " + percent(pond.probability) + " sure there is a sag\n";
        return text;
    }

    std::string together() const {
        std::string text;
        for (const AllWithin& all : judge_.all_within())
            text += "  all of " + std::string(all.what) + " within: " + percent(all.probability) +
                    " sure, what they share counted once\n";
        return text;
    }

    std::string relaid() const {
        std::string text;
        for (const Judged& each : stations_) {
            for (const Earlier& earlier : each.verdict.earlier) {
                const std::string until = format_time(book_.entries[earlier.until].at);
                text += "  " + place(*each.station) + " before it was relaid" +
                        (until.empty() ? "" : " (until " + until.substr(0, 10) + ")") + ": " +
                        level(earlier.level, book_.unit);
                if (!std::isnan(earlier.deviation))
                    text += ", " + mm(earlier.deviation) + " " + small_unit(book_.unit) +
                            (earlier.deviation < 0 ? " low" : " high");
                text += "\n";
            }
        }
        return text;
    }

    const Book& book_;
    const Model& model_;
    const LineEntry& entry_;
    const Design& design_;
    const LineFalls& found_;
    LineJudge judge_;
    std::vector<Judged> stations_;
};

// Whose figures they are; presets of one source together.
std::string presets_text(const Evaluation& evaluation) {
    std::vector<std::pair<std::string, std::string>> said;  // source, names
    for (const UsedPreset& used : evaluation.presets) {
        std::string source = used.source;
        if (!source.empty() && used.edition != "undated") source += ", " + used.edition;
        source += source.empty() ? "" : " ";
        source += "(";
        source += used.provenance;
        source += ")";
        const auto same = [&source](const auto& each) { return each.first == source; };
        const auto before = std::find_if(said.begin(), said.end(), same);
        if (before == said.end())
            said.emplace_back(std::move(source), used.name);
        else
            before->second += ", " + used.name;
    }
    std::string text;
    for (const auto& [source, names] : said) {
        text += "By ";
        text += names;
        text += ": ";
        text += source;
        text += "\n";
    }
    return text;
}

}  // namespace

std::string check_text(const Evaluation& evaluation) {
    const Book& book = *evaluation.book;
    std::string text = book.title.empty() ? "" : book.title + "\n";
    text += "What was laid, judged; " + unit_text(book.unit) + "; ± is one standard deviation, relative to " +
            relative_to(book) + ".\n";
    text += presets_text(evaluation);
    if (laser_assumed(evaluation.findings))
        text += "All of it if the laser is as good as assumed (untested).\n";
    std::string lines;
    for (std::size_t i = 0; i < evaluation.lines.size(); ++i) lines += LineText(evaluation, i).text();
    const std::string surfaces = surfaces_text(evaluation);
    const bool nothing = lines.empty() && surfaces.empty();
    text += nothing ? "\nNo line has a design or a tolerance to judge by.\n" : lines + surfaces;
    const std::string findings = findings_text(evaluation.findings);
    return text + (findings.empty() ? "" : "\nTo look at\n" + findings);
}

}  // namespace fallwright::cli
