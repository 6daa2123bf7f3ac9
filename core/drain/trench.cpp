#include "drain/trench.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "drain/run_levels.h"
#include "drain/trench_section.h"
#include "setout/words.h"

namespace fallwright::drain {

namespace {

constexpr int parts_of_a_curve = 16;

// How the volume dug grows with the level found at each point, m2.
using Weights = std::map<std::int32_t, double>;

double sd_of(const Model& model, const Weights& weights) {
    std::vector<PointTerm> sum;
    sum.reserve(weights.size());
    for (const auto& [point, weight] : weights) sum.push_back({point, weight});
    return std::sqrt(std::max(0.0, model.variance_of(sum)));
}

void add_to(Dug& total, const Dug& more) {
    total.by_end_areas += more.by_end_areas;
    total.dug += more.dug;
    total.bedding += more.bedding;
    total.surround += more.surround;
    total.pipe += more.pipe;
    total.backfill += more.backfill;
}

bool alike(const Pipe& a, const Pipe& b) {
    const auto same = [](const Maybe& x, const Maybe& y) { return x.has() ? x.value == y.value : !y.has(); };
    return same(a.bore, b.bore) && same(a.wall, b.wall) && same(a.bedding, b.bedding);
}

class TrenchMaker {
  public:
    TrenchMaker(const SetoutBasis& basis, std::size_t line, const TrenchRule& rule, Findings& findings)
        : basis_(basis), levels_(basis, line), findings_(findings) {
        trench_.rule = rule;
        bottom_ = levels_.design().heights().find("formation");
        add_places();
    }

    Trench run() {
        for (const Pipe* pipe : levels_.design().pipes().pipes()) add_pipe(*pipe);
        for (const TrenchStretch& stretch : trench_.stretches) add_to(trench_.total, stretch.volumes);
        trench_.total.dug_sd = sd_of(basis_.model, total_weights_);
        trench_.spoil = spoil_of(trench_.total, trench_.rule);
        say_left_out();
        return std::move(trench_);
    }

  private:
    struct Cut {
        double ch = 0, depth = NAN;
        LevelAlong ground;
        DesignLevel bottom;
    };

    // Where ground or design bend, and between the ends of a vertical curve so often that it runs straight.
    void add_places() {
        places_ = levels_.chainages();
        for (const ProfilePiece& piece : levels_.design().profile().pieces()) {
            for (int i = 1; piece.curved && i < parts_of_a_curve; ++i)
                places_.push_back(piece.from + (piece.to - piece.from) * i / parts_of_a_curve);
        }
        std::sort(places_.begin(), places_.end());
    }

    bool chamber_at(double ch) const {
        const std::vector<Chamber>& chambers = levels_.line().chambers;
        return std::any_of(chambers.begin(), chambers.end(), [ch](const Chamber& chamber) {
            return std::fabs(chamber.ch - ch) < least_chainage;
        });
    }

    TrenchStretch& stretch_for(const Pipe& pipe) {
        const bool goes_on = !trench_.stretches.empty() && !chamber_at(pipe.from) &&
                             std::fabs(trench_.stretches.back().to - pipe.from) < least_chainage &&
                             alike(*trench_.stretches.back().pipe, pipe);
        if (!goes_on) {
            trench_.stretches.emplace_back();
            trench_.stretches.back().from = pipe.from;
            trench_.stretches.back().pipe = &pipe;
            weights_.clear();
        }
        trench_.stretches.back().to = pipe.to;
        return trench_.stretches.back();
    }

    void add_pipe(const Pipe& pipe) {
        TrenchStretch& stretch = stretch_for(pipe);
        const TrenchSection section(trench_.rule, pipe);
        Cut before = cut(pipe.from, Side::After);
        for (auto at = std::upper_bound(places_.begin(), places_.end(), pipe.from + least_chainage);
             at != places_.end() && *at < pipe.to - least_chainage; ++at) {
            const Cut here = cut(*at, Side::Before);
            add_piece(section, before, here, stretch);
            before = here;
        }
        add_piece(section, before, cut(pipe.to, Side::Before), stretch);
        stretch.volumes.dug_sd = sd_of(basis_.model, weights_);
    }

