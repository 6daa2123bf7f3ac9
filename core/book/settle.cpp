#include "book/settle.h"

#include <algorithm>
#include <map>

#include "book/missing.h"

namespace fallwright {

namespace {

class OrderSettler {
  public:
    explicit OrderSettler(Book& book) : book_(book), missing_(book) {}

    void run() {
        settle_order();
        missing_.report();
        report_astray();
        drop_bare_clamps();
        list_readings();
    }

  private:
    struct Moment {
        Instant at;
        std::uint32_t entry;
        std::int32_t setup, reading;  // indices; -1 where it is none. Neither: a set-up that is left out
        bool operator<(const Moment& other) const {
            return at != other.at ? at < other.at : entry < other.entry;
        }
    };

    // Whether the entry is the next one of its kind: the arrays stand in the order of lines.
    template <class T>
    static bool stands(const std::vector<T>& entries, std::int32_t next, std::uint32_t entry) {
        const auto at = static_cast<std::size_t>(next);
        return at < entries.size() && entries[at].entry == entry;
    }

    // Gives readings without a set-up the last one in time order; leaves out those that have none.
    void settle_order() {
        const ByName setups(book_.setups);
        std::vector<Moment> moments;
        moments.reserve(book_.setups.size() + book_.readings.size());
        std::int32_t next_setup = 0, next_reading = 0;
        for (std::uint32_t i = 0; i < book_.entries.size(); ++i) {
            const Entry& entry = book_.entries[i];
            if (stands(book_.setups, next_setup, i)) {
                moments.push_back({entry.at, i, next_setup++, -1});
            } else if (stands(book_.readings, next_reading, i)) {
                moments.push_back({entry.at, i, -1, next_reading++});
            } else if (entry.kind == Kind::Setup && entry.refused && !entry.struck) {
                moments.push_back({entry.at, i, -1, -1});
            }
        }
        if (!std::is_sorted(moments.begin(), moments.end())) std::sort(moments.begin(), moments.end());
        const Moment* last = nullptr;
        for (const Moment& moment : moments) {
            if (moment.reading < 0) {
                last = &moment;
            } else {
                settle_setup(book_.readings[static_cast<std::size_t>(moment.reading)], setups, last);
            }
        }
        remove_if(book_.readings,
                  [this](const Reading& reading) { return book_.entries[reading.entry].refused; });
    }

    void settle_setup(Reading& reading, const ByName& setups, const Moment* last) {
        if (reading.setup != no_name) {
            reading.setup_at = setups(reading.setup);
            missing_.missing("set-up", reading.setup, reading.setup_at >= 0, reading.entry);
        } else if (last != nullptr && last->setup >= 0) {
            reading.setup_is_last = true;
            reading.setup_at = last->setup;
            reading.setup = book_.setups[static_cast<std::size_t>(last->setup)].name;
        } else {
            book_.entries[reading.entry].refused = true;
            if (last != nullptr) {
                astray_[last->entry].push_back(reading.entry);
                return;
            }
            book_.findings.push_back(finding(Code::NoSetup, {book_.id_of(reading.entry)},
                                             "the reading stands before any set-up; it is left out"));
        }
    }

    // What was read in a set-up that is left out must not go to the set-up before it.
    void report_astray() {
        for (const auto& [setup, readings] : astray_) {
            std::vector<std::string> about;
            for (const std::uint32_t reading : readings) about.push_back(book_.id_of(reading));
            book_.findings.push_back(
                finding(Code::NoSetup, std::move(about),
                        "set-up " + book_.id_of(setup) + " is left out, and with it what was read in it",
                        "mend the set-up by an amendment, or name the right set-up in the readings"));
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
        const auto earlier = [&](std::uint32_t a, std::uint32_t b) { return at(a) < at(b); };
        std::vector<std::uint32_t>& all = book_.readings_by_time;
        if (!std::is_sorted(all.begin(), all.end(), earlier))
            std::stable_sort(all.begin(), all.end(), earlier);
    }

    Book& book_;
    MissingReferences missing_;
    std::map<std::uint32_t, std::vector<std::uint32_t>> astray_;  // by the set-up that is left out
};

}  // namespace

void settle_order(Book& book) {
    OrderSettler(book).run();
}

void settle_entries(Book& book) {
    settle_names(book);
    settle_tolerances(book);
    settle_points(book);
    settle_order(book);
}

}  // namespace fallwright
