#include <algorithm>
#include <cmath>
#include <map>

#include "record/chapters.h"
#include "record/story.h"
#include "record/times.h"
#include "record/trial_words.h"

namespace fallwright::record {

namespace {

const char* type_words(InstrumentType type) {
    switch (type) {
        case InstrumentType::OpticalLevel:
            return "optical level";
        case InstrumentType::PipeLaser:
            return "pipe laser";
        default:
            return "rotating laser";
    }
}

const char* use_words(LineUse use) {
    switch (use) {
        case LineUse::Drain:
            return "drain";
        case LineUse::Road:
            return "road";
        case LineUse::Kerb:
            return "kerb";
        case LineUse::Slab:
            return "slab";
        default:
            return "line";
    }
}

class Cover {
  public:
    Cover(Writer& out, const Wanted& wanted) : out_(out), book_(out.book), wanted_(wanted) {}

    void run() {
        job();
        out_.say("Lengths in " + unit_text(out_.unit) + "; levels are rounded for reading. " +
                 "\u00b1 is one standard deviation, relative to " + relative_to(book_) + ".");
        if (laser_assumed(out_.evaluation.findings))
            out_.say(
                "All of it if the instruments are as good as assumed (untested): what is assumed stands "
                "under what to look at.",
                sheet::Tone::Finding);
        instruments();
        people();
        covers();
    }

  private:
    void job() {
        const auto [first, last] = span();
        std::string when = day_of(first);
        if (day_of(last) != when) when += " to " + day_of(last);
        std::vector<sheet::Facts::Fact> facts = {
            {"Job", book_.title.empty() ? "not named" : book_.title},
            {"Datum", datum()},
            {"Read", when.empty() ? "no times are booked" : when},
        };
        if (!wanted_.book_name.empty()) facts.push_back({"Book", wanted_.book_name});
        facts.push_back(
            {"This record", wanted_.made_at.empty() ? "no time given" : time_words(wanted_.made_at)});
        out_.facts(std::move(facts));
    }

    std::string datum() const {
        if (out_.model.assumed_datum) return "assumed: no benchmark, " + relative_to(book_);
        return (book_.datum.empty() ? "not named" : book_.datum) + "; held by " + relative_to(book_);
    }

    // Of readings that count.
    std::pair<Instant, Instant> span() const {
        Instant first = before_all, last = before_all;
        for (const Reading& reading : book_.readings) {
            const Instant at = book_.entries[reading.entry].at;
            if (reading.planned || at == before_all) continue;
            if (first == before_all || at < first) first = at;
            last = std::max(last, at);
        }
        return {first, last};
    }

    // The last check of an instrument by time; null where the book has none.
    const TrialOutcome* last_check(std::size_t instrument) const {
        const TrialOutcome* last = nullptr;
        const auto at = [this](const TrialOutcome& outcome) {
            return book_.entries[book_.trials[outcome.trial].entry].at;
        };
        for (const TrialOutcome& outcome : out_.evaluation.trials.outcomes) {
            if (outcome.instrument != instrument) continue;
            if (last == nullptr || at(outcome) >= at(*last)) last = &outcome;
        }
        return last;
    }

    std::string check_words(std::size_t instrument) const {
        const TrialOutcome* last = last_check(instrument);
        if (last == nullptr) return "no check in this book: untested";
        const std::string by = checked_by(book_, *last), on = checked_on(book_, *last);
        std::string text = "checked on site";
        if (!by.empty()) text += " by " + by;
        if (!on.empty()) text += " on " + time_words(on);
        text += ": " + trial_verdict(book_, *last);
        const auto adjusted = std::count_if(
            book_.adjusted.begin(), book_.adjusted.end(),
            [&](const Adjusted& each) { return each.instrument == book_.instruments[instrument].name; });
        if (adjusted > last->stretch) text += "; adjusted since, and not checked again";
        return text;
    }

