#include "setout/rod.h"

#include <algorithm>
#include <cmath>

#include "base/print.h"
#include "base/stable_order.h"
#include "setout/stations.h"
#include "setout/targets.h"

namespace fallwright {

namespace {

class RodMaker {
  public:
    RodMaker(const SetoutBasis& basis, const SetoutWish& wish)
        : basis_(basis),
          wish_(wish),
          design_(basis.designs.lines[wish.line]),
          piped_(carries_pipes(basis.book.lines[wish.line])) {}

    std::vector<RodCard> run() {
        if (!design_.any()) return {};
        for (const RodCard& stretch : stretches()) add(stretch);
        for (RodCard& card : cards_) {
            if (wish_.setup != no_setup) add_clamps(card);
            const double foot = card.marks.front().height;
            for (RodMark& mark : card.marks) mark.height -= foot;
        }
        return std::move(cards_);
    }

  private:
    // Over which every surface keeps its height above the profile.
    std::vector<RodCard> stretches() const {
        const Profile& profile = design_.profile();
        if (!piped_) return {{profile.from(), profile.to(), {}, NAN, NAN}};
        std::vector<RodCard> all;
        for (const Pipe* pipe : design_.pipes().pipes()) {
            const double from = std::max(pipe->from, profile.from());
            const double to = std::min(pipe->to, profile.to());
            if (from < to) all.push_back({from, to, {}, NAN, NAN});
        }
        return all;
    }

    void add(RodCard card) {
        add_marks(card);
        if (card.marks.size() < 2) return;
        if (!cards_.empty() && goes_on(cards_.back(), card)) {
            cards_.back().to = card.to;
        } else {
            cards_.push_back(std::move(card));
        }
    }

    static bool goes_on(const RodCard& before, const RodCard& card) {
        const auto same = [](const RodMark& a, const RodMark& b) {
            return a.what == b.what && a.height == b.height;
        };
        return card.from - before.to < least_chainage &&
               std::equal(before.marks.begin(), before.marks.end(), card.marks.begin(), card.marks.end(),
                          same);
    }

    std::vector<std::string> surfaces() const {
        if (piped_) return {"formation", "bed", "invert", "crown", "collar"};
        std::vector<std::string> names = {"formation", "finished"};
        for (const Layer& layer : design_.line().layers) names.push_back(basis_.book.name(layer.what));
        return names;
    }

    // From the lowest up, as heights above the profile.
    void add_marks(RodCard& card) const {
        for (const std::string& what : surfaces()) {
            const DesignSurface surface = design_.heights().find(what);
            const double height = design_.height(surface, (card.from + card.to) / 2, Side::After);
            // The top layer is the finished surface.
            const auto same = [&](const RodMark& mark) { return !piped_ && mark.height == height; };
            if (!std::isnan(height) && std::none_of(card.marks.begin(), card.marks.end(), same))
                card.marks.push_back({what, height, NAN});
        }
        sort_stably(card.marks, [](const RodMark& a, const RodMark& b) { return a.height < b.height; });
    }

    void add_clamps(RodCard& card) const {
        Findings told_by_the_table;
        Targets targets(basis_, wish_.line, wish_.setup, told_by_the_table);
        const DesignSurface profile = design_.heights().find(staff_surface(design_.line()));
        double low = NAN, high = NAN, sd = 0;
        for (const double ch : chainages_of(card)) {
            const Side side = ch == card.from ? Side::After : Side::Before;
            const Target target = targets.at(design_.level(profile, ch, 0, side), ch, 0);
            if (std::isnan(target.staff)) return;
            low = std::fmin(low, target.staff);
            high = std::fmax(high, target.staff);
            sd = std::fmax(sd, target.sd);
        }
        card.spread = high - low;
        if (rounded_to(card.spread, length_places) > one_target_spread) return;
        card.sd = sd;
        for (RodMark& mark : card.marks) mark.clamp = (low + high) / 2 - mark.height;
    }

    std::vector<double> chainages_of(const RodCard& card) const {
        std::vector<double> chainages = {card.from};
        for (const double ch : stations_of(design_, wish_.every, levels_found(basis_.model)).chainages) {
            if (ch > card.from && ch < card.to) chainages.push_back(ch);
        }
        chainages.push_back(card.to);
        return chainages;
    }

    const SetoutBasis& basis_;
    const SetoutWish& wish_;
    const Design& design_;
    bool piped_;
    std::vector<RodCard> cards_;
};

}  // namespace

std::vector<RodCard> rod_cards(const SetoutBasis& basis, const SetoutWish& wish) {
    return RodMaker(basis, wish).run();
}

}  // namespace fallwright
