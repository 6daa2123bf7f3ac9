#include <algorithm>
#include <map>
#include <unordered_set>
#include <utility>

#include "book/missing.h"
#include "book/settle.h"

namespace fallwright {

namespace {

class NameSettler {
  public:
    explicit NameSettler(Book& book) : book_(book), missing_(book) {}

    void run() {
        drop_duplicates();
        settle_benchmarks();
        check_references();
        settle_heads();
        missing_.report();
    }

  private:
    template <class T, class Key>
    void first_stands(std::vector<T>& entries, std::string_view what, Key key) {
        std::unordered_set<std::uint64_t> seen(entries.size());
        remove_if(entries, [&](const T& entry) {
            if (seen.insert(key(entry)).second) return false;
            book_.entries[entry.entry].refused = true;
            book_.findings.push_back(
                finding(Code::DuplicateName, {book_.id_of(entry.entry)},
                        std::string(what) + " is in the book already; the first stands"));
            return true;
        });
    }

    void drop_duplicates() {
        const auto by_name = [](const auto& entry) -> std::uint64_t { return entry.name; };
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
                     [](const PlaceEntry& place) -> std::uint64_t { return place.point; });
        first_stands(book_.tolerances, "a tolerance for this line and surface",
                     [](const Tolerance& entry) { return std::uint64_t{entry.line} << 32 | entry.what; });
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
        check_surfaces();
        check_wants(lines);
    }

    // What is held against a surface that is left out is left out with it.
    void check_surfaces() {
        bool again = true;
        while (again) {
            const ByName surfaces(book_.surfaces);
            const std::size_t before = book_.surfaces.size();
            remove_if(book_.surfaces, [&](const SurfaceEntry& surface) {
                return std::any_of(surface.to.begin(), surface.to.end(), [&](const SurfaceTarget& target) {
                    return missing_.missing("surface", target.surface, surfaces(target.surface) >= 0,
                                            surface.entry);
                });
            });
            again = book_.surfaces.size() != before;
        }
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

    Book& book_;
    MissingReferences missing_;
};

}  // namespace

void settle_names(Book& book) {
    NameSettler(book).run();
}

}  // namespace fallwright
