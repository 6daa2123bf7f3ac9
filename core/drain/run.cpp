#include "drain/run.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <tuple>
#include <utility>

#include "drain/dips.h"
#include "drain/run_findings.h"
#include "drain/run_levels.h"
#include "drain/run_water.h"
#include "setout/targets.h"

namespace fallwright::drain {

namespace {

class RunMaker {
  public:
    RunMaker(const SetoutBasis& basis, std::size_t line, std::size_t setup, CoverRule cover,
             Findings& findings)
        : basis_(basis),
          levels_(basis, line),
          judge_(basis.book, levels_.design(), basis.found[line], basis.model),
          confidence_(confidence_of(basis.book)) {
        run_.line = line;
        run_.setup = setup;
        run_.with_chainage = levels_.with_chainage();
        run_.cover_rule = std::move(cover);
        if (setup != no_setup) targets_ = std::make_unique<Targets>(basis, line, setup, findings);
    }

    Run run() {
        falls_ = list_falls(basis_.book, levels_.design(), basis_.found[run_.line], basis_.model);
        add_pipes();
        add_flats();
        for (const Chamber* chamber : usable_chambers(levels_.line())) add_chamber(*chamber);
        for (const Join& join : levels_.line().joins) add_join(join);
        run_.dips = find_dips(basis_, levels_);
        for (const double ch : levels_.chainages()) add_stations(ch);
        return std::move(run_);
    }

  private:
    PipeEnd pipe_end(double ch, bool arriving) {
        PipeEnd end;
        end.ch = ch;
        end.what = levels_.what(ch, arriving);
        const DesignLevel invert = levels_.invert(ch, levels_.side(arriving));
        end.design = invert.value(levels_.level_of());
        if (const Station* laid = levels_.laid(ch, arriving)) {
            std::tie(end.laid, end.laid_sd) = levels_.found(laid->point);
            end.deviation = end.laid - end.design;
        }
        if (targets_) {
            const Target target = targets_->at(invert, ch, 0);
            end.staff = target.staff;
            end.staff_sd = target.sd;
        }
        return end;
    }

    void add_pipes() {
        const std::vector<const FoundFall*> laid = falls_of(Span::Pipe);
        auto next = laid.begin();
        for (const Pipe* pipe : levels_.design().pipes().pipes()) {
            RunPipe row;
            row.pipe = pipe;
            const bool with = run_.with_chainage;
            row.upper = pipe_end(with ? pipe->from : pipe->to, false);
            row.lower = pipe_end(with ? pipe->to : pipe->from, true);
            row.fall = (row.upper.design - row.lower.design) / (pipe->to - pipe->from);
            // Both by chainage; a pipe in which nothing was read has none.
            while (next != laid.end() && (*next)->to < pipe->from + least_chainage) ++next;
            if (next != laid.end() && (*next)->to < pipe->to + least_chainage) {
                row.laid_fall = (*next)->gradient;
                row.laid_fall_sd = (*next)->sd;
                row.backfall = judge_.judge(**next).backfall_probability;
            }
            run_.pipes.push_back(row);
        }
    }

    std::vector<const FoundFall*> falls_of(Span span) const {
        std::vector<const FoundFall*> found;
        for (const FoundFall& fall : falls_) {
            if (fall.span == span && fall.what == "laid") found.push_back(&fall);
        }
        return found;
    }

    void add_flats() {
        for (const FoundFall* fall : falls_of(Span::Neighbour)) {
            const FallVerdict verdict = judge_.judge(*fall);
            if (!(verdict.backfall_probability > 1 - confidence_) && !(fall->gradient < 0)) continue;
            run_.flats.push_back({fall->from, fall->to, fall->gradient, fall->sd, verdict.design,
                                  verdict.backfall_probability});
        }
    }

    void add_chamber(const Chamber& chamber) {
        RunChamber row;
        row.chamber = &chamber;
        const double ch = chamber.ch;
        const DesignLevel in = levels_.invert(ch, levels_.side(true));
        const DesignLevel out = levels_.invert(ch, levels_.side(false));
        row.in = in.value(levels_.level_of());
        row.out = out.value(levels_.level_of());
        row.drop = row.in - row.out;
        // Of a pipe that goes on beyond the chamber: at the ends of the line there is one on one side only.
        const auto bore = [&](bool arriving) {
            const Side side = levels_.side(arriving);
            const Pipe* pipe = levels_.pipe(ch, side);
            const bool beyond = pipe != nullptr && (side == Side::Before ? pipe->from < ch - least_chainage
                                                                         : pipe->to > ch + least_chainage);
            return beyond ? pipe->bore.value : NAN;
        };
        row.bore_in = bore(true);
        row.bore_out = bore(false);
        row.soffit_drop = row.drop + row.bore_in - row.bore_out;
        row.depth = chamber.cover.value - std::fmin(row.in, row.out);
        add_laid(row);
        run_.chambers.push_back(row);
    }