    Cut cut(double ch, Side side) const {
        Cut cut;
        cut.ch = ch;
        cut.ground = levels_.ground(ch);
        cut.bottom = levels_.design().level(bottom_, ch, 0, side);
        cut.depth = cut.ground.level - cut.bottom.value(levels_.level_of());
        return cut;
    }

    void add_piece(const TrenchSection& section, const Cut& a, const Cut& b, TrenchStretch& stretch) {
        const double length = b.ch - a.ch;
        if (std::isnan(a.depth) || std::isnan(b.depth)) {
            stretch.left_out += length;
            (std::isnan(a.ground.level) || std::isnan(b.ground.level) ? no_ground_ : no_bottom_) += length;
            return;
        }
        std::array<double, 2> weights = {0, 0};
        section.add_piece(length, a.depth, b.depth, stretch.volumes, weights);
        add_weights(a, weights[0]);
        add_weights(b, weights[1]);
        for (const double depth : {a.depth, b.depth}) {
            const double width = section.width(depth);
            stretch.shallowest = std::fmin(stretch.shallowest, depth);
            stretch.deepest = std::fmax(stretch.deepest, depth);
            stretch.narrowest = std::fmin(stretch.narrowest, width);
            stretch.widest = std::fmax(stretch.widest, width);
        }
    }

    void add_weights(const Cut& cut, double weight) {
        const auto add = [this](std::int32_t point, double by) {
            weights_[point] += by;
            total_weights_[point] += by;
        };
        for (const PointTerm& term : cut.ground.terms) add(term.point, weight * term.coefficient);
        for (const Hang& hang : cut.bottom.hangs)
            add(basis_.model.points.at(hang.point), -weight * hang.coefficient);
    }

    void say_left_out() {
        const Book& book = basis_.book;
        const std::string name = book.name(levels_.line().name);
        const auto say = [&](double length, const std::string& why, const std::string& cure) {
            if (length < least_chainage) return;
            std::string text = "line " + name + ": ";
            text.append(length_words(book, length)).append(" of its trench ").append(why);
            text.append(" and is left out of the volumes");
            findings_.push_back(finding(Code::DrainTrenchUnknown, {name}, text, cure));
        };
        say(no_ground_, "has no ground read over it", "read the ground along the line, to both its ends");
        say(no_bottom_, "has no bottom that is known", "give bedding in its pipes, 0 where there is none");
    }

    const SetoutBasis& basis_;
    RunLevels levels_;
    Findings& findings_;
    Trench trench_;
    DesignSurface bottom_;
    std::vector<double> places_;
    Weights weights_, total_weights_;  // of the stretch at hand, and of all
    double no_ground_ = 0, no_bottom_ = 0;
};

}  // namespace

Spoil spoil_of(const Dug& dug, const TrenchRule& rule) {
    Spoil spoil;
    const auto loads = [&rule](double loose) {
        constexpr double a_shovelful = 1e-6;  // no lorry comes for rounding
        return std::ceil(loose / rule.load - a_shovelful);
    };
    spoil.surplus = dug.dug - dug.backfill;
    spoil.loose = dug.dug * (1 + rule.bulking);
    spoil.surplus_loose = spoil.surplus * (1 + rule.bulking);
    spoil.loads = loads(spoil.loose);
    spoil.surplus_loads = loads(spoil.surplus_loose);
    return spoil;
}

Trench trench_of(const SetoutBasis& basis, std::size_t line, const TrenchRule& rule, Findings& findings) {
    say_from_memory(rule, findings);
    return TrenchMaker(basis, line, rule, findings).run();
}

}  // namespace fallwright::drain
