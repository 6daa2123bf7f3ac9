#include "ground/surface_of_book.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <unordered_map>
#include <utility>

#include "quantity/angle.h"

namespace fallwright::ground {

namespace {

constexpr double beside_outline = 0.001;
constexpr std::size_t names_said = 5;  // of a list that may be long

double side(const EastNorth& a, const EastNorth& b, const EastNorth& c) {
    return (b.e - a.e) * (c.n - a.n) - (b.n - a.n) * (c.e - a.e);
}

bool between(const EastNorth& a, const EastNorth& b, const EastNorth& c) {
    return std::min(a.e, b.e) <= c.e && c.e <= std::max(a.e, b.e) && std::min(a.n, b.n) <= c.n &&
           c.n <= std::max(a.n, b.n);
}

bool meet(const EastNorth& a, const EastNorth& b, const EastNorth& c, const EastNorth& d) {
    const double at_c = side(a, b, c), at_d = side(a, b, d), at_a = side(c, d, a), at_b = side(c, d, b);
    if (((at_c > 0 && at_d < 0) || (at_c < 0 && at_d > 0)) &&
        ((at_a > 0 && at_b < 0) || (at_a < 0 && at_b > 0)))
        return true;
    return (at_c == 0 && between(a, b, c)) || (at_d == 0 && between(a, b, d)) ||
           (at_a == 0 && between(c, d, a)) || (at_b == 0 && between(c, d, b));
}

bool beside(const EastNorth& a, const EastNorth& b, const EastNorth& place) {
    const double e = b.e - a.e, n = b.n - a.n;
    const double along = ((place.e - a.e) * e + (place.n - a.n) * n) / (e * e + n * n);
    const double share = std::min(1.0, std::max(0.0, along));
    const double off_e = a.e + share * e - place.e, off_n = a.n + share * n - place.n;
    return off_e * off_e + off_n * off_n <= beside_outline * beside_outline;
}

// Counts the sides that a line to the east meets.
bool inside(const std::vector<EastNorth>& outline, const EastNorth& place) {
    bool is_inside = false;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const EastNorth& a = outline[i];
        const EastNorth& b = outline[(i + 1) % outline.size()];
        if (beside(a, b, place)) return true;
        if ((a.n > place.n) == (b.n > place.n)) continue;
        const double e = a.e + (place.n - a.n) / (b.n - a.n) * (b.e - a.e);
        if (e > place.e) is_inside = !is_inside;
    }
    return is_inside;
}

std::vector<EastNorth> outline_of(const SurfaceEntry& entry) {
    std::vector<EastNorth> outline;
    outline.reserve(entry.inside.size());
    for (const std::array<double, 2>& corner : entry.inside) outline.push_back({corner[0], corner[1]});
    return outline;
}

class SpotGatherer {
  public:
    SpotGatherer(const Book& book, const Where& where, const Model& model, const SurfaceEntry& entry,
                 Findings& findings)
        : book_(book), where_(where), model_(model), entry_(entry), findings_(findings) {}

    BookSurface run() {
        if (!names_known() || !outline_sound()) return std::move(found_);
        gather();
        for (const std::vector<NameId>& line : entry_.breaklines) add_breakline(line);
        for (const NameId outlet : entry_.outlets) {
            const std::int32_t spot = add(outlet);
            if (spot >= 0) found_.outlets.push_back(spot);
        }
        report_left_out();
        turn();
        found_.usable = found_.spots.size() >= 3;
        if (!found_.usable)
            say(Code::SurfaceFewPoints, {},
                "surface " + name() + " has " + std::to_string(found_.spots.size()) +
                    " points with a level and a place; it needs three");
        return std::move(found_);
    }

  private:
    std::string name() const { return book_.name(entry_.name); }

    void say(Code code, std::vector<std::string> about, std::string message) {
        about.insert(about.begin(), book_.id_of(entry_.entry));
        findings_.push_back(finding(code, std::move(about), std::move(message)));
    }

    // Read, planned, given as a benchmark, carried to by a step, or placed.
    bool known(NameId point) {
        if (model_.points.at(point) >= 0 || where_.points[point].known) return true;
        if (mentioned_.empty()) {
            mentioned_.resize(book_.names.size());
            for (const Reading& reading : book_.readings) mentioned_[reading.point] = true;
            for (const PlaceEntry& place : book_.places) mentioned_[place.point] = true;
        }
        return mentioned_[point];
    }

    bool names_known() {
        std::vector<std::string> missing;
        const auto look = [&](const std::vector<NameId>& names) {
            for (const NameId point : names) {
                const std::string text = book_.name(point);
                if (!known(point) && std::find(missing.begin(), missing.end(), text) == missing.end())
                    missing.push_back(text);
            }
        };
        look(entry_.points);
        for (const std::vector<NameId>& line : entry_.breaklines) look(line);
        look(entry_.outlets);
        for (const SurfaceTarget& target : entry_.to) {
            if (target.place != no_name) look({target.place});
        }
        if (missing.empty()) return true;
        say(Code::UnknownReference, {},
            "surface " + name() + " names points that are not in the book: " + list(missing) +
                "; it is left out");
        return false;
    }

    bool outline_sound() {
        if (entry_.inside.empty()) return true;
        const std::vector<EastNorth> outline = outline_of(entry_);
        if (!outline_crosses(outline)) return true;
        say(Code::SurfaceOutline, {},
            "the outline of surface " + name() +
                " is no simple one: its sides cross or touch; it is left out");
        return false;
    }

