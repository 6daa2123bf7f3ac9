#include "drain/follow_line.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

#include "base/print.h"
#include "drain/dips.h"
#include "drain/run_levels.h"
#include "drain/trench_section.h"
#include "setout/words.h"

namespace fallwright::drain {

namespace {

std::string surface_of(const SetoutBasis& basis, const FollowWish& wish) {
    if (!wish.what.empty()) return wish.what;
    const GroundAlong finished(basis.book, basis.found[wish.line], basis.model, "finished");
    return finished.chainages().size() >= 2 ? "finished" : "ground";
}

class Follower {
  public:
    Follower(const SetoutBasis& basis, const FollowWish& wish)
        : basis_(basis),
          wish_(wish),
          levels_(basis, wish.line),
          what_(surface_of(basis, wish)),
          ground_(basis.book, basis.found[wish.line], basis.model, what_),
          read_at_(ground_.chainages()),
          section_(wish.trench, wish.pipe) {}

    FollowedLine run() {
        found_.what = what_;
        say_from_memory(wish_.trench, found_.findings);
        if (read_at_.size() < 2) {
            say(Code::DrainFollowNoGround, "its " + what_ + " was read at fewer than two places");
            return std::move(found_);
        }
        found_.from = read_at_.front();
        found_.to = read_at_.back();
        found_.with_chainage = runs_with_chainage();
        FollowLimits limits = wish_.limits;
        find_outfall(limits);
        lay_road();
        for (int grades = 1; grades <= wish_.limits.grades; ++grades) {
            limits.grades = grades;
            const Followed followed = follow(road_, limits);
            if (!followed.found) return not_found(followed, limits);
            add_choice(followed);
        }
        find_sure_cover();
        say_depth();
        return std::move(found_);
    }

  private:
    std::string name() const { return basis_.book.name(basis_.book.lines[wish_.line].name); }
    double level(double ch) const { return ground_.at(ch, 0).level; }
    // Distance from the upper end and chainage, both ways.
    double turned(double place) const {
        return found_.with_chainage ? place - found_.from : found_.to - place;
    }
    double chainage(double x) const { return found_.with_chainage ? found_.from + x : found_.to - x; }
    double wall() const { return wish_.pipe.wall.or_else(0); }
    double over_invert() const { return wish_.pipe.bore.or_else(0) + wall(); }
    double under_invert() const { return wish_.pipe.bedding.or_else(0) + wall(); }

    void say(Code code, const std::string& message) {
        found_.findings.push_back(finding(code, {name()}, "line " + name() + ": " + message));
    }

    bool runs_with_chainage() const {
        if (wish_.flow != Flow::Default) return wish_.flow == Flow::With;
        if (levels_.line().flow != Flow::Default || levels_.design().any()) return levels_.with_chainage();
        return level(found_.to) <= level(found_.from);
    }

    void find_outfall(FollowLimits& limits) {
        const double end = found_.with_chainage ? found_.to : found_.from;
        if (std::isfinite(limits.outfall)) {
            found_.outfall = limits.outfall;
            return;
        }
        if (const std::optional<InvertFound> dip = invert_found(basis_, levels_, end)) {
            found_.outfall = dip->level;
            found_.outfall_from = basis_.book.name(dip->point);
        }
        if (std::isnan(found_.outfall) && !levels_.line().joins.empty()) {
            const double fixed = levels_.invert(end, levels_.side(true)).value(levels_.level_of());
            found_.outfall = fixed;
            if (!std::isnan(fixed)) found_.outfall_from = basis_.book.name(levels_.line().joins.front().line);
        }
        if (!std::isnan(found_.outfall)) limits.outfall = found_.outfall;
    }

    void lay_road() {
        for (const double ch : read_at_) {
            road_.x.push_back(turned(ch));
            road_.highest.push_back(level(ch) - wish_.cover - over_invert());
        }
        std::vector<double> breaks = wish_.breaks;
        if (breaks.empty()) {
            for (const Chamber& chamber : levels_.line().chambers) breaks.push_back(chamber.ch);
        }
        if (breaks.empty()) breaks = read_at_;
        for (const double ch : breaks) {
            if (ch > found_.from + least_chainage && ch < found_.to - least_chainage)
                road_.breaks.push_back(turned(ch));
        }
        if (!found_.with_chainage) {
            std::reverse(road_.x.begin(), road_.x.end());
            std::reverse(road_.highest.begin(), road_.highest.end());
        }
        std::sort(road_.breaks.begin(), road_.breaks.end());
        thin(road_.breaks);
    }

    // Evenly, where there are more than can be weighed.
    void thin(std::vector<double>& breaks) {
        const std::size_t all = breaks.size();
        if (all <= most_candidates) return;
        std::vector<double> kept;
        for (std::size_t i = 0; i < most_candidates; ++i) kept.push_back(breaks[i * all / most_candidates]);
        breaks = std::move(kept);
        say(Code::DrainFollowThinned, "grades may meet at " + std::to_string(all) + " places; only " +
                                          std::to_string(most_candidates) + " of them were weighed");
    }

