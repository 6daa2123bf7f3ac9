#include "book/settle.h"

#include <algorithm>
#include <cstdlib>
#include <map>
#include <optional>
#include <utility>

namespace fallwright {

namespace {

// Removes the elements `gone` says, keeping the order of the rest.
template <class T, class Gone>
void remove_if(std::vector<T>& entries, Gone gone) {
    entries.erase(std::remove_if(entries.begin(), entries.end(), gone), entries.end());
}

// One finding for all entries that name the same missing thing.
class MissingReferences {
  public:
    explicit MissingReferences(Book& book) : book_(book) {}

    // True where `name` is given and `found` is false: the entry is left out.
    bool missing(std::string_view what, NameId name, bool found, std::uint32_t entry) {
        if (name == no_name || found) return false;
        absent_[{what, name}].push_back(entry);
        book_.entries[entry].refused = true;
        return true;
    }
    void report() {
        for (const auto& [key, entries] : absent_) {
            std::vector<std::string> about;
            for (const std::uint32_t entry : entries) about.push_back(book_.id_of(entry));
            const std::string message = std::string(key.first) + " " + book_.name(key.second) +
                                        " is not in the book; what names it is left out";
            book_.findings.push_back(finding(Code::UnknownReference, std::move(about), message));
        }
    }

  private:
    Book& book_;
    std::map<std::pair<std::string_view, NameId>, std::vector<std::uint32_t>> absent_;
};

// Chainages closer than this are one, metres.
constexpr double least_chainage = 0.0005;

class EntrySettler {
  public:
    explicit EntrySettler(Book& book) : book_(book), missing_(book) {}

    void run() {
        drop_duplicates();
        settle_benchmarks();
        check_references();
        settle_heads();
        name_line_points();
        settle_order();
        missing_.report();
        drop_bare_clamps();
        list_readings();
        settle_sights();
    }

  private:
    template <class T, class Key>
    void first_stands(std::vector<T>& entries, std::string_view what, Key key) {
        std::map<decltype(key(entries.front())), bool> seen;
        remove_if(entries, [&](const T& entry) {
            if (seen.emplace(key(entry), true).second) return false;
            book_.entries[entry.entry].refused = true;
            book_.findings.push_back(
                finding(Code::DuplicateName, {book_.id_of(entry.entry)},
                        std::string(what) + " is in the book already; the first stands"));
            return true;
        });
    }

    void drop_duplicates() {
        const auto by_name = [](const auto& entry) { return entry.name; };
        first_stands(book_.instruments, "an instrument of this name", by_name);
        first_stands(book_.staffs, "a staff of this name", by_name);
        first_stands(book_.receivers, "a receiver of this name", by_name);
        first_stands(book_.lines, "a line of this name", by_name);
        first_stands(book_.setups, "a set-up of this name", by_name);
        first_stands(book_.whats, "a surface (what) of this name", by_name);
        first_stands(book_.trials, "an instrument check of this name", by_name);
        first_stands(book_.surfaces, "a ground surface of this name", by_name);
        first_stands(book_.rules, "a rule of this name", by_name);
        first_stands(book_.places, "a place of this point",
                     [](const PlaceEntry& place) { return place.point; });
        first_stands(book_.tolerances, "a tolerance for this line and surface",
                     [](const Tolerance& entry) { return std::pair(entry.line, entry.what); });
    }

    // Of fixed values of one point the first is kept; a second that differs is an error.
    void settle_benchmarks() {
        std::map<NameId, Decimal> fixed;
        remove_if(book_.benchmarks, [&](const Benchmark& benchmark) {
            if (benchmark.sd > 0) return false;
            const auto [first, is_new] = fixed.emplace(benchmark.point, benchmark.level);
            if (is_new) return false;
            book_.entries[benchmark.entry].refused = true;
            if (first->second != benchmark.level) {
                book_.findings.push_back(finding(
                    Code::ConflictingBenchmarks, {book_.id_of(benchmark.entry), book_.name(benchmark.point)},
                    "benchmark " + book_.name(benchmark.point) + " has two fixed values; the first is kept"));
            }
            return true;
        });
    }

