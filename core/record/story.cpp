#include "record/story.h"

#include <array>
#include <cmath>
#include <utility>

#include "base/print.h"
#include "dial/card.h"
#include "record/suspect_words.h"
#include "record/words.h"
#include "verdict/verdict.h"

namespace fallwright::record {

namespace {

class Story {
  public:
    explicit Story(const Evaluation& evaluation)
        : evaluation_(evaluation), book_(*evaluation.book), unit_(book_.unit) {}

    std::vector<StoryLine> lines() {
        suspected();
        if (book_.wants.empty() && book_.tolerances.empty()) return std::move(lines_);
        closures();
        for (std::size_t i = 0; i < book_.lines.size(); ++i) ground(i);
        for (std::size_t i = 0; i < book_.lines.size(); ++i) wanted(i);
        for (const Dial& dial : evaluation_.dials.dials) set(dial);
        for (const SetoutTable& table : evaluation_.setout.tables) targets(table);
        for (std::size_t i = 0; i < book_.lines.size(); ++i) laid(i);
        return std::move(lines_);
    }

  private:
    void say(std::string_view label, const std::string& what) { lines_.push_back({label, what}); }

    std::string mm(double metres) const { return small(std::fabs(metres), unit_) + " " + small_unit(unit_); }

    void suspected() {
        const std::string line = suspect_line(evaluation_);
        if (!line.empty()) say(went_wrong, line);
    }

    void closures() {
        std::size_t good = 0;
        for (const JudgedClosure& closure : evaluation_.closures) good += closure.ok ? 1 : 0;
        const std::size_t all = evaluation_.closures.size();
        if (all == 0) return;
        say("misclosures", std::to_string(good) + " of " + std::to_string(all) +
                               " within what is allowed (rule " + evaluation_.rule.name + ")");
    }

    // Of what was read before anything was built.
    void ground(std::size_t line) {
        for (const Fit& fit : evaluation_.lines[line].fits) {
            if (book_.names.text(fit.what) != "ground") continue;
            say("the fall there is", book_.name(book_.lines[line].name) + " " + gradient(fit.gradient) +
                                         " \u00b1 " + gradient_sd(fit.sd) + "; " + mm(fit.rms) +
                                         " off straight (rms)");
        }
    }

    void wanted(std::size_t line) {
        const Design& design = evaluation_.designs.lines[line];
        const LevelOf levels = levels_found(*evaluation_.model);
        for (const ProfilePiece& piece : design.profile().pieces()) {
            const double found = piece.gradient.value(levels);
            if (std::isnan(found)) continue;
            say(fall_wanted, stretch(line, piece.from, piece.to) + ": " + gradient(found) +
                                 (piece.curved ? " where its curve begins" : ""));
        }
    }

    // Only what is set up for a stretch; the verb dial tells of the others.
    void set(const Dial& dial) {
        if (!dial.as_in_book || dial.line == no_name) return;
        const Setup& setup = book_.setups[dial.setup];
        const Instrument& machine = book_.instruments[static_cast<std::size_t>(setup.instrument_at)];
        say("set on the laser", book_.name(setup.name) + ", " + book_.name(dial.line) + " from " +
                                    level(dial.from, unit_) + ": main (X) " +
                                    keyed_text(machine, dial.keyed.main) + ", cross (Y) " +
                                    keyed_text(machine, dial.keyed.cross) + proof(dial));
    }

    std::string proof(const Dial& dial) const {
        if (!dial.proof) return "";
        return "; proof " + book_.name(dial.proof->point) + " " + level(dial.proof->staff, unit_);
    }

    // Whether a row lies on the stretch that the table's set-up is set to. At a chamber between two stretches
    // what comes in belongs to the one before.
    bool serves(const SetoutTable& table, const SetoutRow& row) const {
        for (const Dial& dial : evaluation_.dials.dials) {
            const bool of_table = dial.setup == table.setup && dial.line == book_.lines[table.line].name;
            if (!of_table || !dial.as_in_book) continue;
            const bool before = row.ch > dial.from || (row.ch == dial.from && row.what != "laid in");
            const bool after = row.ch < dial.to || (row.ch == dial.to && row.what != "laid out");
            if (before && after) return true;
        }
        return false;
    }

