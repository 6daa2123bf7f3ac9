#include "shells/cli/people_runs.h"

#include <algorithm>
#include <cmath>

#include "base/print.h"
#include "record/pipe_words.h"
#include "shells/cli/people_drain.h"
#include "shells/cli/table.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

namespace {

using record::bore_text;
using record::fall_text;
using record::flow_text;
using record::velocity_text;

using drain::PipeEnd;
using drain::Run;
using drain::RunPipe;
using drain::RunStation;

std::string sd_text(double ratio) {
    return std::isnan(ratio) ? "" : fixed(ratio * 100, 3);
}

class RunText {
  public:
    RunText(const Book& book, const Run& run) : book_(book), unit_(book.unit), run_(run) {}

    std::string heading() const {
        std::string text = book_.name(book_.lines[run_.line].name) + ", lengths in " + unit_text(unit_);
        text += run_.with_chainage ? ", water runs with the chainage" : ", water runs against the chainage";
        if (run_.setup != no_setup)
            text += "; staff as read from " + book_.name(book_.setups[run_.setup].name);
        return text + ". ± is one standard deviation.\n";
    }

    std::string pipes() const {
        Table table({{"from"},
                     {"to"},
                     {"bore"},
                     {"designed", Align::Left},
                     {"as laid", Align::Left},
                     {"%"},
                     {"±"},
                     {"falls back"},
                     {"as the rules want", Align::Left}});
        for (const RunPipe& pipe : run_.pipes) {
            const bool laid = !std::isnan(pipe.laid_fall);
            table.add({level(pipe.pipe->from, unit_), level(pipe.pipe->to, unit_),
                       bore_text(pipe.pipe->bore.value, unit_), fall_text(pipe.fall),
                       fall_text(pipe.laid_fall), sd_text(pipe.laid_fall), sd_text(pipe.laid_fall_sd),
                       laid && !std::isnan(pipe.backfall) ? percent(pipe.backfall) : "",
                       record::rules_met_words(pipe.met)});
        }
        return table.empty() ? "" : "\nPipes\n" + table.text();
    }

    std::string ends() const {
        const std::string mm = small_unit(unit_);
        Table table({{"chainage"},
                     {"invert", Align::Left},
                     {"end", Align::Left},
                     {"design"},
                     {"found"},
                     {"off, " + mm},
                     {"± " + mm},
                     {"staff"},
                     {"± " + mm}});
        const PipeEnd* before = nullptr;
        const auto add = [&](const PipeEnd& end, const char* which) {
            const bool again = before != nullptr && before->ch == end.ch && before->what == end.what;
            before = &end;
            if (again) return;
            table.add({level(end.ch, unit_), std::string(end.what), which, level(end.design, unit_),
                       level(end.laid, unit_), signed_small(end.deviation, unit_), small(end.laid_sd, unit_),
                       level(end.staff, unit_), small(end.staff_sd, unit_)});
        };
        for (const RunPipe& pipe : run_.pipes) {
            add(run_.with_chainage ? pipe.upper : pipe.lower, run_.with_chainage ? "socket" : "spigot");
            add(run_.with_chainage ? pipe.lower : pipe.upper, run_.with_chainage ? "spigot" : "socket");
        }
        return table.empty() ? "" : "\nInverts at the ends of the pipes\n" + table.text();
    }

    std::string flats() const {
        std::string text;
        for (const drain::FlatSpot& flat : run_.flats) {
            text += "  from " + level(flat.from, unit_) + " to " + level(flat.to, unit_) + ": ";
            text += flat.fall < 0 ? "falls back " : "falls ";
            text += fixed(std::fabs(flat.fall) * 100, 3) + " ± " + sd_text(flat.fall_sd) + " %, ";
            text += percent(flat.backfall) + " sure that it truly falls back\n";
        }
        return text.empty() ? "" : "\nFlat as laid, or falling back\n" + text;
    }

