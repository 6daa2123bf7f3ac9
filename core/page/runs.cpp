#include "page/runs.h"

#include <algorithm>

namespace fallwright {

namespace {

class RunFinder {
  public:
    RunFinder(const Book& book, const Figures& figures, const Where& where)
        : book_(book),
          figures_(figures),
          where_(where),
          back_(book.readings.size(), false),
          known_(book.names.size(), false),
          benchmark_(book.names.size(), false),
          reached_(book.names.size()) {
        for (const Benchmark& benchmark : book.benchmarks)
            benchmark_[benchmark.point] = known_[benchmark.point] = true;
    }

    Runs run() {
        gather();
        known_ = benchmark_;
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
            const auto setup = static_cast<std::size_t>(book_.readings[i].setup_at);
            if (!figures_.usable[i] || !fits_its_plane(setup, i)) continue;
            // Without any benchmark the first point read is the datum.
            if (book_.benchmarks.empty() && order_.empty()) known_[point_of(i)] = true;
            const bool first = sights_[setup].empty();
            const Sight sight = book_.readings[i].sight;
            back_[i] = sight == Sight::Back || (sight == Sight::Default && first && known_[point_of(i)]);
            known_[point_of(i)] = true;
            if (first) order_.push_back(setup);
            sights_[setup].push_back(i);
        }
    }

    bool fits_its_plane(std::size_t setup, std::uint32_t reading) const {
        const bool oriented = where_.headings[setup].known || where_.aligned[setup];
        return level(setup) || (oriented && where_.readings[reading].has_uv);
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
        const auto back = std::find_if(sights.begin(), sights.end(),
                                       [this](std::uint32_t i) { return back_[i] && known_[point_of(i)]; });
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
        const auto index = run >= 0 ? run : static_cast<std::int32_t>(found_.runs.size());
        // The point a set-up starts from was reached by the one before: who starts there again branches off.
        for (std::size_t k = 0; k < sights.size(); ++k) {
            known_[point_of(sights[k])] = true;
            if (k > 0) reached_[point_of(sights[k])] = {index, static_cast<std::int32_t>(setup)};
        }
        if (run >= 0) {
            found_.runs[static_cast<std::size_t>(run)].setups.back().carried = start;
        } else {
            found_.runs.push_back({!level(setup), {}});
        }
        found_.runs[static_cast<std::size_t>(index)].setups.push_back(
            {static_cast<std::int32_t>(setup), std::move(sights), no_name});
    }

    // The run whose last set-up read this point; -1 where there is none.
    std::int32_t run_that_reached(NameId point) const {
        const Reached& found = reached_[point];
        if (found.run < 0) return -1;
        const Run& run = found_.runs[static_cast<std::size_t>(found.run)];
        return !run.sloped && run.setups.back().setup == found.setup ? found.run : -1;
    }

    struct Reached {
        std::int32_t run = -1, setup = -1;
    };

    const Book& book_;
    const Figures& figures_;
    const Where& where_;
    Runs found_;
    std::vector<bool> back_;               // per reading
    std::vector<bool> known_, benchmark_;  // per point
    std::vector<std::vector<std::uint32_t>> sights_;
    std::vector<std::size_t> order_;
    std::vector<Reached> reached_;  // by point: the run and set-up that read it last
};

}  // namespace

Runs find_runs(const Book& book, const Figures& figures, const Where& where) {
    return RunFinder(book, figures, where).run();
}

}  // namespace fallwright
