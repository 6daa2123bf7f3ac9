#include <cmath>

#include "drain/trench.h"
#include "record/chapters.h"
#include "record/pipe_words.h"

namespace fallwright::record {

namespace {

using drain::PipeEnd;
using drain::Run;
using drain::RunPipe;
using drain::RunStation;

class RunChapter {
  public:
    RunChapter(Writer& out, const Run& run) : out_(out), run_(run), mm_(small_unit(out.unit)) {}

    void run() {
        out_.say(run_.with_chainage ? "The water runs with the chainage."
                                    : "The water runs against the chainage.");
        pipes();
        flats();
        chambers();
        joins();
        cover();
        water();
        trench();
    }

  private:
    std::string text(double metres) const { return level(metres, out_.unit); }

    void pipes() {
        Rows rows("Pipes", {figure_column("from"), figure_column("to"), figure_column("bore"),
                            words_column("designed"), words_column("as laid"), figure_column("%"),
                            figure_column("\u00b1 %"), figure_column("sure it falls back"),
                            text_column("as the rules want")});
        for (const RunPipe& pipe : run_.pipes) {
            const bool laid = !std::isnan(pipe.laid_fall);
            rows.add({text(pipe.pipe->from), text(pipe.pipe->to), bore_text(pipe.pipe->bore.value, out_.unit),
                      fall_text(pipe.fall), fall_text(pipe.laid_fall), percent_figure(pipe.laid_fall),
                      percent_figure(pipe.laid_fall_sd),
                      laid && !std::isnan(pipe.backfall) ? percent(pipe.backfall) : "",
                      rules_met_words(pipe.met)});
        }
        out_.table(std::move(rows));
    }

    void flats() {
        std::vector<std::string> items;
        for (const drain::FlatSpot& flat : run_.flats)
            items.push_back("from " + text(flat.from) + " to " + text(flat.to) + ": " +
                            (flat.fall < 0 ? "falls back " : "falls ") +
                            percent_figure(std::fabs(flat.fall)) + " \u00b1 " + percent_figure(flat.fall_sd) +
                            " %, " + percent(flat.backfall) + " sure that it truly falls back");
        if (items.empty()) return;
        out_.heading(3, "Flat as laid, or falling back");
        out_.list(std::move(items));
    }

    void chambers() {
        Rows rows("Chambers",
                  {words_column("chamber"), figure_column("chainage"), figure_column("cover"),
                   figure_column("depth"), figure_column("in"), figure_column("out"), figure_column("drop"),
                   figure_column("drop as laid"), figure_column("\u00b1 " + mm_)});
        for (const drain::RunChamber& row : run_.chambers)
            rows.add({out_.name(row.chamber->name), text(row.chamber->ch), text(row.chamber->cover.value),
                      text(row.depth), text(row.in), text(row.out), text(row.drop), text(row.laid_drop),
                      small(row.laid_drop_sd, out_.unit)});
        out_.table(std::move(rows));
    }

    void joins() {
        std::vector<std::string> items;
        for (const drain::RunJoin& join : run_.joins)
            items.push_back("joins " + out_.name(join.join->line) + " at its chainage " +
                            text(join.join->ch) + " by the " + (join.join->by_soffit ? "soffit" : "invert") +
                            ": invert " + text(join.invert) + ", the other's " + text(join.other_invert));
        for (const drain::Dip& dip : run_.dips)
            items.push_back("dip at " + out_.name(dip.point) + ": " + text(dip.level) + " \u00b1 " +
                            out_.mm(dip.difference_sd) + ", by design " + text(dip.design) +
                            (dip.agrees ? "; they agree" : "; THEY DISAGREE"));
        out_.list(std::move(items));
    }