    std::string chambers() const {
        Table table({{"chamber", Align::Left},
                     {"chainage"},
                     {"cover"},
                     {"depth"},
                     {"in"},
                     {"out"},
                     {"drop"},
                     {"bore in"},
                     {"out"},
                     {"soffit drop"},
                     {"drop as laid"},
                     {"± " + small_unit(unit_)}});
        for (const drain::RunChamber& row : run_.chambers)
            table.add({book_.name(row.chamber->name), level(row.chamber->ch, unit_),
                       level(row.chamber->cover.value, unit_), level(row.depth, unit_), level(row.in, unit_),
                       level(row.out, unit_), level(row.drop, unit_), bore_text(row.bore_in, unit_),
                       bore_text(row.bore_out, unit_), level(row.soffit_drop, unit_),
                       level(row.laid_drop, unit_), small(row.laid_drop_sd, unit_)});
        return table.empty() ? "" : "\nChambers\n" + table.text() + joins();
    }

    std::string joins() const {
        std::string text;
        for (const drain::RunJoin& join : run_.joins) {
            text += "  joins " + book_.name(join.join->line) + " at its chainage " +
                    level(join.join->ch, unit_) + " by the " + (join.join->by_soffit ? "soffit" : "invert") +
                    ": invert " + level(join.invert, unit_) + ", the other's " +
                    level(join.other_invert, unit_);
            if (!std::isnan(join.other_soffit)) text += ", its soffit " + level(join.other_soffit, unit_);
            text += "\n";
        }
        for (const drain::Dip& dip : run_.dips)
            text += "  dip at " + book_.name(dip.point) + ": " + level(dip.level, unit_) + " ± " +
                    small(dip.difference_sd, unit_) + " " + small_unit(unit_) + ", by design " +
                    level(dip.design, unit_) + (dip.agrees ? "; they agree\n" : "; THEY DISAGREE\n");
        return text;
    }

    std::string along() const {
        const std::string mm = small_unit(unit_);
        Table table({{"chainage"},
                     {"invert", Align::Left},
                     {"ground"},
                     {"level"},
                     {"soffit"},
                     {"crown"},
                     {"cover"},
                     {"± " + mm},
                     {"as laid"},
                     {"± " + mm},
                     {"cover", Align::Left},
                     {"bottom"},
                     {"depth"},
                     {"± " + mm}});
        for (const RunStation& row : run_.stations) {
            const bool laid = row.laid_least.verdict != Verdict::Untested;
            table.add({level(row.ch, unit_), std::string(row.what), level(row.ground, unit_),
                       level(row.invert, unit_), level(row.soffit, unit_), level(row.crown, unit_),
                       level(row.cover, unit_), small(row.cover_sd, unit_), level(row.laid_cover, unit_),
                       small(row.laid_cover_sd, unit_),
                       record::cover_words(laid ? row.laid_least : row.least), level(row.bottom, unit_),
                       level(row.depth, unit_), small(row.depth_sd, unit_)});
        }
        if (table.empty()) return "";
        std::string text = "\nAlong the line: cover over the crown, depth to the trench bottom\n";
        const std::string rule = record::cover_rule_words(run_.cover_rule, unit_);
        if (!rule.empty()) text += "  " + rule + "\n";
        return text + table.text();
    }

    std::string water(const preset::CleansingRule* held_to) const {
        std::string text;
        for (const drain::PipeKind& kind : run_.kinds) {
            const std::string at_flow = record::at_flow_words(kind, unit_);
            text += "\n" + bore_text(kind.asked.bore, unit_) + " at " + fall_text(kind.asked.fall) +
                    ", full bore: " + velocity_text(kind.full.velocity, unit_) + ", " +
                    flow_text(kind.full.flow, unit_) + "\n" + (at_flow.empty() ? "" : at_flow + "\n") +
                    rules_text(kind.rules, kind.asked, held_to, unit_);
        }
        return text;
    }

