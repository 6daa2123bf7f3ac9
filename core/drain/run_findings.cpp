#include "drain/run_findings.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/print.h"
#include "drain/rule_words.h"
#include "quantity/gradient.h"
#include "setout/cover_check.h"
#include "setout/words.h"

namespace fallwright::drain {

namespace {

std::string percent_words(double probability) {
    constexpr double sure = 0.999;
    if (probability > sure) return "over 99.9 %";
    std::string text = significant(probability * 100, 2);
    text += " %";
    return text;
}

class RunFindings {
  public:
    RunFindings(const Book& book, const Job& job, const Run& run) : book_(book), job_(job), run_(run) {}

    Findings run() {
        say_cover(false);
        say_cover(true);
        for (const Dip& dip : run_.dips) {
            if (!dip.agrees) say_dip(dip);
        }
        for (const RunChamber& chamber : run_.chambers) {
            // Written so that a bore that is not known (NaN) is no smaller one.
            if (chamber.bore_out < chamber.bore_in)
                say_narrow(chamber.chamber->ch, chamber.bore_in, chamber.bore_out);
        }
        for (std::size_t kind = 0; kind < run_.kinds.size(); ++kind) say_rules(kind);
        for (const PipeKind& kind : run_.kinds) say_overfull(kind);
        say_laid_falls();
        say_standing_out();
        return std::move(findings_);
    }

  private:
    std::string name() const { return book_.name(book_.lines[run_.line].name); }
    std::string words(double metres) const { return length_words(book_, metres); }

    void say(Code code, const std::string& message) {
        findings_.push_back(finding(code, {name()}, "line " + name() + ": " + message));
    }

    void say_overfull(const PipeKind& kind) {
        if (std::isnan(kind.asked.flow) || !(kind.asked.fall > 0) || kind.part) return;
        const Uniform most = greatest_flow(kind.asked.friction, kind.asked.bore, kind.asked.fall);
        say(Code::DrainOverfull, flow_words(kind.asked.flow, book_.unit) + " is more than " +
                                     bore_words(kind.asked.bore, book_.unit) + " at " +
                                     fall_words(kind.asked.fall) + " takes with a free surface, " +
                                     flow_words(most.flow, book_.unit));
    }

    // The stretch where cover is not surely enough, and the worst place in it.
    void say_cover(bool as_laid) {
        const RunStation* worst = nullptr;
        double from = NAN, to = NAN, least = NAN;
        for (const RunStation& station : run_.stations) {
            const Judgement& judged = as_laid ? station.laid_least : station.least;
            if (judged.verdict != Verdict::Outside && judged.verdict != Verdict::Undecided) continue;
            const double cover = as_laid ? station.laid_cover : station.cover;
            from = std::fmin(from, station.ch);
            to = std::fmax(to, station.ch);
            if (worst != nullptr && cover >= least) continue;
            worst = &station;
            least = cover;
        }
        if (worst != nullptr) say_cover(*worst, as_laid, from, to);
    }

    void say_cover(const RunStation& worst, bool as_laid, double from, double to) {
        const CoverRule& rule = run_.cover_rule;
        const double cover = as_laid ? worst.laid_cover : worst.cover;
        const double sd = as_laid ? worst.laid_cover_sd : worst.cover_sd;
        const Judgement& judged = as_laid ? worst.laid_least : worst.least;
        std::string text = stretch_words(book_, from, to);
        text += as_laid ? " the cover as laid" : " the cover";
        text += judged.plain_within ? " is hardly more than rule " : " is less than rule ";
        text += rule.name;
        const std::string source = source_words(rule.source);
        if (!source.empty()) text.append(" (").append(source).append(")");
        text.append(" asks for: ").append(words(cover)).append(" \u00b1 ").append(words(sd));
        text.append(" over the crown at chainage ").append(chainage_words(book_, worst.ch));
        text.append(", wanted ").append(words(rule.least)).append("; ");
        text.append(percent_words(1 - judged.probability)).append(" sure that it truly is less");
        say(Code::DrainShortCover, text);
    }

    void say_dip(const Dip& dip) {
        const std::string point = book_.name(dip.point);
        std::string text = "at chainage ";
        text.append(chainage_words(book_, dip.ch)).append(" the invert is ").append(words(dip.design));
        text.append(" by design, found at ").append(point).append(" it is ").append(words(dip.level));
        text.append(" \u00b1 ").append(words(dip.difference_sd)).append(", ");
        text.append(words(std::fabs(dip.difference))).append(dip.difference < 0 ? " lower" : " higher");
        say(Code::DrainDipDiffers, text);
    }

