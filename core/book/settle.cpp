#include "book/settle.h"

#include <algorithm>

#include "book/missing.h"

namespace fallwright {

namespace {

class OrderSettler {
  public:
    explicit OrderSettler(Book& book) : book_(book), missing_(book) {}

    void run() {
        settle_order();
        missing_.report();
        drop_bare_clamps();
        list_readings();
        settle_sights();
    }

  private:
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
};

}  // namespace

void settle_order(Book& book) {
    OrderSettler(book).run();
}

void settle_entries(Book& book) {
    settle_names(book);
    settle_points(book);
    settle_order(book);
}

}  // namespace fallwright
