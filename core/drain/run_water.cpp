#include "drain/run_water.h"

#include <algorithm>
#include <cmath>

#include "base/print.h"

namespace fallwright::drain {

namespace {

class Water {
  public:
    Water(const Book& book, const Job& job, bool all_rules, Run& run)
        : book_(book), job_(job), all_rules_(all_rules), run_(run), confidence_(confidence_of(book)) {}

    void add() {
        for (RunPipe& pipe : run_.pipes) {
            if (!pipe.pipe->bore.has() || std::isnan(pipe.fall)) continue;
            pipe.kind = kind_of(pipe);
            pipe.met = judged(pipe.laid_fall, pipe.laid_fall_sd, run_.kinds[pipe.kind].held);
        }
    }

  private:
    std::size_t kind_of(const RunPipe& pipe) {
        CleansingCase asked;
        asked.bore = pipe.pipe->bore.value;
        asked.fall = rounded_to(pipe.fall, gradient_places);
        asked.friction = friction_of(job_, *pipe.pipe);
        asked.flow = job_.flow;
        asked.closets = job_.closets;
        const auto same = [&asked](const PipeKind& kind) {
            return kind.asked.bore == asked.bore && kind.asked.fall == asked.fall &&
                   kind.asked.friction.roughness == asked.friction.roughness;
        };
        const auto known = std::find_if(run_.kinds.begin(), run_.kinds.end(), same);
        if (known == run_.kinds.end()) {
            add_kind(asked);
            return run_.kinds.size() - 1;
        }
        return static_cast<std::size_t>(known - run_.kinds.begin());
    }

    void add_kind(const CleansingCase& asked) {
        PipeKind kind;
        kind.asked = asked;
        kind.full = uniform_full(asked.friction, asked.bore, asked.fall);
        add_part(kind);
        for (const preset::CleansingRule& own : job_.own)
            add_held(hold_against(own, asked, book_.unit), kind);
        if (job_.held_to != nullptr) add_held(hold_against(*job_.held_to, asked, book_.unit), kind);
        if (all_rules_) kind.rules = rules_of(job_, asked, book_.unit);
        run_.kinds.push_back(std::move(kind));
    }

    static void add_part(PipeKind& kind) {
        const CleansingCase& asked = kind.asked;
        if (std::isnan(asked.flow) || !(asked.fall > 0)) return;
        const Uniform lower = depths_of_flow(asked.friction, asked.bore, asked.fall, asked.flow).lower;
        if (!std::isnan(lower.depth)) kind.part = lower;
    }

    // A rule from memory is no limit.
    static void add_held(CleansingVerdict verdict, PipeKind& kind) {
        const bool speaks = verdict.verdict != Cleansing::NotApplicable && verdict.verdict != Cleansing::Hint;
        // Written so that a limit that is not there (NaN) is none.
        if (speaks && verdict.wants_fall > kind.held.below) kind.held.below = verdict.wants_fall;
        if (speaks && verdict.most_fall < kind.held.above) kind.held.above = verdict.most_fall;
        kind.rules.push_back(std::move(verdict));
    }

    Judgement judged(double fall, double sd, const Limits& limits) const {
        Judgement judged;
        const bool open = !std::isfinite(limits.below) && !std::isfinite(limits.above);
        if (open || std::isnan(fall) || std::isnan(sd)) return judged;
        const double shown = rounded_to(fall, gradient_places);
        const auto limit = [](double v) { return std::isfinite(v) ? rounded_to(v, gradient_places) : v; };
        judged.plain_within = shown >= limit(limits.below) && shown <= limit(limits.above);
        judged.probability = sd == 0 ? (judged.plain_within ? 1 : 0) : probability_within(fall, sd, limits);
        judged.verdict = verdict_of(judged.probability, confidence_);
        return judged;
    }

    const Book& book_;
    const Job& job_;
    bool all_rules_;
    Run& run_;
    double confidence_;
};

}  // namespace

void add_water(const Book& book, const Job& job, bool all_rules, Run& run) {
    Water(book, job, all_rules, run).add();
}

}  // namespace fallwright::drain