    void say_narrow(double ch, double in, double out) {
        constexpr double mm = 1000;
        std::string text = "at chainage ";
        text.append(chainage_words(book_, ch)).append(" a bore of ").append(trimmed(out * mm, 1));
        text.append(" mm follows one of ").append(trimmed(in * mm, 1)).append(" mm the way the water runs");
        say(Code::DrainBoreNarrows, text);
    }

    // Of the rules held to, which stand first.
    void say_rules(std::size_t kind) {
        const PipeKind& of = run_.kinds[kind];
        for (const CleansingVerdict& verdict : of.rules) {
            const preset::CleansingRule* rule = verdict.rule;
            if (!held_to(rule) || !(verdict.flatter || verdict.steeper)) continue;
            if (verdict.verdict == Cleansing::NotApplicable) continue;
            std::string text = stretch_of(kind);
            text.append(" ").append(cleansing_sentence(verdict, of.asked, book_.unit));
            say(verdict.verdict == Cleansing::Hint ? Code::DrainFlatterHint : Code::DrainFlatter, text);
        }
    }

    bool held_to(const preset::CleansingRule* rule) const {
        const auto own = [rule](const preset::CleansingRule& each) { return &each == rule; };
        return rule == job_.held_to || std::any_of(job_.own.begin(), job_.own.end(), own);
    }

    std::string stretch_of(std::size_t kind) const {
        double from = NAN, to = NAN;
        for (const RunPipe& pipe : run_.pipes) {
            if (pipe.kind != kind) continue;
            from = std::fmin(from, pipe.pipe->from);
            to = std::fmax(to, pipe.pipe->to);
        }
        return stretch_words(book_, from, to);
    }

    // As laid, where that is not as surely right: how many, and the least probable one.
    void say_laid_falls() {
        int pipes = 0;
        const RunPipe* worst = nullptr;
        for (const RunPipe& pipe : run_.pipes) {
            if (pipe.met.verdict != Verdict::Outside && pipe.met.verdict != Verdict::Undecided) continue;
            ++pipes;
            if (worst == nullptr || pipe.met.probability < worst->met.probability) worst = &pipe;
        }
        if (worst == nullptr) return;
        const Limits& held = run_.kinds[worst->kind].held;
        std::string text = std::to_string(pipes);
        text.append(pipes == 1 ? " pipe as laid does not surely fall" : " pipes as laid do not surely fall");
        text.append(" as the rules held to want; ");
        text.append(stretch_words(book_, worst->pipe->from, worst->pipe->to)).append(" it is ");
        text.append(fall_words(worst->laid_fall)).append(" \u00b1 ").append(percent_of(worst->laid_fall_sd));
        if (worst->laid_fall < held.below) text.append(", wanted ").append(fall_words(held.below));
        if (worst->laid_fall > held.above)
            text.append(", wanted no more than ").append(fall_words(held.above));
        text.append("; ")
            .append(percent_words(1 - worst->met.probability))
            .append(" sure that it truly does not");
        say(Code::DrainFlatter, text);
    }

    static std::string percent_of(double ratio) {
        std::string text = fixed(ratio * 100, 3);
        text += " %";
        return text;
    }

    // "1 in 150", "falling back 1 in 900", "level"
    static std::string fall_words(double fall) {
        const std::optional<double> one_in = Gradient::ratio(fall).one_in();
        if (!one_in) return "level";
        std::string text = fall < 0 ? "falling back 1 in " : "1 in ";
        text += trimmed(*one_in, 1);
        return text;
    }

    // In the words of a set-out table.
    void say_standing_out() {
        SetoutTable table;
        table.line = run_.line;
        for (const RunStation& station : run_.stations) {
            SetoutRow row;
            row.ch = station.ch;
            row.dig = station.ground - station.invert;
            row.cover = station.cover;
            table.rows.push_back(row);
        }
        check_cover(book_, table, findings_);
    }

    const Book& book_;
    const Job& job_;
    const Run& run_;
    Findings findings_;
};

}  // namespace

std::string source_words(const preset::Source& source) {
    if (source.text.empty()) return "";
    std::string text(source.text);
    text.append(", ").append(source.edition);
    return text;
}

Findings run_findings(const Book& book, const Job& job, const Run& run) {
    return RunFindings(book, job, run).run();
}

}  // namespace fallwright::drain
