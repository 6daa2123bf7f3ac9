#include "page/page.h"

#include <algorithm>

#include "page/runs.h"
#include "page/share.h"

namespace fallwright {

namespace {

constexpr double assumed_level =
    100;  // of the first point read where there is no benchmark, in the book's unit

// Levels by the name of their point.
class LevelOf {
  public:
    explicit LevelOf(const Book& book) : levels_(book.names.size()) {}

    bool empty() const { return count_ == 0; }
    bool has(NameId point) const { return static_cast<bool>(levels_[point]); }
    Decimal at(NameId point) const { return *levels_[point]; }
    // The first level of a point stands.
    void emplace(NameId point, Decimal level) {
        if (has(point)) return;
        levels_[point] = level;
        ++count_;
    }

  private:
    std::vector<MaybeDecimal> levels_;
    std::size_t count_ = 0;
};

class PageMaker {
  public:
    PageMaker(const Book& book, const Figures& figures, const Where& where, preset::MisclosureRule::By by)
        : book_(book), figures_(figures), where_(where), by_(by), known_(book), found_(book) {
        // A fixed value comes before a weighted one of the same point.
        for (const Benchmark& benchmark : book.benchmarks) {
            if (benchmark.sd == 0) known_.emplace(benchmark.point, benchmark.level);
        }
        for (const Benchmark& benchmark : book.benchmarks) known_.emplace(benchmark.point, benchmark.level);
        found_ = known_;
    }

    Pages run() {
        const Runs runs = find_runs(book_, figures_, where_);
        for (const Run& run : runs.runs) {
            if (found_.empty())
                found_.emplace(point_of(run.setups.front().readings.front()),
                               Decimal::metres(assumed_level * book_.metres_per_unit()));
            if (run.sloped) {
                book_sloped(run);
            } else {
                book_run(run);
            }
        }
        report_left_out(runs);
        return std::move(pages_);
    }

  private:
    NameId point_of(std::uint32_t reading) const { return book_.readings[reading].point; }

    Decimal sight(std::uint32_t reading) const { return figures_.upright(book_.readings[reading], reading); }

    PageRow row(std::uint32_t reading, std::int32_t setup) const {
        PageRow made;
        made.reading = reading;
        made.setup = setup;
        made.known = known_.has(point_of(reading));
        return made;
    }

    void book_run(const Run& run) {
        Page page;
        const std::uint32_t start = run.setups.front().readings.front();
        std::size_t sights = 0;
        for (const RunSetup& setup : run.setups) sights += setup.readings.size();
        RunWay way(where_, sights);
        page.rows.reserve(sights);
        page.first = found_.at(point_of(start));
        page.rows.push_back(row(start, run.setups.front().setup));
        page.rows.back().level = page.first;
        way.add_row();
        for (const RunSetup& setup : run.setups) book_setup(setup, page, way);
        finish(page);
        way.share_out(by_ == preset::MisclosureRule::By::Km, page);
        pages_.pages.push_back(std::move(page));
    }

    // The reading booked as fore: that of the point carried on, else the last fore, else the last.
    static std::size_t fore_of(const Book& book, const RunSetup& setup) {
        for (std::size_t k = setup.readings.size(); k-- > 1;) {
            const Reading& reading = book.readings[setup.readings[k]];
            if (setup.carried != no_name ? reading.point == setup.carried : reading.sight == Sight::Fore)
                return k;
        }
        return setup.readings.size() - 1;
    }

    void book_setup(const RunSetup& setup, Page& page, RunWay& way) {
        const std::uint32_t back = setup.readings.front();
        PageRow& start = page.rows.back();
        start.back = sight(back);
        start.setup = setup.setup;
        start.collimation = start.level + sight(back);
        if (setup.readings.size() > 1) page.sum_back += sight(back);
        way.enter(back);
        const Decimal collimation = *start.collimation;
        const std::size_t fore = fore_of(book_, setup);
        Decimal before = sight(back);
        for (std::size_t k = 1; k < setup.readings.size(); ++k) {
            if (k != fore) before = book_sight(setup, k, false, collimation, before, page, way);
        }
        if (fore > 0) book_sight(setup, fore, true, collimation, before, page, way);
        if (fore > 0) way.leave(setup.readings[fore]);
    }