    static std::string list(const std::vector<std::string>& names) {
        std::string text;
        for (std::size_t i = 0; i < names.size() && i < names_said; ++i) {
            if (i > 0) text += ", ";
            text += names[i];
        }
        if (names.size() > names_said) text += " and " + std::to_string(names.size() - names_said) + " more";
        return text;
    }

    void gather() {
        for (const NameId point : entry_.points) add(point);
        if (entry_.what == no_name) return;
        for (const Reading& reading : book_.readings) {
            if (reading.what == entry_.what && !reading.planned && !reading.older) add(reading.point);
        }
    }

    // Index among the spots; -1 where it is left out.
    std::int32_t add(NameId name) {
        const auto [at, is_new] = index_.emplace(name, -1);
        if (!is_new) return at->second;
        const std::int32_t point = model_.points.at(name);
        const Spot& spot = where_.points[name];
        const double level = point < 0 ? NAN : model_.levels[static_cast<std::size_t>(point)].level;
        if (std::isnan(level)) {
            without_level_.push_back(book_.name(name));
        } else if (!spot.known) {
            without_place_.push_back(book_.name(name));
        } else if (!found_.spots.empty() && spot.frame != found_.frame) {
            elsewhere_.push_back(book_.name(name));
        } else {
            found_.frame = spot.frame;
            at->second = static_cast<std::int32_t>(found_.spots.size());
            found_.spots.push_back({name, point, spot.e, spot.n, level});
        }
        return at->second;
    }

    void add_breakline(const std::vector<NameId>& line) {
        std::vector<std::int32_t> chain;
        for (const NameId point : line) {
            const std::int32_t spot = add(point);
            if (spot >= 0 && (chain.empty() || chain.back() != spot)) chain.push_back(spot);
        }
        if (chain.size() >= 2) found_.breaklines.push_back(std::move(chain));
    }

    void report_left_out() {
        const auto report = [this](const std::vector<std::string>& names, const char* why) {
            if (names.empty()) return;
            say(Code::SurfacePointLeftOut, names,
                "surface " + this->name() + " is made without " + list(names) + ": " + why);
        };
        report(without_level_, "nothing gives a level");
        report(without_place_, "where it lies is not known");
        report(elsewhere_, "it lies on another grid");
    }

    void turn() {
        if (entry_.bearing.has()) {
            const SinCos unit = sincos_degrees(entry_.bearing.value);
            found_.heading = {true, unit.sin, unit.cos};
        } else if (entry_.towards != no_name) {
            turn_towards();
        } else {
            found_.heading = {true, 0, 1};
        }
    }

    // From the middle of the spots to a point, or along a line.
    void turn_towards() {
        Spot middle = {true, found_.frame, 0, 0};
        const auto count = static_cast<double>(found_.spots.size());
        for (const BookSpot& spot : found_.spots) {
            middle.e += spot.e / count;
            middle.n += spot.n / count;
        }
        const std::int32_t line = ByName(book_.lines)(entry_.towards);
        if (line >= 0) {
            const PlanLine plan(book_.lines[static_cast<std::size_t>(line)], line);
            found_.heading = plan.nearest_heading(middle);
        } else if (where_.points[entry_.towards].known) {
            const Spot& end = where_.points[entry_.towards];
            const double e = end.e - middle.e, n = end.n - middle.n;
            const double length = std::sqrt(e * e + n * n);
            if (end.frame == middle.frame && length > 0) found_.heading = {true, e / length, n / length};
        }
        if (!found_.heading.known) {
            say(Code::PlaceUnknown, {book_.name(entry_.towards)},
                "the way from surface " + name() + " to " + book_.name(entry_.towards) + " is not known");
            found_.heading = {true, 0, 1};
        }
    }

    const Book& book_;
    const Where& where_;
    const Model& model_;
    const SurfaceEntry& entry_;
    Findings& findings_;
    BookSurface found_;
    std::unordered_map<NameId, std::int32_t> index_;
    std::vector<bool> mentioned_;  // by NameId; empty until it is asked for
    std::vector<std::string> without_level_, without_place_, elsewhere_;
};

}  // namespace

bool outline_crosses(const std::vector<EastNorth>& outline) {
    const std::size_t n = outline.size();
    if (n < 3) return true;
    for (std::size_t i = 0; i < n; ++i) {
        const EastNorth& a = outline[i];
        const EastNorth& b = outline[(i + 1) % n];
        const EastNorth& c = outline[(i + 2) % n];
        const bool backwards =
            side(a, b, c) == 0 && (b.e - a.e) * (c.e - b.e) + (b.n - a.n) * (c.n - b.n) <= 0;
        if (backwards) return true;
        for (std::size_t j = i + 2; j < n; ++j) {
            if (i == 0 && j == n - 1) continue;
            if (meet(a, b, outline[j], outline[(j + 1) % n])) return true;
        }
    }
    return false;
}

bool inside_outline(const SurfaceEntry& entry, const EastNorth& place) {
    return entry.inside.empty() || inside(outline_of(entry), place);
}

std::vector<BookSpot> spots_inside(const std::vector<BookSpot>& spots, const SurfaceEntry& entry) {
    if (entry.inside.empty()) return spots;
    const std::vector<EastNorth> outline = outline_of(entry);
    std::vector<BookSpot> kept;
    for (const BookSpot& spot : spots) {
        if (inside(outline, {spot.e, spot.n})) kept.push_back(spot);
    }
    return kept;
}

BookSurface surface_of_book(const Book& book, const Where& where, const Model& model,
                            const SurfaceEntry& entry, Findings& findings) {
    return SpotGatherer(book, where, model, entry, findings).run();
}

}  // namespace fallwright::ground
