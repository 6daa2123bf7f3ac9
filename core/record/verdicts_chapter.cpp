#include <array>
#include <cmath>

#include "base/stable_order.h"
#include "record/chapters.h"
#include "record/times.h"
#include "record/worked.h"
#include "verdict/ponds.h"

namespace fallwright::record {

namespace {

bool in_doubt(const Judgement& judged) {
    return judged.verdict == Verdict::Outside || judged.verdict == Verdict::Undecided;
}

class LineVerdicts {
  public:
    LineVerdicts(Writer& out, Worked& worked, std::size_t line)
        : out_(out),
          worked_(worked),
          line_(line),
          design_(out.evaluation.designs.lines[line]),
          found_(out.evaluation.lines[line]),
          judge_(out.book, design_, found_, out.model) {
        for (const Station& station : found_.stations) stations_.push_back({&station, judge_.judge(station)});
        sort_stably(stations_,
                    [](const Judged& a, const Judged& b) { return a.station->ch < b.station->ch; });
    }

    void run() {
        allowed();
        counts();
        table();
        together();
        ponds();
        relaid();
        out_.figures(deviation_strip(out_.evaluation, line_, out_.turned()));
        worked_out();
    }

  private:
    struct Judged {
        const Station* station;
        StationVerdict verdict;
    };

    void allowed() {
        const std::string mm = small_unit(out_.unit);
        Rows rows("What is allowed", {words_column("surface"), words_column("level, " + mm),
                                      words_column("fall"), text_column("from")});
        for (const Tolerance& tolerance : out_.book.tolerances) {
            if (tolerance.line != out_.book.lines[line_].name) continue;
            rows.add({out_.name(tolerance.what), limits_words(tolerance, out_.unit), fall_limits(tolerance),
                      source(tolerance)});
        }
        out_.table(std::move(rows));
    }

    static std::string fall_limits(const Tolerance& tolerance) {
        std::string text;
        if (tolerance.fall_min.has()) text = "at least " + percent_figure(tolerance.fall_min.value) + " %";
        if (tolerance.fall_max.has())
            text +=
                (text.empty() ? "" : ", ") + ("at most " + percent_figure(tolerance.fall_max.value) + " %");
        return text;
    }

    std::string source(const Tolerance& tolerance) const {
        std::string text = tolerance.source == no_name ? "" : out_.name(tolerance.source);
        for (const Tolerance::Used& used : tolerance.used) {
            text += (text.empty() ? "" : "; ") + ("preset " + std::string(used.name));
            if (used.source->provenance == preset::Provenance::FromMemory) text += " (from memory: a hint)";
        }
        return text.empty() ? "not said" : text;
    }

    void counts() {
        std::array<int, 4> count{};
        for (const Judged& each : stations_)
            ++count[static_cast<std::size_t>(urgency(each.verdict.judged.verdict))];
        const int judged = count[0] + count[1] + count[2];
        if (judged == 0) return;
        out_.say(std::to_string(judged) + " stations judged: " + std::to_string(count[0]) + " outside, " +
                     std::to_string(count[1]) + " too close to call, " + std::to_string(count[2]) +
                     " within.",
                 sheet::Tone::Strong);
    }

    void table() {
        const std::string mm = small_unit(out_.unit);
        Rows rows("", {figure_column("chainage"), words_column("surface"), figure_column("level"),
                       figure_column("wanted"), figure_column("off, " + mm), figure_column("\u00b1 " + mm),
                       words_column("as measured"), figure_column("sure"), words_column("verdict")});
        for (const Judged& each : stations_) {
            const Judgement& judged = each.verdict.judged;
            const bool tested = judged.verdict != Verdict::Untested;
            if (!tested && std::isnan(each.verdict.deviation)) continue;
            const PointLevel& found = out_.model.levels[static_cast<std::size_t>(each.station->point)];
            std::string chainage = station_words(out_.book, *each.station);
            chainage.resize(chainage.size() - out_.name(each.station->what).size() - 1);
            rows.add_cells({{chainage},
                            {out_.name(each.station->what)},
                            {level(found.level, out_.unit)},
                            {level(each.verdict.design, out_.unit)},
                            {signed_small(each.verdict.deviation, out_.unit)},
                            {small(found.sd, out_.unit)},
                            {!tested               ? ""
                             : judged.plain_within ? "inside"
                                                   : "outside"},
                            {tested ? percent(judged.probability) : ""},
                            verdict_cell(judged, each.verdict.deviation)});
        }
        out_.table(std::move(rows));
    }

    void together() {
        for (const AllWithin& all : judge_.all_within())
            out_.say("All of " + std::string(all.what) + " within: " + percent(all.probability) +
                     " sure, what they share counted once.");
    }