    void check_references() {
        const ByName lines(book_.lines), instruments(book_.instruments), staffs(book_.staffs),
            receivers(book_.receivers);
        const auto has_line = [&](NameId name) { return lines(name) >= 0; };
        const auto lost = [&](const Position& position, std::uint32_t entry) {
            return missing_.missing("line", position.line, has_line(position.line), entry);
        };
        remove_if(book_.places, [&](const PlaceEntry& place) { return lost(place.position, place.entry); });
        remove_if(book_.setups, [&](Setup& setup) {
            setup.instrument_at = instruments(setup.instrument);
            return missing_.missing("instrument", setup.instrument, setup.instrument_at >= 0, setup.entry) ||
                   missing_.missing("staff", setup.staff, staffs(setup.staff) >= 0, setup.entry) ||
                   missing_.missing("receiver", setup.receiver, receivers(setup.receiver) >= 0,
                                    setup.entry) ||
                   lost(setup.position, setup.entry);
        });
        remove_if(book_.readings, [&](const Reading& reading) {
            return missing_.missing("line", reading.line, has_line(reading.line), reading.entry) ||
                   missing_.missing("staff", reading.staff, staffs(reading.staff) >= 0, reading.entry) ||
                   missing_.missing("receiver", reading.receiver, receivers(reading.receiver) >= 0,
                                    reading.entry);
        });
        remove_if(book_.tolerances, [&](const Tolerance& entry) {
            return missing_.missing("line", entry.line, has_line(entry.line), entry.entry);
        });
        remove_if(book_.relaids, [&](const Relaid& entry) {
            return missing_.missing("line", entry.line, has_line(entry.line), entry.entry);
        });
        remove_if(book_.trials, [&](const Trial& entry) {
            return missing_.missing("instrument", entry.instrument, instruments(entry.instrument) >= 0,
                                    entry.entry);
        });
        remove_if(book_.adjusted, [&](const Adjusted& entry) {
            return missing_.missing("instrument", entry.instrument, instruments(entry.instrument) >= 0,
                                    entry.entry);
        });
        check_wants(lines);
    }

    void check_wants(const ByName& lines) {
        const ByName surfaces(book_.surfaces), setups(book_.setups);
        remove_if(book_.wants, [&](const Want& want) {
            return missing_.missing("line", want.line, lines(want.line) >= 0, want.entry) ||
                   missing_.missing("surface", want.surface, surfaces(want.surface) >= 0, want.entry) ||
                   missing_.missing("set-up", want.setup, setups(want.setup) >= 0, want.entry);
        });
    }

    // A shared head must lead, step by step, to a set-up with a tripod of its own.
    void settle_heads() {
        bool again = true;
        while (again) {
            const ByName setups(book_.setups);
            const std::size_t before = book_.setups.size();
            for (Setup& setup : book_.setups) setup.head_at = setups(setup.head);
            remove_if(book_.setups, [&](const Setup& setup) {
                return missing_.missing("set-up", setup.head, setup.head_at >= 0 && !in_circle(setup),
                                        setup.entry);
            });
            again = book_.setups.size() != before;
        }
    }

    bool in_circle(const Setup& setup) const {
        std::size_t steps = 0;
        for (std::int32_t at = setup.head_at; at >= 0;
             at = book_.setups[static_cast<std::size_t>(at)].head_at) {
            if (++steps > book_.setups.size()) return true;
        }
        return false;
    }