    void cover() {
        Rows rows("Cover over the crown, depth to the trench bottom",
                  {figure_column("chainage"), words_column("invert"), figure_column("ground"),
                   figure_column("level"), figure_column("cover"), figure_column("\u00b1 " + mm_),
                   figure_column("as laid"), figure_column("\u00b1 " + mm_), text_column("cover"),
                   figure_column("depth"), figure_column("\u00b1 " + mm_)});
        for (const RunStation& row : run_.stations) {
            const bool laid = row.laid_least.verdict != Verdict::Untested;
            rows.add({text(row.ch), std::string(row.what), text(row.ground), text(row.invert),
                      text(row.cover), small(row.cover_sd, out_.unit), text(row.laid_cover),
                      small(row.laid_cover_sd, out_.unit), cover_words(laid ? row.laid_least : row.least),
                      text(row.depth), small(row.depth_sd, out_.unit)});
        }
        if (rows.empty()) return;
        out_.table(std::move(rows));
        const std::string rule = cover_rule_words(run_.cover_rule, out_.unit);
        if (rule.empty()) return;
        out_.say(capital(rule) + ".", sheet::Tone::Small);
    }

    void water() {
        std::vector<std::string> items;
        for (const drain::PipeKind& kind : run_.kinds) {
            items.push_back(bore_text(kind.asked.bore, out_.unit) + " at " + fall_text(kind.asked.fall) +
                            ", full bore: " + velocity_text(kind.full.velocity, out_.unit) + ", " +
                            flow_text(kind.full.flow, out_.unit));
            if (std::string flow = at_flow_words(kind, out_.unit); !flow.empty())
                items.push_back(std::move(flow));
            for (const drain::CleansingVerdict& held : kind.rules) {
                items.push_back(held.verdict == drain::Cleansing::NotApplicable
                                    ? std::string(held.rule->title) + ": " + held.why
                                    : drain::cleansing_sentence(held, kind.asked, out_.unit));
            }
        }
        if (items.empty()) return;
        out_.heading(3, "What the pipes carry, and the rule the job is held to");
        out_.list(std::move(items));
        out_.say("Meeting a rule of self-cleansing is no promise that a drain keeps clean.",
                 sheet::Tone::Small);
    }

    void trench() {
        Findings findings;
        const drain::TrenchRule rule = drain::trench_rule(out_.book, out_.book.lines[run_.line], findings);
        const drain::Trench trench =
            drain::trench_of(setout_basis(out_.evaluation), run_.line, rule, findings);
        Rows rows(
            "What is dug and filled",
            {figure_column("from"), figure_column("to"), figure_column("bore"), figure_column("width"),
             figure_column("depth"), figure_column("dug"), figure_column("\u00b1"), figure_column("bedding"),
             figure_column("surround"), figure_column("pipe"), figure_column("backfill")});
        const auto add = [&](std::vector<std::string> cells, const drain::Dug& dug) {
            for (const double volume :
                 {dug.dug, dug.dug_sd, dug.bedding, dug.surround, dug.pipe, dug.backfill})
                cells.push_back(volume_text(volume, out_.unit));
            rows.add(std::move(cells));
        };
        for (const drain::TrenchStretch& row : trench.stretches)
            add({text(row.from), text(row.to), bore_text(row.pipe->bore.value, out_.unit),
                 between(row.narrowest, row.widest), between(row.shallowest, row.deepest)},
                row.volumes);
        if (rows.empty()) return;
        if (trench.stretches.size() > 1) {
            rows.rule();
            add({"together", "", "", "", ""}, trench.total);
        }
        out_.table(std::move(rows));
        std::vector<std::string> items = {trench_rule_words(trench.rule, out_.unit)};
        for (std::string& words : spoil_words(trench, out_.unit)) items.push_back(std::move(words));
        out_.list(std::move(items));
        out_.figures(trench_sections(out_.evaluation, run_.line, out_.upright()));
    }

    std::string between(double least, double most) const {
        const std::string low = text(least), high = text(most);
        return low == high ? low : low + " to " + high;
    }

    Writer& out_;
    const Run& run_;
    std::string mm_;
};

}  // namespace

void add_drains(Writer& out) {
    out.heading(1, "Drains");
    for (const Run& run : out.evaluation.drains.runs) {
        out.heading(2, "Drain " + out.name(out.book.lines[run.line].name));
        RunChapter(out, run).run();
    }
}

}  // namespace fallwright::record