    void instruments() {
        Rows rows("Instruments", {words_column("instrument"), words_column("kind"), figure_column("set-ups"),
                                  text_column("last check (on site; no calibration certificate)")});
        for (std::size_t i = 0; i < book_.instruments.size(); ++i) {
            const Instrument& instrument = book_.instruments[i];
            const auto setups = std::count_if(
                book_.setups.begin(), book_.setups.end(),
                [&](const Setup& setup) { return setup.instrument_at == static_cast<std::int32_t>(i); });
            rows.add({book_.name(instrument.name), type_words(instrument.type), std::to_string(setups),
                      check_words(i)});
        }
        out_.table(std::move(rows));
    }

    struct Person {
        std::size_t readings = 0, others = 0;
        Instant first = before_all, last = before_all;
    };

    void people() {
        std::map<std::string, Person> all;
        std::vector<bool> is_reading(book_.entries.size());
        for (const Reading& reading : book_.readings) is_reading[reading.entry] = !reading.planned;
        for (std::size_t i = 0; i < book_.entries.size(); ++i) {
            const Entry& entry = book_.entries[i];
            if (entry.refused && !entry.struck) continue;
            Person& person = all[entry.by == no_name ? "not said" : book_.name(entry.by)];
            ++(is_reading[i] ? person.readings : person.others);
            if (entry.at == before_all) continue;
            if (person.first == before_all || entry.at < person.first) person.first = entry.at;
            person.last = std::max(person.last, entry.at);
        }
        Rows rows("Who wrote it, and when",
                  {words_column("by"), figure_column("readings"), figure_column("other entries"),
                   words_column("first"), words_column("last")});
        for (const auto& [name, person] : all)
            rows.add({name, std::to_string(person.readings), std::to_string(person.others),
                      time_words(person.first), time_words(person.last)});
        out_.table(std::move(rows));
    }

    void covers() {
        std::vector<std::string> items;
        std::size_t planned = 0, used = 0;
        for (const Reading& reading : book_.readings) ++(reading.planned ? planned : used);
        items.push_back(counted(used, "reading", "readings") + " in " +
                        counted(book_.setups.size(), "set-up", "set-ups") + " of " +
                        counted(out_.model.points.size(), "point", "points") +
                        (book_.steps.empty() ? ""
                                             : ", " + counted(book_.steps.size(), "step", "steps") +
                                                   " carried by tape or spirit level"));
        for (std::size_t i = 0; i < book_.lines.size(); ++i) items.push_back(line_words(i));
        for (const SurfaceEntry& surface : book_.surfaces)
            items.push_back("surface " + book_.name(surface.name));
        if (planned > 0)
            items.push_back(counted(planned, "planned reading", "planned readings") + " left out");
        left_out(items);
        out_.heading(2, "What it covers");
        out_.list(std::move(items));
    }

    std::string line_words(std::size_t i) const {
        std::string text = std::string(use_words(book_.lines[i].use)) + " " + book_.name(book_.lines[i].name);
        if (!out_.evaluation.designs.lines[i].any()) text += ", without a design";
        const std::size_t stations = out_.evaluation.lines[i].stations.size();
        return text + ", " + counted(stations, "point", "points") + " read on it";
    }

    void left_out(std::vector<std::string>& items) const {
        std::size_t struck = 0, refused = 0;
        for (const Entry& entry : book_.entries) {
            if (entry.struck) ++struck;
            if (entry.refused && !entry.struck) ++refused;
        }
        if (struck > 0)
            items.push_back(counted(struck, "entry", "entries") + " struck, each listed with its reason");
        if (refused > 0)
            items.push_back(counted(refused, "line", "lines") +
                            " that cannot be used, left out: see what to look at");
    }

    Writer& out_;
    const Book& book_;
    const Wanted& wanted_;
};

}  // namespace

void add_cover(Writer& out, const Wanted& wanted) {
    out.heading(1, "The job");
    Cover(out, wanted).run();
}

void add_plan(Writer& out) {
    out.heading(1, "Where everything stands");
    out.figures(plan_of(out.evaluation, out.upright()));
}

void add_in_short(Writer& out) {
    out.heading(1, "In short");
    std::vector<sheet::Facts::Fact> facts;
    for (const StoryLine& line : story_of(out.evaluation)) {
        if (line.label.empty() && !facts.empty()) {
            facts.back().value += "; " + line.text;
        } else {
            facts.push_back({std::string(line.label), line.text});
        }
    }
    out.facts(std::move(facts));
}

}  // namespace fallwright::record