  private:
    const Book& book_;
    Unit unit_;
    const Run& run_;
};

// From the least to the greatest of a figure, or one of them.
std::string between(const std::string& least, const std::string& greatest) {
    return least == greatest ? least : least + " to " + greatest;
}

class ShortText {
  public:
    ShortText(const Book& book, const Run& run) : book_(book), unit_(book.unit), run_(run) {}

    std::string text() const {
        return "  " + book_.name(book_.lines[run_.line].name) + ": " + pipes() + laid() + cover() + depth() +
               "\n";
    }

  private:
    std::string pipes() const {
        double narrow = NAN, wide = NAN, flat = NAN, steep = NAN;
        for (const RunPipe& pipe : run_.pipes) {
            narrow = std::fmin(narrow, pipe.pipe->bore.value);
            wide = std::fmax(wide, pipe.pipe->bore.value);
            flat = std::fmin(flat, pipe.fall);
            steep = std::fmax(steep, pipe.fall);
        }
        std::string text = std::to_string(run_.pipes.size()) + (run_.pipes.size() == 1 ? " pipe" : " pipes");
        if (!std::isnan(wide)) text += " of " + between(bore_text(narrow, unit_), bore_text(wide, unit_));
        if (!std::isnan(flat)) text += ", designed " + between(fall_text(flat), fall_text(steep));
        return text;
    }

    std::string laid() const {
        double flat = NAN, steep = NAN;
        for (const RunPipe& pipe : run_.pipes) {
            flat = std::fmin(flat, pipe.laid_fall);
            steep = std::fmax(steep, pipe.laid_fall);
        }
        if (std::isnan(flat)) return "";
        std::string text = ", laid " + between(fall_text(flat), fall_text(steep));
        if (!run_.flats.empty())
            text += "; " + std::to_string(run_.flats.size()) +
                    (run_.flats.size() == 1 ? " place that may fall back" : " places that may fall back");
        return text;
    }

    std::string cover() const {
        const RunStation* least = nullptr;
        for (const RunStation& row : run_.stations) {
            if (!std::isnan(row.cover) && (least == nullptr || row.cover < least->cover)) least = &row;
        }
        if (least == nullptr) return "";
        return "\n      least cover " + level(least->cover, unit_) + " ± " + small(least->cover_sd, unit_) +
               " " + small_unit(unit_) + " at " + level(least->ch, unit_);
    }

    std::string depth() const {
        const RunStation* most = nullptr;
        for (const RunStation& row : run_.stations) {
            if (!std::isnan(row.depth) && (most == nullptr || row.depth > most->depth)) most = &row;
        }
        if (most == nullptr) return "";
        return "\n      trench bottom up to " + level(most->depth, unit_) + " ± " +
               small(most->depth_sd, unit_) + " " + small_unit(unit_) + " deep, at " + level(most->ch, unit_);
    }

    const Book& book_;
    Unit unit_;
    const Run& run_;
};

}  // namespace

std::string drains_text(const DrainBookAnswer& answer) {
    const Book& book = *answer.evaluation->book;
    std::string text;
    for (std::size_t i = 0; i < answer.runs.runs.size(); ++i) {
        const RunText run(book, answer.runs.runs[i]);
        if (i > 0) text += "\n";
        text += run.heading() + run.pipes() + run.ends() + run.flats() + run.chambers() + run.along() +
                run.water(answer.runs.job->held_to) + trench_text(answer.trenches[i], book.unit);
    }
    if (answer.followed) text += follow_text(answer);
    const std::string findings = findings_text(beside_cautions(answer.findings));
    return text + (findings.empty() ? "" : "\nTo look at\n" + findings) + cautions_text(answer.cautions);
}

std::string drains_in_short(const Evaluation& evaluation) {
    std::string text;
    for (const Run& run : evaluation.drains.runs) text += ShortText(*evaluation.book, run).text();
    return text.empty() ? "" : "\nDrains (in full: fallwright drain BOOK)\n" + text;
}

}  // namespace fallwright::cli