    void name_line_points() {
        const ByName lines(book_.lines);
        const NameId ground = book_.names.intern("ground");
        for (Reading& reading : book_.readings) {
            if (reading.line == no_name) {
                take_place_from_name(reading, lines);
                continue;
            }
            if (reading.what == no_name) reading.what = ground;
            const std::int32_t line = lines(reading.line);
            name_at_chamber(reading, book_.lines[static_cast<std::size_t>(line)]);
            reading.point =
                book_.names.intern(line_point_name(book_.name(reading.line), book_.in_unit(reading.ch),
                                                   book_.in_unit(reading.off), book_.name(reading.what)));
            name_older_surface(reading);
        }
    }

    // A stretch that was relaid is a new surface: points of older ones are told apart, counted from the
    // oldest.
    void name_older_surface(Reading& reading) {
        const Entry& at = book_.entries[reading.entry];
        int before = 0;
        int after = 0;
        for (const Relaid& relaid : book_.relaids) {
            if (!covers(relaid, reading)) continue;
            const Entry& when = book_.entries[relaid.entry];
            const bool is_before = when.at != at.at ? when.at < at.at : relaid.entry < reading.entry;
            ++(is_before ? before : after);
        }
        reading.older = after > 0;
        if (!reading.older) return;
        reading.point =
            book_.names.intern(book_.name(reading.point) + " (" + std::to_string(before + 1) + ")");
    }

    static bool covers(const Relaid& relaid, const Reading& reading) {
        return relaid.line == reading.line && relaid.what == reading.what &&
               reading.ch >= relaid.from.or_else(reading.ch) - least_chainage &&
               reading.ch <= relaid.to.or_else(reading.ch) + least_chainage;
    }

    void name_at_chamber(Reading& reading, const LineEntry& line) {
        if (book_.name(reading.what) != "laid") return;
        for (const Chamber& chamber : line.chambers) {
            if (std::fabs(chamber.ch - reading.ch) >= least_chainage) continue;
            reading.what = book_.names.intern("laid out");
            book_.findings.push_back(
                finding(Code::LaidAtChamber, {book_.id_of(reading.entry)},
                        "laid at chamber " + book_.name(chamber.name) + " is taken as laid out"));
            return;
        }
    }

    struct OnLine {
        NameId line, what;
        double ch, off;
    };

    // A point's text that reads like a point on a line of this book is that point.
    void take_place_from_name(Reading& reading, const ByName& lines) {
        const auto [known, is_new] = read_names_.emplace(reading.point, std::nullopt);
        if (is_new) known->second = on_line(book_.name(reading.point), lines);
        if (!known->second) return;
        reading.line = known->second->line;
        reading.ch = known->second->ch;
        reading.off = known->second->off;
        reading.what = known->second->what;
    }

    std::optional<OnLine> on_line(const std::string& name, const ByName& lines) {
        for (std::size_t space = name.find(' '); space != std::string::npos;
             space = name.find(' ', space + 1)) {
            const NameId line = book_.names.find(std::string_view(name).substr(0, space));
            if (line == no_name || lines(line) < 0) continue;
            const char* text = name.c_str() + space + 1;
            char* end = nullptr;
            const double ch = std::strtod(text, &end);
            if (end == text || *end != ' ') continue;
            double off = 0;
            if ((end[1] == 'L' || end[1] == 'R') && end[2] >= '0' && end[2] <= '9') {
                const double side = end[1] == 'L' ? -1 : 1;
                off = side * std::strtod(end + 2, &end);
                if (*end != ' ') continue;
            }
            const std::string what(end + 1);
            // Only the name the tool itself would write is that point.
            if (!std::isfinite(ch) || std::fabs(ch) > 1e9 || !std::isfinite(off) ||
                line_point_name(book_.name(line), ch, off, what) != name)
                continue;
            return OnLine{line, book_.names.intern(what), ch * book_.metres_per_unit(),
                          off * book_.metres_per_unit()};
        }
        return std::nullopt;
    }

    struct Moment {
        Instant at;
        std::uint32_t entry;
        std::int32_t setup, reading;  // one of them, the other -1
        bool operator<(const Moment& other) const {
            return at != other.at ? at < other.at : entry < other.entry;
        }
    };

