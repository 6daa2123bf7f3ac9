#include "setout/setout.h"

#include <algorithm>
#include <cmath>
#include <memory>

#include "setout/cover_check.h"
#include "setout/reach.h"
#include "setout/stations.h"
#include "setout/targets.h"
#include "setout/there.h"
#include "setout/words.h"

namespace fallwright {

namespace {

class TableMaker {
  public:
    TableMaker(const SetoutBasis& basis, const SetoutWish& wish, Findings& findings)
        : basis_(basis),
          wish_(wish),
          design_(basis.designs.lines[wish.line]),
          there_(basis, wish.line),
          findings_(findings) {
        if (wish.setup != no_setup)
            targets_ = std::make_unique<Targets>(basis, wish.line, wish.setup, findings);
        table_.line = wish.line;
        table_.setup = wish.setup;
    }

    SetoutTable run() {
        if (!design_.any()) {
            say(Code::SetoutNoDesign, "line " + name() + " has no design, so there is nothing to set out");
            return std::move(table_);
        }
        const std::vector<std::string> whats = usable_whats();
        const Stations stations = stations_of(design_, wish_.every, levels_found(basis_.model));
        if (stations.too_many) {
            say(Code::SetoutTooMany, "rows every " + length_words(basis_.book, wish_.every.value) +
                                         " would be more than " + std::to_string(most_stations) +
                                         "; only the line's own points are listed");
        }
        for (const double ch : stations.chainages) add_rows(whats, ch);
        find_one_targets();
        if (targets_) {
            const ReachCheck reach(basis_.book, basis_.book.name(basis_.book.setups[wish_.setup].name),
                                   targets_->staff_length(), targets_->range());
            reach.check(reaches_, findings_);
        }
        check_cover(basis_.book, table_, findings_);
        return std::move(table_);
    }

  private:
    std::string name() const { return basis_.book.name(basis_.book.lines[wish_.line].name); }

    void say(Code code, const std::string& message) { findings_.push_back(finding(code, {name()}, message)); }

    std::vector<std::string> usable_whats() {
        std::vector<std::string> whats;
        for (const std::string& what : wish_.whats) {
            if (design_.heights().find(what).any()) {
                whats.push_back(what);
            } else {
                say(Code::SetoutNoSurface, "line " + name() + " has no design of " + what);
            }
        }
        if (wish_.whats.empty()) whats.push_back(staff_surface(basis_.book.lines[wish_.line]));
        return whats;
    }

    void add_rows(const std::vector<std::string>& whats, double ch) {
        const std::vector<std::string> surfaces = surfaces_at(design_, whats, ch);
        for (const double off : offsets_of(design_)) {
            for (const std::string& what : surfaces) add_row(what, ch, off);
        }
    }

    void add_row(const std::string& what, double ch, double off) {
        const DesignSurface surface = design_.heights().find(what);
        const Side side = design_.side_of(surface);
        const DesignLevel wanted = design_.level(surface, ch, off, side);
        SetoutRow row;
        row.ch = ch;
        row.off = off;
        row.what = what;
        row.design = wanted.value(levels_found(basis_.model));
        if (targets_) {
            const Target target = targets_->at(wanted, ch, off);
            row.target = target.staff;
            row.sd = target.sd;
            if (!std::isnan(target.staff)) reaches_.push_back({ch, target.staff, target.d});
        }
        there_.fill(row, side);
        table_.rows.push_back(std::move(row));
    }

    void find_one_targets() {
        std::vector<OneTarget> groups;
        for (const SetoutRow& row : table_.rows) {
            const auto same = [&row](const OneTarget& g) { return g.what == row.what && g.off == row.off; };
            if (std::none_of(groups.begin(), groups.end(), same)) groups.push_back({row.what, row.off, 0, 0});
        }
        for (OneTarget& group : groups) {
            if (is_one(group)) table_.one_targets.push_back(group);
        }
    }

    // Whether all rows of that surface and offset have one target, which is then the middle of theirs.
    bool is_one(OneTarget& group) const {
        double low = NAN, high = NAN;
        int rows = 0;
        for (const SetoutRow& row : table_.rows) {
            if (row.what != group.what || row.off != group.off) continue;
            if (std::isnan(row.target)) return false;
            low = std::fmin(low, row.target);
            high = std::fmax(high, row.target);
            ++rows;
        }
        group.target = (low + high) / 2;
        group.spread = high - low;
        return rows > 1 && rounded_to(group.spread, length_places) <= one_target_spread;
    }

    const SetoutBasis& basis_;
    const SetoutWish& wish_;
    const Design& design_;
    There there_;
    std::unique_ptr<Targets> targets_;
    Findings& findings_;
    SetoutTable table_;
    std::vector<Reach> reaches_;
};

}  // namespace

Setout set_out(const SetoutBasis& basis, const SetoutWish& wish) {
    Setout setout;
    setout.tables.push_back(TableMaker(basis, wish, setout.findings).run());
    return setout;
}

// Two tables of one line speak of one trench.
static bool said(const Findings& before, const Finding& again) {
    return std::any_of(before.begin(), before.end(), [&again](const Finding& each) {
        return each.code == again.code && each.about == again.about && each.message == again.message;
    });
}

Setout set_out_wants(const SetoutBasis& basis) {
    Setout all;
    const ByName lines(basis.book.lines);
    const ByName setups(basis.book.setups);
    for (const Want& want : basis.book.wants) {
        if (want.line == no_name) continue;
        SetoutWish wish;
        wish.line = static_cast<std::size_t>(lines(want.line));
        if (want.setup != no_name) wish.setup = static_cast<std::size_t>(setups(want.setup));
        wish.every = want.every;
        for (const NameId what : want.whats) wish.whats.push_back(basis.book.name(what));
        Setout one = set_out(basis, wish);
        all.tables.push_back(std::move(one.tables.front()));
        for (Finding& each : one.findings) {
            if (!said(all.findings, each)) all.findings.push_back(std::move(each));
        }
    }
    return all;
}

}  // namespace fallwright