    // laid in and laid out are the ends of laid.
    static std::string family(const std::string& what) { return what.rfind("laid", 0) == 0 ? "laid" : what; }

    void targets(const SetoutTable& table) {
        const SetoutRow* first = nullptr;
        const SetoutRow* last = nullptr;
        for (const SetoutRow& row : table.rows) {
            if (std::isnan(row.target) || !serves(table, row)) continue;
            if (first != nullptr && family(row.what) != family(first->what)) continue;
            if (first == nullptr) first = &row;
            last = &row;
        }
        if (first == nullptr) return;
        say("the staff reads", book_.name(book_.setups[table.setup].name) + ", " +
                                   book_.name(book_.lines[table.line].name) + " " + family(first->what) +
                                   ": " + level(first->target, unit_) + " at " + level(first->ch, unit_) +
                                   ", " + level(last->target, unit_) + " at " + level(last->ch, unit_));
    }

    void laid(std::size_t line) {
        const LineFalls& found = evaluation_.lines[line];
        const LineJudge judge(book_, evaluation_.designs.lines[line], found, *evaluation_.model);
        if (!judge.has_tolerances()) return;
        std::array<int, 4> count{};
        const Station* worst = nullptr;
        double most = 0;
        for (const Station& station : found.stations) {
            const StationVerdict verdict = judge.judge(station);
            ++count[static_cast<std::size_t>(verdict.judged.verdict)];
            if (verdict.judged.verdict == Verdict::Untested ||
                std::fabs(verdict.deviation) <= std::fabs(most))
                continue;
            worst = &station;
            most = verdict.deviation;
        }
        if (worst == nullptr) return;
        const auto number = [&count](Verdict verdict) {
            return std::to_string(count[static_cast<std::size_t>(verdict)]);
        };
        say("what was laid", book_.name(book_.lines[line].name) + ": " + number(Verdict::Within) +
                                 " within, " + number(Verdict::Undecided) + " too close to call, " +
                                 number(Verdict::Outside) + " outside; worst " + mm(most) +
                                 (most < 0 ? " low" : " high") + " at " + level(worst->ch, unit_));
        for (const AllWithin& all : judge.all_within())
            say("", "all of " + std::string(all.what) + " within: " + percent(all.probability) + " sure");
        falls(line, judge);
    }

    // Chamber to chamber, else the whole line.
    void falls(std::size_t line, const LineJudge& judge) {
        const std::vector<FoundFall> all =
            list_falls(book_, evaluation_.designs.lines[line], evaluation_.lines[line], *evaluation_.model);
        bool chambers = false;
        for (const FoundFall& fall : all) chambers = chambers || fall.span == Span::Chambers;
        for (const FoundFall& fall : all) {
            if (fall.what == "ground" || fall.span != (chambers ? Span::Chambers : Span::Line)) continue;
            const FallVerdict verdict = judge.judge(fall);
            const std::string design =
                std::isnan(verdict.design) ? "" : ", wanted " + fixed(100 * verdict.design, 3) + " %";
            say(fall_laid, stretch(line, fall.from, fall.to) + " " + std::string(fall.what) + ": " +
                               gradient(-fall.gradient) + " \u00b1 " + gradient_sd(fall.sd) + design);
        }
    }

    std::string stretch(std::size_t line, double from, double to) const {
        return book_.name(book_.lines[line].name) + " " + level(from, unit_) + " to " + level(to, unit_);
    }

    const Evaluation& evaluation_;
    const Book& book_;
    Unit unit_;
    std::vector<StoryLine> lines_;
};

}  // namespace

std::vector<StoryLine> story_of(const Evaluation& evaluation) {
    return Story(evaluation).lines();
}

}  // namespace fallwright::record