    FollowedLine not_found(const Followed& followed, const FollowLimits& limits) {
        found_.choices.clear();
        found_.shortfall = followed.shortfall;
        double least = INFINITY;
        const double end = road_.x.back();
        for (std::size_t i = 0; i + 1 < road_.x.size(); ++i)
            least = std::fmin(least, (road_.highest[i] - limits.outfall) / (end - road_.x[i]));
        least = std::fmin(least, (limits.inlet - limits.outfall) / (end - road_.x.front()));
        if (least >= 0 && road_.highest.back() >= limits.outfall) found_.least_fall_that_reaches = least;
        const auto words = [this](double metres) { return length_words(basis_.book, metres); };
        std::string text = "no pipe with that cover and fall reaches the outfall; at best it ends ";
        text.append(words(followed.shortfall)).append(" under it. ");
        text.append(words(followed.shortfall)).append(" less cover would do");
        if (!std::isnan(found_.least_fall_that_reaches) && least > 0)
            text.append(", or a least fall of 1 in ").append(fixed(1 / least, 0));
        say(Code::DrainOutfallTooHigh, text);
        return std::move(found_);
    }

    // Where it digs less than the one before.
    void add_choice(const Followed& followed) {
        FollowChoice choice;
        choice.followed = followed;
        for (double& x : choice.followed.x) x = chainage(x);
        for (Held& held : choice.followed.held) held.x = chainage(held.x);
        for (std::size_t i = 1; i < followed.x.size(); ++i)
            choice.falls.push_back((followed.y[i - 1] - followed.y[i]) / (followed.x[i] - followed.x[i - 1]));
        add_rows(choice);
        add_dug(choice);
        const double before = found_.choices.empty() ? INFINITY : found_.choices.back().dug.dug;
        if (!(choice.dug.dug < before * (1 - wish_.saving))) return;
        found_.choices.push_back(std::move(choice));
    }

    void add_rows(FollowChoice& choice) const {
        std::vector<double> x = choice.followed.x;
        std::vector<double> y = choice.followed.y;
        if (!found_.with_chainage) {
            std::reverse(x.begin(), x.end());
            std::reverse(y.begin(), y.end());
        }
        std::vector<double> chainages = read_at_;
        chainages.insert(chainages.end(), x.begin(), x.end());
        std::sort(chainages.begin(), chainages.end());
        const auto close = [](double a, double b) { return std::fabs(a - b) < least_chainage; };
        chainages.erase(std::unique(chainages.begin(), chainages.end(), close), chainages.end());
        for (const double ch : chainages) {
            FollowRow row;
            row.ch = ch;
            const LevelAlong there = ground_.at(ch, 0);
            row.ground = there.level;
            row.ground_sd = std::sqrt(std::max(0.0, basis_.model.variance_of(there.terms)));
            std::size_t i = 1;
            while (i + 1 < x.size() && x[i] < ch) ++i;
            row.invert = y[i - 1] + (y[i] - y[i - 1]) * (ch - x[i - 1]) / (x[i] - x[i - 1]);
            row.cover = row.ground - row.invert - over_invert();
            row.depth = row.ground - row.invert + under_invert();
            row.meets = std::any_of(x.begin(), x.end(), [&](double each) { return close(each, ch); });
            choice.rows.push_back(row);
        }
    }

    void add_dug(FollowChoice& choice) const {
        std::vector<PointTerm> sum;
        for (std::size_t i = 1; i < choice.rows.size(); ++i) {
            const FollowRow& a = choice.rows[i - 1];
            const FollowRow& b = choice.rows[i];
            std::array<double, 2> weights = {0, 0};
            section_.add_piece(b.ch - a.ch, a.depth, b.depth, choice.dug, weights);
            for (const PointTerm& term : ground_.at(a.ch, 0).terms)
                sum.push_back({term.point, weights[0] * term.coefficient});
            for (const PointTerm& term : ground_.at(b.ch, 0).terms)
                sum.push_back({term.point, weights[1] * term.coefficient});
        }
        choice.dug.dug_sd = std::sqrt(std::max(0.0, basis_.model.variance_of(sum)));
    }

    // Never a judgement of its support (setout/cautions.h).
    void say_depth() {
        const std::vector<FollowRow>& rows = found_.choices.back().rows;
        const auto shallower = [](const FollowRow& a, const FollowRow& b) { return a.depth < b.depth; };
        const FollowRow& deepest = *std::max_element(rows.begin(), rows.end(), shallower);
        std::string text = "the trench of the pipe that follows it would be up to ";
        text.append(fixed(basis_.book.in_unit(deepest.depth), 3)).append(" \u00b1 ");
        text.append(length_words(basis_.book, deepest.ground_sd)).append(" deep at chainage ");
        text.append(chainage_words(basis_.book, deepest.ch));
        say(Code::TrenchDepth, text);
    }

    // The quantile of the confidence, from the table that verdicts are judged by.
    void find_sure_cover() {
        double worst = 0;
        for (const FollowRow& row : found_.choices.back().rows) worst = std::max(worst, row.ground_sd);
        const double confidence = confidence_of(basis_.book);
        double low = 0, high = 10;
        for (int i = 0; i < 60; ++i) {
            const double middle = (low + high) / 2;
            (normal_cdf(middle) < confidence ? low : high) = middle;
        }
        found_.sure_cover = wish_.cover + high * worst;
    }

    const SetoutBasis& basis_;
    const FollowWish& wish_;
    RunLevels levels_;
    std::string what_;
    GroundAlong ground_;
    std::vector<double> read_at_;
    TrenchSection section_;
    FollowRoad road_;
    FollowedLine found_;
};

}  // namespace

FollowedLine follow_line(const SetoutBasis& basis, const FollowWish& wish) {
    return Follower(basis, wish).run();
}

}  // namespace fallwright::drain