    void ponds() {
        std::vector<std::string> items;
        for (const Pond& pond : find_ponds(out_.book, design_, found_, out_.model))
            items.push_back("water would stand from " + level(pond.from, out_.unit) + " to " +
                            level(pond.to, out_.unit) + ", " + out_.mm(pond.depth) + " deep; " +
                            percent(pond.probability) + " sure there is a sag");
        out_.list(std::move(items));
    }

    void relaid() {
        std::vector<std::string> items;
        for (const Judged& each : stations_) {
            for (const Earlier& earlier : each.verdict.earlier) {
                const Entry& entry = out_.book.entries[earlier.until];
                const std::string until = day_of(entry.at);
                std::string text = station_words(out_.book, *each.station) + " before it was relaid" +
                                   (until.empty() ? "" : " (until " + until + ")") + ": " +
                                   level(earlier.level, out_.unit);
                if (!std::isnan(earlier.deviation))
                    text += ", " + out_.mm(earlier.deviation) + (earlier.deviation < 0 ? " low" : " high");
                for (const Relaid& relaid : out_.book.relaids) {
                    if (relaid.entry == earlier.until && relaid.why != no_name)
                        text += "; why: " + out_.name(relaid.why);
                }
                items.push_back(std::move(text));
            }
        }
        if (items.empty()) return;
        out_.heading(3, "Relaid");
        out_.list(std::move(items));
    }

    void worked_out() {
        bool said_once = false;
        const auto contract = [&] {
            if (!said_once) out_.say("Which counts, as measured or as sure, is for your contract.");
            said_once = true;
        };
        for (const Verdict urgent : {Verdict::Outside, Verdict::Undecided}) {
            for (const Judged& each : stations_) {
                if (each.verdict.judged.verdict != urgent) continue;
                contract();
                work_out(each);
            }
        }
        const std::vector<FoundFall> falls = list_falls(out_.book, design_, found_, out_.model);
        for (const FoundFall& fall : falls) {
            const FallVerdict verdict = judge_.judge(fall);
            if (said_as_pipe(fall, falls) || !in_doubt(verdict.judged)) continue;
            contract();
            work_out(fall, verdict);
        }
    }

    void work_out(const Judged& each) {
        const std::string what = out_.book.name(each.station->what);
        out_.heading(3, out_.name(out_.book.lines[line_].name) + " " +
                            station_words(out_.book, *each.station) + ": " +
                            said(each.verdict.judged.verdict));
        const Tolerance& tolerance = *judge_.tolerance_of(what);
        out_.say(verdict_sentence(each.verdict.deviation, each.verdict.judged, tolerance, out_.unit) + ".",
                 sheet::Tone::Strong);
        worked_.station(judge_, design_, *each.station, each.verdict);
    }

    void work_out(const FoundFall& fall, const FallVerdict& verdict) {
        out_.heading(3, out_.name(out_.book.lines[line_].name) + " " + level(fall.from, out_.unit) + " to " +
                            level(fall.to, out_.unit) + ", fall of " + std::string(fall.what) + " (" +
                            std::string(span_word(fall.span)) + "): " + said(verdict.judged.verdict));
        out_.say("Falls " + percent_figure(fall.gradient) + " %" + " \u00b1 " + percent_figure(fall.sd) +
                     " %" + ", " + (verdict.judged.plain_within ? "inside" : "outside") +
                     " what is allowed as measured (" + fall_limits(*judge_.tolerance_of(fall.what)) + "); " +
                     percent(verdict.judged.probability) + " sure it truly is within.",
                 sheet::Tone::Strong);
        worked_.fall(judge_, fall, verdict);
    }

    Writer& out_;
    Worked& worked_;
    std::size_t line_;
    const Design& design_;
    const LineFalls& found_;
    LineJudge judge_;
    std::vector<Judged> stations_;
};

}  // namespace

void add_verdicts(Writer& out) {
    out.heading(1, "What was laid, judged");
    if (out.book.tolerances.empty()) return;
    const double confidence = confidence_of(out.book);
    out.say(
        "Within is said from " + percent(confidence) + " sure on, outside from " + percent(confidence) +
        " sure of the contrary; between them it is too close to call. High is a wedge down, low a wedge up, "
        "within a bar, too close to call a ring. What is not clearly within has its rows below the table: "
        "with them anybody can work it out by hand.");
    Worked worked(out);
    for (std::size_t i = 0; i < out.book.lines.size(); ++i) {
        out.heading(2, "Line " + out.name(out.book.lines[i].name));
        LineVerdicts(out, worked, i).run();
    }
}

}  // namespace fallwright::record
