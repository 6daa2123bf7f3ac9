#include "page/runs.h"

#include <algorithm>

namespace fallwright {

namespace {

class RunFinder {
  public:
    RunFinder(const Book& book, const Figures& figures)
        : book_(book),
          figures_(figures),
          known_(book.names.size(), false),
          benchmark_(book.names.size(), false) {
        for (const Benchmark& benchmark : book.benchmarks)
            benchmark_[benchmark.point] = known_[benchmark.point] = true;
    }

    Runs run() {
        gather();
        if (book_.benchmarks.empty() && !order_.empty())
            known_[point_of(sights_[order_.front()].front())] = true;
        for (const std::size_t setup : order_) place(setup);
        return std::move(found_);
    }

  private:
    NameId point_of(std::uint32_t reading) const { return book_.readings[reading].point; }

    // Readings of each set-up in time order, and set-ups in order of their first.
    void gather() {
        sights_.resize(book_.setups.size());
        for (const std::uint32_t i : book_.readings_by_time) {
            if (!figures_.usable[i]) continue;
            const auto setup = static_cast<std::size_t>(book_.readings[i].setup_at);
            if (sights_[setup].empty()) order_.push_back(setup);
            sights_[setup].push_back(i);
        }
    }

    bool level(std::size_t setup) const {
        const Setup& entry = book_.setups[setup];
        return entry.plane[0].dialled == 0 && entry.plane[1].dialled == 0 && !matched(setup);
    }
    bool matched(std::size_t setup) const {
        return book_.setups[setup].plane[0].matched || book_.setups[setup].plane[1].matched;
    }

    // Brings the first back sight on a known point to the front; false where there is none.
    bool back_first(std::vector<std::uint32_t>& sights) const {
        const auto back = std::find_if(sights.begin(), sights.end(), [this](std::uint32_t i) {
            return book_.readings[i].sight == Sight::Back && known_[point_of(i)];
        });
        if (back == sights.end()) return false;
        std::rotate(sights.begin(), back, back + 1);
        return true;
    }

    void place(std::size_t setup) {
        std::vector<std::uint32_t>& sights = sights_[setup];
        if (matched(setup)) return;
        if (!back_first(sights)) {
            found_.left_out.push_back(static_cast<std::int32_t>(setup));
            return;
        }
        const NameId start = point_of(sights.front());
        const std::int32_t run = level(setup) && !benchmark_[start] ? run_that_reached(start) : -1;
        RunSetup next = {static_cast<std::int32_t>(setup), sights, no_name};
        if (run >= 0) {
            Run& joined = found_.runs[static_cast<std::size_t>(run)];
            joined.setups.back().carried = start;
            joined.setups.push_back(std::move(next));
        } else {
            found_.runs.push_back({!level(setup), {std::move(next)}});
        }
        const auto index = run >= 0 ? run : static_cast<std::int32_t>(found_.runs.size()) - 1;
        for (const std::uint32_t i : sights) {
            known_[point_of(i)] = true;
            reached_[point_of(i)] = {index, static_cast<std::int32_t>(setup)};
        }
    }

    // The run whose last set-up read this point; -1 where there is none.
    std::int32_t run_that_reached(NameId point) const {
        const auto found = reached_.find(point);
        if (found == reached_.end()) return -1;
        const Run& run = found_.runs[static_cast<std::size_t>(found->second.run)];
        return !run.sloped && run.setups.back().setup == found->second.setup ? found->second.run : -1;
    }

    struct Reached {
        std::int32_t run, setup;
    };

    const Book& book_;
    const Figures& figures_;
    Runs found_;
    std::vector<bool> known_, benchmark_;
    std::vector<std::vector<std::uint32_t>> sights_;
    std::vector<std::size_t> order_;
    std::unordered_map<NameId, Reached> reached_;
};

}  // namespace

Runs find_runs(const Book& book, const Figures& figures) {
    return RunFinder(book, figures).run();
}

}  // namespace fallwright