    Decimal book_sight(const RunSetup& setup, std::size_t k, bool fore, Decimal collimation, Decimal before,
                       Page& page, RunWay& way) {
        const std::uint32_t reading = setup.readings[k];
        const Decimal value = sight(reading);
        PageRow made = row(reading, setup.setup);
        (fore ? made.fore : made.inter) = value;
        const Decimal difference = before - value;
        if (difference >= Decimal()) {
            made.rise = difference;
            page.sum_rise += difference;
        } else {
            made.fall = -difference;
            page.sum_fall += -difference;
        }
        if (fore) page.sum_fore += value;
        made.level = collimation - value;
        found_.emplace(point_of(reading), made.level);
        page.rows.push_back(made);
        way.add_row();
        close(reading, page, way);
        return value;
    }

    // A benchmark met, or the run's own start met again.
    void close(std::uint32_t reading, const Page& page, RunWay& way) {
        const NameId point = point_of(reading);
        const NameId start = point_of(page.rows.front().reading);
        const bool known = known_.has(point);
        if (!known && point != start) return;
        Closure closure;
        closure.from = start;
        closure.to = point;
        closure.loop = point == start;
        closure.from_benchmark = known_.has(start);
        closure.setups = way.setups;
        closure.length = way.length_with(reading);
        closure.misclosure = page.rows.back().level - (known ? known_.at(point) : page.first);
        closure.way = way.sights;
        closure.way.push_back({reading, -1});
        way.note(closure);
        pages_.closures.push_back(std::move(closure));
    }

    static void finish(Page& page) {
        page.last = page.rows.back().level;
        const Decimal by_sights = page.sum_back - page.sum_fore;
        page.agrees = by_sights == page.sum_rise - page.sum_fall && by_sights == page.last - page.first;
    }

    // "Plane level here": what the dialled plane is at each point, from the back sight.
    void book_sloped(const Run& run) {
        const RunSetup& setup = run.setups.front();
        Page page;
        page.sloped = true;
        const std::uint32_t back = setup.readings.front();
        page.first = page.last = found_.at(point_of(back));
        const Decimal at_back = page.first + sight(back);
        for (const std::uint32_t reading : setup.readings) {
            PageRow made = row(reading, setup.setup);
            (reading == back ? made.back : made.inter) = sight(reading);
            made.collimation =
                at_back + Decimal::metres(plane_at(setup.setup, reading) - plane_at(setup.setup, back));
            made.level = *made.collimation - sight(reading);
            found_.emplace(point_of(reading), made.level);
            page.last = made.level;
            page.rows.push_back(made);
        }
        pages_.pages.push_back(std::move(page));
    }

    double plane_at(std::int32_t setup, std::uint32_t reading) const {
        const Setup& entry = book_.setups[static_cast<std::size_t>(setup)];
        return entry.plane[0].dialled * where_.readings[reading].u +
               entry.plane[1].dialled * where_.readings[reading].v;
    }

    void report_left_out(const Runs& runs) {
        if (runs.left_out.empty()) return;
        std::vector<std::string> names;
        for (const std::int32_t setup : runs.left_out)
            names.push_back(book_.name(book_.setups[static_cast<std::size_t>(setup)].name));
        const std::string which = names.size() == 1 ? "set-up " + names.front() + " has"
                                                    : std::to_string(names.size()) + " set-ups have";
        pages_.findings.push_back(finding(Code::PageNoBack, std::move(names),
                                          which + " no back sight to a known point; no page is booked"));
    }

    const Book& book_;
    const Figures& figures_;
    const Where& where_;
    preset::MisclosureRule::By by_;
    LevelOf known_, found_;  // of benchmarks; of all points met so far, the first level counts
    Pages pages_;
};

}  // namespace

Pages book_pages(const Book& book, const Figures& figures, const Where& where,
                 preset::MisclosureRule::By by) {
    return PageMaker(book, figures, where, by).run();
}

std::string_view remark_of(const Page& page, const PageRow& row) {
    if (page.sloped) return "plane level here";
    if (row.known) return "benchmark";
    return row.back && row.fore ? "change point" : "";
}

}  // namespace fallwright
