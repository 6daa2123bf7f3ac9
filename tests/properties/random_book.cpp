#include "properties/random_book.h"

#include <rapidcheck.h>

#include <array>
#include <cmath>
#include <set>
#include <string>

#include "properties/kit.h"
#include "properties/sighting.h"
#include "properties/site.h"

namespace fallwright::properties {

namespace {

class Booker {
  public:
    Booker(std::uint64_t seed, std::size_t most_setups, const Wishes& wishes)
        : draw_(seed), wishes_(wishes), setups_(1 + draw_.below(most_setups)) {}

    RandomBook run() {
        book_.lines.push_back({{"kind", "book"}, {"format", "fallwright"}, {"version", 1}});
        if (wishes_.plain || draw_.one_in(2)) book_.lines.back()["curvature"] = false;
        site_ = random_site(draw_, wishes_);
        for (const Json& line : random_kit(draw_, wishes_)) add(line);
        for (const Json& line : site_.lines) add(line);
        add_benchmarks();
        for (std::size_t i = 0; i < setups_; ++i) add_setup();
        if (wishes_.redundant) add_steps();
        return std::move(book_);
    }

  private:
    void add(Json line) {
        if (wishes_.told) {
            line["id"] = "T-" + std::to_string(book_.lines.size());
            std::array<char, 32> at{};
            const auto count = static_cast<int>(book_.lines.size());
            std::snprintf(at.data(), at.size(), "2026-05-04T%02d:%02d:%02dZ", 8 + count / 3600,
                          count / 60 % 60, count % 60);
            line["at"] = at.data();
        }
        book_.lines.push_back(std::move(line));
    }

    void add_benchmarks() {
        const bool none = !wishes_.one_datum && wishes_.redundant && draw_.one_in(8);
        if (none) return;
        const std::size_t count = wishes_.redundant ? 1 + draw_.below(3) : 1;
        for (std::size_t i = 0; i < count; ++i) {
            Spot& spot = site_.spots[i];
            spot.benchmark = true;
            Json line = {{"kind", "benchmark"}, {"point", spot.name}};
            line["level"] = spot.height + draw_.step(-0.002, 0.002, 0.001);
            const bool weighted =
                i > 0 ? draw_.one_in(2) : !wishes_.one_datum && wishes_.redundant && draw_.one_in(4);
            if (weighted) line["sd"] = draw_.step(0.001, 0.005, 0.001);
            add(line);
        }
    }

    void add_setup() {
        const Sighting sighting(draw_, wishes_, site_, number_++);
        read_setup(sighting);
        if (wishes_.redundant && draw_.one_in(8))
            add({{"kind", "adjusted"},
                 {"instrument", "L1"},
                 {"why", "screws turned before " + std::to_string(number_)}});
        if (wishes_.redundant && draw_.one_in(8))
            add({{"kind", "relaid"},
                 {"line", "D1"},
                 {"what", "laid"},
                 {"to", 35},
                 {"why", "settled before " + std::to_string(number_)}});
        if (wishes_.redundant && sighting.can_turn() && draw_.one_in(3))
            read_setup(sighting.turned(draw_, number_++));
    }

    void read_setup(const Sighting& sighting) {
        add(sighting.entry());
        const std::size_t first = first_spot();
        std::vector<std::size_t> others;
        for (std::size_t i = 0, count = 1 + draw_.below(5); i < count; ++i) {
            const std::size_t spot = draw_.below(site_.spots.size());
            const bool fresh = seen_.count(spot) == 0 && !site_.spots[spot].benchmark && spot != first;
            if (wishes_.redundant || (fresh && names_.insert(site_.spots[spot].name).second))
                others.push_back(spot);
            if (!wishes_.redundant && fresh) seen_.insert(spot);
        }
        read(sighting, first);
        for (const std::size_t spot : others) read(sighting, spot);
        seen_.insert(first);
        seen_.insert(others.begin(), others.end());
    }

    // A benchmark, or a point that a set-up before has read; the first set-up of a book without benchmarks
    // begins anywhere.
    std::size_t first_spot() {
        std::vector<std::size_t> known(seen_.begin(), seen_.end());
        for (std::size_t i = 0; i < site_.spots.size(); ++i) {
            if (site_.spots[i].benchmark) known.push_back(i);
        }
        return known.empty() ? draw_.below(site_.spots.size()) : draw_.from(known);
    }

    void read(const Sighting& sighting, std::size_t spot) {
        if (sighting.can_read(site_.spots[spot])) add(sighting.reading(draw_, site_.spots[spot]));
    }

    void add_steps() {
        for (std::size_t i = draw_.below(3); i-- > 0;) {
            const Spot& from = draw_.from(site_.spots);
            const Spot& to = draw_.from(site_.spots);
            // A name on a line holds a chainage, which feet and the line's other end say otherwise.
            if (from.name == to.name || from.target.contains("line") || to.target.contains("line")) continue;
            Json line = {{"kind", "step"}, {"from", from.name}, {"to", to.name}};
            line["rise"] = millimetres(to.height - from.height) + draw_.step(-0.002, 0.002, 0.001);
            if (wishes_.all_sds || draw_.one_in(2)) line["sd"] = draw_.step(0.001, 0.004, 0.001);
            add(line);
        }
    }

    Draw draw_;
    const Wishes& wishes_;
    std::size_t setups_, number_ = 0;
    RandomBook book_;
    Site site_;
    std::set<std::size_t> seen_;
    std::set<std::string> names_;
};

}  // namespace

std::string RandomBook::text() const {
    std::string all;
    for (const Json& line : lines) all += line.dump() + "\n";
    return all;
}

RandomBook random_book(std::uint64_t seed, std::size_t most_setups, const Wishes& wishes) {
    return Booker(seed, most_setups, wishes).run();
}

RandomBook any_book(const Wishes& wishes) {
    const auto seed = *rc::gen::noShrink(rc::gen::arbitrary<std::uint64_t>()).as("seed");
    const auto setups = *rc::gen::inRange<std::size_t>(1, 7).as("most set-ups");
    return random_book(seed, setups, wishes);
}

}  // namespace fallwright::properties