    // Gives readings without a set-up the last one in time order; leaves out those that have none.
    void settle_order() {
        const ByName setups(book_.setups);
        std::vector<Moment> moments;
        moments.reserve(book_.setups.size() + book_.readings.size());
        for (std::size_t i = 0; i < book_.setups.size(); ++i) {
            moments.push_back({book_.entries[book_.setups[i].entry].at, book_.setups[i].entry,
                               static_cast<std::int32_t>(i), -1});
        }
        for (std::size_t i = 0; i < book_.readings.size(); ++i) {
            moments.push_back({book_.entries[book_.readings[i].entry].at, book_.readings[i].entry, -1,
                               static_cast<std::int32_t>(i)});
        }
        std::sort(moments.begin(), moments.end());
        std::int32_t last = -1;
        for (const Moment& moment : moments) {
            if (moment.setup >= 0) last = moment.setup;
            if (moment.reading >= 0)
                settle_setup(book_.readings[static_cast<std::size_t>(moment.reading)], setups, last);
        }
        remove_if(book_.readings,
                  [this](const Reading& reading) { return book_.entries[reading.entry].refused; });
    }

    void settle_setup(Reading& reading, const ByName& setups, std::int32_t last) {
        if (reading.setup != no_name) {
            reading.setup_at = setups(reading.setup);
            missing_.missing("set-up", reading.setup, reading.setup_at >= 0, reading.entry);
        } else if (last >= 0) {
            reading.setup_at = last;
            reading.setup = book_.setups[static_cast<std::size_t>(last)].name;
        } else {
            book_.entries[reading.entry].refused = true;
            book_.findings.push_back(finding(Code::NoSetup, {book_.id_of(reading.entry)},
                                             "the reading stands before any set-up; it is left out"));
        }
    }

    void drop_bare_clamps() {
        remove_if(book_.readings, [this](const Reading& reading) {
            const bool bare = reading.figure.form == Form::Clamp &&
                              !book_.setups[static_cast<std::size_t>(reading.setup_at)].clamp.has();
            if (!bare) return false;
            book_.entries[reading.entry].refused = true;
            book_.findings.push_back(
                finding(Code::NoClamp, {book_.id_of(reading.entry)},
                        "high or low alone, and set-up " + book_.name(reading.setup) + " has no clamp"));
            return true;
        });
    }

    void list_readings() {
        for (std::uint32_t i = 0; i < book_.readings.size(); ++i) {
            if (!book_.readings[i].planned) book_.readings_by_time.push_back(i);
        }
        const auto at = [this](std::uint32_t i) { return book_.entries[book_.readings[i].entry].at; };
        std::stable_sort(book_.readings_by_time.begin(), book_.readings_by_time.end(),
                         [&](std::uint32_t a, std::uint32_t b) { return at(a) < at(b); });
    }

    void settle_sights() {
        std::vector<bool> known(book_.names.size(), false), started(book_.setups.size(), false);
        for (const Benchmark& benchmark : book_.benchmarks) known[benchmark.point] = true;
        // Without any benchmark the first point read is the datum.
        if (book_.benchmarks.empty() && !book_.readings_by_time.empty())
            known[book_.readings[book_.readings_by_time.front()].point] = true;
        for (const std::uint32_t i : book_.readings_by_time) {
            Reading& reading = book_.readings[i];
            const auto setup = static_cast<std::size_t>(reading.setup_at);
            if (reading.sight == Sight::Default)
                reading.sight = known[reading.point] && !started[setup] ? Sight::Back : Sight::Inter;
            known[reading.point] = true;
            started[setup] = true;
        }
    }

    Book& book_;
    MissingReferences missing_;
    std::map<NameId, std::optional<OnLine>> read_names_;
};

}  // namespace

void settle_entries(Book& book) {
    EntrySettler(book).run();
}

}  // namespace fallwright
