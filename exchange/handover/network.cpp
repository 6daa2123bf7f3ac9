#include "exchange/handover/network.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/print.h"

namespace fallwright::handover {

namespace {

constexpr double same_chainage = 0.0005;

bool together(double a, double b) {
    return std::fabs(a - b) < same_chainage;
}

// Height of a parabola over the two grades of its corner.
double curve_height(const std::vector<Corner>& profile, std::size_t corner, double ch) {
    const Corner& at = profile[corner];
    if (at.curve == 0 || corner == 0 || corner + 1 == profile.size()) return 0;
    const double away = at.curve / 2 - std::fabs(ch - at.ch);
    if (away <= 0) return 0;
    const Corner& before = profile[corner - 1];
    const Corner& after = profile[corner + 1];
    const double g1 = (at.before - before.after) / (at.ch - before.ch);
    const double g2 = (after.before - at.after) / (after.ch - at.ch);
    return (g2 - g1) / (2 * at.curve) * away * away;
}

class Building {
  public:
    explicit Building(const Line& line) : line_(line) {}

    std::optional<Network> all() {
        if (line_.plan.size() < 2 || line_.pipes.empty()) return std::nullopt;
        nodes();
        for (const Pipe& pipe : line_.pipes) {
            if (!stretches(pipe)) return std::nullopt;
        }
        leave_loose_chambers();
        return std::move(made_);
    }

  private:
    void nodes() {
        std::vector<double> chainages;
        for (const Pipe& pipe : line_.pipes) chainages.insert(chainages.end(), {pipe.from, pipe.to});
        for (const Chamber& chamber : line_.chambers) chainages.push_back(chamber.ch);
        std::sort(chainages.begin(), chainages.end());
        for (const double ch : chainages) {
            if (!made_.nodes.empty() && together(made_.nodes.back().ch, ch)) continue;
            made_.nodes.push_back(node(ch));
        }
    }

    Node node(double ch) {
        Node made;
        made.ch = ch;
        for (const Chamber& chamber : line_.chambers) {
            if (together(chamber.ch, ch)) {
                made.chamber = &chamber;
                made.ch = chamber.ch;
            }
        }
        const EastNorth at = along(line_, made.ch);
        made.e = at.e;
        made.n = at.n;
        const bool named = made.chamber != nullptr && !made.chamber->name.empty();
        made.name = named ? made.chamber->name : line_.name + " " + fixed(made.ch, 3);
        while (!names_.insert(made.name).second) made.name += "'";
        return made;
    }

    bool stretches(const Pipe& pipe) {
        std::size_t last = made_.nodes.size();
        for (std::size_t i = 0; i < made_.nodes.size(); ++i) {
            const double ch = made_.nodes[i].ch;
            if (ch < pipe.from - same_chainage || ch > pipe.to + same_chainage) continue;
            if (last < made_.nodes.size()) {
                Stretch part;
                part.from = last;
                part.to = i;
                part.pipe = &pipe;
                part.from_level = profile_level(line_, made_.nodes[last].ch, true);
                part.to_level = profile_level(line_, ch, false);
                part.name = line_.name + " " + std::to_string(made_.stretches.size() + 1);
                if (!known(part.from_level) || !known(part.to_level)) return false;
                made_.stretches.push_back(std::move(part));
            }
            last = i;
        }
        return true;
    }

    // A chamber that no pipe reaches has no invert a network could say.
    void leave_loose_chambers() {
        std::vector<bool> reached(made_.nodes.size(), false);
        for (const Stretch& part : made_.stretches) reached[part.from] = reached[part.to] = true;
        std::vector<std::size_t> moved(made_.nodes.size());
        std::vector<Node> kept;
        for (std::size_t i = 0; i < made_.nodes.size(); ++i) {
            moved[i] = kept.size();
            if (reached[i]) kept.push_back(std::move(made_.nodes[i]));
        }
        made_.nodes = std::move(kept);
        for (Stretch& part : made_.stretches) {
            part.from = moved[part.from];
            part.to = moved[part.to];
        }
    }

    const Line& line_;
    Network made_;
    std::set<std::string> names_;
};

}  // namespace

std::optional<Network> network_of(const Line& line) {
    return Building(line).all();
}

EastNorth along(const Line& line, double ch) {
    double start = line.start;
    EastNorth at{};
    for (std::size_t i = 1; i < line.plan.size(); ++i) {
        const EastNorth& a = line.plan[i - 1];
        const EastNorth& b = line.plan[i];
        const double length = std::hypot(b.e - a.e, b.n - a.n);
        const bool here = i == 1 || start < ch;
        if (here && length > 0) {
            const double part = (ch - start) / length;
            at = {a.e + part * (b.e - a.e), a.n + part * (b.n - a.n)};
        }
        start += length;
    }
    return at;
}

double profile_level(const Line& line, double ch, bool after) {
    const std::vector<Corner>& profile = line.profile;
    if (profile.empty()) return unknown;
    if (ch < profile.front().ch - same_chainage || ch > profile.back().ch + same_chainage) return unknown;
    double level = unknown;
    for (std::size_t i = 0; i < profile.size(); ++i) {
        if (together(profile[i].ch, ch)) level = after ? profile[i].after : profile[i].before;
        if (i > 0 && profile[i - 1].ch + same_chainage <= ch && ch <= profile[i].ch - same_chainage) {
            const Corner& a = profile[i - 1];
            const Corner& b = profile[i];
            level = a.after + (b.before - a.after) * ((ch - a.ch) / (b.ch - a.ch));
        }
    }
    for (std::size_t i = 0; i < profile.size(); ++i) level += curve_height(profile, i, ch);
    return level;
}

}  // namespace fallwright::handover