    void add_laid(RunChamber& row) const {
        const Station* in = levels_.laid(row.chamber->ch, true);
        const Station* out = levels_.laid(row.chamber->ch, false);
        if (in != nullptr) std::tie(row.laid_in, row.laid_in_sd) = levels_.found(in->point);
        if (out != nullptr) std::tie(row.laid_out, row.laid_out_sd) = levels_.found(out->point);
        if (in == nullptr || out == nullptr || in == out) return;
        const std::array<PointTerm, 2> drop = {{{in->point, 1}, {out->point, -1}}};
        row.laid_drop = row.laid_in - row.laid_out;
        row.laid_drop_sd = std::sqrt(std::max(0.0, basis_.model.variance_of(drop)));
    }

    void add_join(const Join& join) {
        RunJoin row;
        row.join = &join;
        row.ch = joining_end(levels_, join);
        if (std::isnan(row.ch)) return;
        const bool arriving = &join == levels_.line().joins.data();
        row.invert = levels_.invert(row.ch, levels_.side(arriving)).value(levels_.level_of());
        for (std::size_t i = 0; i < basis_.book.lines.size(); ++i) {
            if (basis_.book.lines[i].name != join.line) continue;
            const Design& other = basis_.designs.lines[i];
            row.other_invert = other.level("invert", join.ch).value(levels_.level_of());
            row.other_soffit = other.level("soffit", join.ch).value(levels_.level_of());
        }
        row.drop = row.invert - row.other_invert;
        run_.joins.push_back(row);
    }

    void add_stations(double ch) {
        if (!levels_.parts_at(ch)) {
            const bool downstream_end = levels_.pipe(ch, levels_.side(false)) == nullptr;
            add_station(ch, downstream_end);
            return;
        }
        add_station(ch, run_.with_chainage);
        add_station(ch, !run_.with_chainage);
    }

    void add_station(double ch, bool arriving) {
        RunStation station = levels_.station(ch, arriving);
        const auto judged = [&](double cover, double sd) {
            return judge_cover(run_.cover_rule, cover, sd, confidence_, basis_.book);
        };
        station.least = judged(station.cover, station.cover_sd);
        station.laid_least = judged(station.laid_cover, station.laid_cover_sd);
        run_.stations.push_back(station);
    }

    const SetoutBasis& basis_;
    RunLevels levels_;
    LineJudge judge_;
    double confidence_;
    std::unique_ptr<Targets> targets_;
    std::vector<FoundFall> falls_;
    Run run_;
};

void add(Findings& all, const Findings& more) {
    all.insert(all.end(), more.begin(), more.end());
}

}  // namespace

bool is_run(const LineEntry& line) {
    return line.use == LineUse::Drain && !(line.pipes.empty() && line.chambers.empty());
}

std::size_t standing_setup(const Book& book) {
    std::size_t last = no_setup;
    for (std::size_t i = 0; i < book.setups.size(); ++i) {
        const auto at = [&book](std::size_t setup) { return book.entries[book.setups[setup].entry].at; };
        if (last == no_setup || !(at(i) < at(last))) last = i;
    }
    return last;
}

Runs drain_runs(const SetoutBasis& basis, const std::vector<RunOrder>& orders, const RunWish& wish) {
    Runs runs;
    if (orders.empty()) return runs;
    Job job = job_of(basis.book);
    if (wish.held_to != nullptr) job.held_to = wish.held_to;
    runs.job = std::make_shared<const Job>(std::move(job));
    runs.findings = runs.job->findings;
    for (const RunOrder& order : orders) {
        Findings unasked;
        Findings& why = wish.staff_asked ? runs.findings : unasked;
        runs.runs.push_back(RunMaker(basis, order.line, wish.setup, order.cover, why).run());
        add_water(basis.book, *runs.job, wish.all_rules, runs.runs.back());
        add(runs.findings, run_findings(basis.book, *runs.job, runs.runs.back()));
    }
    return runs;
}

Runs drain_runs(const SetoutBasis& basis, const RunWish& wish) {
    std::vector<RunOrder> orders;
    Findings findings;
    for (std::size_t i = 0; i < basis.book.lines.size(); ++i) {
        if (is_run(basis.book.lines[i]))
            orders.push_back({i, cover_rule(basis.book, basis.book.lines[i], findings)});
    }
    Runs runs = drain_runs(basis, orders, wish);
    add(runs.findings, findings);
    return runs;
}

}  // namespace fallwright::drain
