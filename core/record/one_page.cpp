#include <algorithm>
#include <array>
#include <cmath>

#include "fall/falls.h"
#include "record/chapters.h"
#include "record/pipe_words.h"
#include "record/story.h"
#include "record/times.h"
#include "record/words.h"
#include "verdict/verdict.h"

namespace fallwright::record {

namespace {

constexpr std::size_t most_facts = 18, most_verdicts = 5, most_findings = 3, most_cautions = 4;

class OnePage {
  public:
    OnePage(Writer& out, const Wanted& wanted) : out_(out), wanted_(wanted) {}

    void run() {
        head();
        for (std::size_t i = 0; i < out_.book.lines.size(); ++i) gather(i);
        judged();
        findings();
        cautions();
        add_fingerprint(out_, wanted_);
        out_.signature({"name", "signature", "date"});
    }

  private:
    void head() {
        std::vector<sheet::Facts::Fact> facts = {
            {"Datum", (out_.model.assumed_datum  ? std::string("assumed")
                       : out_.book.datum.empty() ? std::string("not named")
                                                 : out_.book.datum) +
                          "; \u00b1 is one standard deviation, relative to " + relative_to(out_.book)},
        };
        const std::vector<StoryLine> story = story_of(out_.evaluation);
        // What was laid is told with what was wanted.
        const bool laid = std::any_of(story.begin(), story.end(),
                                      [](const StoryLine& line) { return line.label == fall_laid; });
        for (const StoryLine& line : story) {
            if (laid && line.label == fall_wanted) continue;
            if (line.label.empty()) {
                facts.back().value += "; " + line.text;
            } else {
                facts.push_back({std::string(line.label), line.text});
            }
        }
        if (facts.size() == 1) bare(facts);
        if (facts.size() > most_facts) {
            const std::size_t more = facts.size() - most_facts;
            facts.resize(most_facts);
            facts.push_back({"and more", counted(more, "line", "lines") + ", in the full record"});
        }
        if (laser_assumed(out_.evaluation.findings))
            facts.push_back({"assumed", "all of it if the instruments are as good as assumed (untested)"});
        out_.facts(std::move(facts));
    }

    // A book in which nothing is wanted: what there is.
    void bare(std::vector<sheet::Facts::Fact>& facts) const {
        facts.push_back({"levels", counted(out_.model.points.size(), "point", "points") + ", " +
                                       counted(out_.model.sights.rows.size(), "reading", "readings")});
        std::size_t good = 0;
        for (const JudgedClosure& closure : out_.evaluation.closures) good += closure.ok ? 1 : 0;
        if (!out_.evaluation.closures.empty())
            facts.push_back({"misclosures", std::to_string(good) + " of " +
                                                std::to_string(out_.evaluation.closures.size()) +
                                                " within what is allowed"});
    }

    void gather(std::size_t line) {
        const LineFalls& found = out_.evaluation.lines[line];
        const Design& design = out_.evaluation.designs.lines[line];
        const LineJudge judge(out_.book, design, found, out_.model);
        if (!judge.has_tolerances()) return;
        const std::string name = out_.name(out_.book.lines[line].name) + " ";
        for (const Station& station : found.stations) {
            const StationVerdict verdict = judge.judge(station);
            const Tolerance* tolerance = judge.tolerance_of(out_.book.names.text(station.what));
            if (tolerance == nullptr) continue;
            add(verdict.judged.verdict,
                name + station_words(out_.book, station) + ": " +
                    verdict_sentence(verdict.deviation, verdict.judged, *tolerance, out_.unit));
        }
        const std::vector<FoundFall> falls = list_falls(out_.book, design, found, out_.model);
        for (const FoundFall& fall : falls) {
            if (said_as_pipe(fall, falls)) continue;
            const FallVerdict verdict = judge.judge(fall);
            add(verdict.judged.verdict,
                name + level(fall.from, out_.unit) + " to " + level(fall.to, out_.unit) + " " +
                    std::string(fall.what) + ": falls " + fall_text(fall.gradient) + ", " +
                    (verdict.judged.plain_within ? "inside" : "outside") + " as measured; " +
                    percent(verdict.judged.probability) + " sure it truly is within");
        }
    }

    void add(Verdict verdict, std::string sentence) {
        if (verdict == Verdict::Outside)
            outside_.push_back(std::move(sentence));
        else if (verdict == Verdict::Undecided)
            close_.push_back(std::move(sentence));
    }

    void judged() {
        list("Outside", outside_);
        list("Too close to call", close_);
        if (!outside_.empty() || !close_.empty())
            out_.say(
                "Which counts, as measured or as sure, is for your contract. The rows to work each out by "
                "hand are in the full record.",
                sheet::Tone::Small);
    }

    void list(const char* title, std::vector<std::string>& items) {
        const std::size_t all = items.size();
        if (all > most_verdicts) {
            items.resize(most_verdicts);
            items.push_back("and " + std::to_string(all - most_verdicts) + " more, in the full record");
        }
        out_.heading(2, title);
        out_.list(std::vector<std::string>(items));
    }

    // Errors all, for they leave something out; then as many warnings as there is room for.
    void findings() {
        std::vector<std::string> items;
        std::size_t more = 0;
        for (const Severity severity : {Severity::Error, Severity::Warning}) {
            for (const Finding& found : beside_cautions(out_.evaluation.findings)) {
                if (catalogue(found.code).severity != severity) continue;
                if (severity == Severity::Error || items.size() < most_findings) {
                    items.push_back(finding_sentence(found));
                } else {
                    ++more;
                }
            }
        }
        if (more > 0) items.push_back("and " + std::to_string(more) + " more, in the full record");
        out_.heading(2, "What to look at");
        out_.list(std::move(items));
    }

    void cautions() {
        out_.heading(2, "Cautions");
        std::vector<std::string> items;
        const std::vector<Caution>& all = out_.evaluation.cautions.all;
        for (std::size_t i = 0; i < all.size() && i < most_cautions; ++i)
            items.push_back(caution_sentence(all[i]));
        if (all.size() > most_cautions)
            items.push_back("and " + std::to_string(all.size() - most_cautions) +
                            " more, in the full record");
        items.push_back(
            "Deeper or shallower, trenches fall in: the competent person decides support at every "
            "depth. Levels do not pass a drain: tests of tightness and alignment are not covered.");
        out_.list(std::move(items));
    }

    Writer& out_;
    const Wanted& wanted_;
    std::vector<std::string> outside_, close_;
};

}  // namespace

void add_one_page(Writer& out, const Wanted& wanted) {
    out.heading(1, "In short");
    OnePage(out, wanted).run();
}

}  // namespace fallwright::record
