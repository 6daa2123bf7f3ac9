#include <algorithm>
#include <cmath>

#include "base/print.h"
#include "record/pipe_words.h"
#include "shells/cli/people_runs.h"
#include "shells/cli/table.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

namespace {

using record::bore_text;
using record::fall_text;
using record::volume_text;

using drain::Dug;
using drain::FollowChoice;
using drain::Held;
using drain::Holder;

std::string holder_words(Holder by) {
    switch (by) {
        case Holder::Cover:
            return "cover";
        case Holder::LeastFall:
            return "least fall";
        case Holder::SteepestFall:
            return "steepest fall";
        case Holder::Outfall:
            return "outfall";
        default:
            return "inlet";
    }
}

class FollowText {
  public:
    explicit FollowText(const DrainBookAnswer& answer)
        : answer_(answer),
          book_(*answer.evaluation->book),
          unit_(book_.unit),
          wish_(*answer.wish),
          found_(*answer.followed) {}

    std::string text() const {
        std::string text = heading() + wanted();
        if (found_.choices.empty()) return text;
        return text + choices() + rows(found_.choices.back()) + traded(found_.choices.back());
    }

  private:
    std::string heading() const {
        return "\nThe pipe of least dig under " + book_.name(book_.lines[wish_.line].name) + " " +
               found_.what + ", " + level(found_.from, unit_) + " to " + level(found_.to, unit_) +
               (found_.with_chainage ? ", water runs with the chainage\n"
                                     : ", water runs against the chainage\n");
    }

    std::string wanted() const {
        std::string text = "  wanted: bore " + bore_text(wish_.pipe.bore.value, unit_) + ", cover " +
                           level(wish_.cover, unit_) + ", fall " + fall_text(wish_.limits.least_fall) +
                           " or steeper";
        if (!answer_.fall_from.empty()) text += " (" + answer_.fall_from + ")";
        if (std::isfinite(wish_.limits.steepest_fall))
            text += ", no steeper than " + fall_text(wish_.limits.steepest_fall);
        if (!std::isnan(found_.outfall)) {
            text += ", outfall " + level(found_.outfall, unit_);
            if (!found_.outfall_from.empty()) text += " (" + found_.outfall_from + ")";
        }
        if (std::isfinite(wish_.limits.inlet)) text += ", inlet " + level(wish_.limits.inlet, unit_);
        return text + "\n  " + record::trench_rule_words(wish_.trench, unit_) + "\n";
    }

    // One row a grade, one block a choice.
    std::string choices() const {
        Table table({{"grades"},
                     {"from"},
                     {"to"},
                     {"fall", Align::Left},
                     {"upper invert"},
                     {"lower invert"},
                     {"dug"},
                     {"±"},
                     {"", Align::Left}});
        for (const FollowChoice& choice : found_.choices) {
            for (std::size_t i = 0; i < choice.falls.size(); ++i) {
                const bool first = i == 0;
                table.add({first ? std::to_string(choice.falls.size()) : "",
                           level(choice.followed.x[i], unit_), level(choice.followed.x[i + 1], unit_),
                           fall_text(choice.falls[i]), level(choice.followed.y[i], unit_),
                           level(choice.followed.y[i + 1], unit_),
                           first ? volume_text(choice.dug.dug, unit_) : "",
                           first ? volume_text(choice.dug.dug_sd, unit_) : "",
                           first && !choice.followed.proved ? "best found, not proved" : ""});
            }
        }
        return table.text();
    }

    std::string rows(const FollowChoice& choice) const {
        Table table({{"chainage"},
                     {"ground"},
                     {"± " + small_unit(unit_)},
                     {"invert"},
                     {"cover"},
                     {"depth"},
                     {"", Align::Left}});
        for (const drain::FollowRow& row : choice.rows)
            table.add({level(row.ch, unit_), level(row.ground, unit_), small(row.ground_sd, unit_),
                       level(row.invert, unit_), level(row.cover, unit_), level(row.depth, unit_),
                       held_at(choice, row)});
        const auto shallower = [](const drain::FollowRow& a, const drain::FollowRow& b) {
            return a.depth < b.depth;
        };
        const drain::FollowRow& deepest =
            *std::max_element(choice.rows.begin(), choice.rows.end(), shallower);
        return "\nAlong it, of " + std::to_string(choice.falls.size()) +
               (choice.falls.size() == 1 ? " grade\n" : " grades\n") + table.text() + "  trench up to " +
               level(deepest.depth, unit_) + " ± " + small(deepest.ground_sd, unit_) + " " +
               small_unit(unit_) + " deep, at " + level(deepest.ch, unit_) +
               "; shallower trenches fall in too: the competent person decides support at every depth\n";
    }

    static std::string held_at(const FollowChoice& choice, const drain::FollowRow& row) {
        std::string text = row.meets ? "grades meet" : "";
        if (row.meets && (row.ch == choice.rows.front().ch || row.ch == choice.rows.back().ch)) text = "";
        for (const Held& held : choice.followed.held) {
            const bool here = std::fabs(held.x - row.ch) < least_chainage && held.by == Holder::Cover;
            if (here) text += text.empty() ? "held by cover" : ", held by cover";
        }
        return text;
    }

    std::string traded(const FollowChoice& choice) const {
        double depth_area = 0;
        for (std::size_t i = 1; i < choice.rows.size(); ++i)
            depth_area += (choice.rows[i].ch - choice.rows[i - 1].ch) *
                          (choice.rows[i].depth + choice.rows[i - 1].depth) / 2;
        const double width = choice.dug.dug / depth_area;  // on the whole
        std::string text = "\nWhat was traded, to the first order\n";
        const auto say = [&](Holder by, double step, const std::string& more) {
            const double price = choice.followed.price_of(by) * step * width;
            if (price < 0.05) return;
            text += "  " + more + " digs about " + volume_text(price, unit_) + " more\n";
        };
        constexpr double tenth = 0.1, tenth_percent = 0.001;
        const double step = unit_ == Unit::Foot ? tenth * metres_per_foot : tenth;
        const std::string length = unit_ == Unit::Foot ? "0.1 ft" : "100 mm";
        say(Holder::Cover, step, length + " more cover");
        say(Holder::LeastFall, tenth_percent, "0.1 % more least fall");
        say(Holder::SteepestFall, tenth_percent, "0.1 % less steepest fall");
        say(Holder::Outfall, step, "an outfall " + length + " higher");
        say(Holder::Inlet, step, "an inlet " + length + " lower");
        std::string held;
        for (const Holder by :
             {Holder::Cover, Holder::LeastFall, Holder::SteepestFall, Holder::Outfall, Holder::Inlet}) {
            if (choice.followed.price_of(by) > 1e-9) held += (held.empty() ? "" : ", ") + holder_words(by);
        }
        text += "  the pipe lies where it does by: " + held + "\n";
        return text + "  cover is kept as read; for cover that truly is there, ask for " +
               level(found_.sure_cover, unit_) + "\n";
    }

    const DrainBookAnswer& answer_;
    const Book& book_;
    Unit unit_;
    const drain::FollowWish& wish_;
    const drain::FollowedLine& found_;
};

}  // namespace

std::string trench_text(const drain::Trench& trench, Unit unit) {
    Table table({{"from"},
                 {"to"},
                 {"bore"},
                 {"width", Align::Left},
                 {"depth", Align::Left},
                 {"dug"},
                 {"±"},
                 {"by end areas"},
                 {"bedding"},
                 {"surround"},
                 {"pipe"},
                 {"backfill"}});
    const auto add = [&](std::vector<std::string> cells, const Dug& dug) {
        for (const double volume :
             {dug.dug, dug.dug_sd, dug.by_end_areas, dug.bedding, dug.surround, dug.pipe, dug.backfill})
            cells.push_back(volume_text(volume, unit));
        table.add(std::move(cells));
    };
    const auto between = [unit](double least, double most) {
        const std::string low = level(least, unit);
        const std::string high = level(most, unit);
        return low == high ? low : low + " to " + high;
    };
    for (const drain::TrenchStretch& row : trench.stretches)
        add({level(row.from, unit), level(row.to, unit), bore_text(row.pipe->bore.value, unit),
             between(row.narrowest, row.widest), between(row.shallowest, row.deepest)},
            row.volumes);
    if (table.empty()) return "";
    if (trench.stretches.size() > 1) {
        table.rule();
        add({"together", "", "", "", ""}, trench.total);
    }
    std::string spoil;
    for (const std::string& line : record::spoil_words(trench, unit)) spoil += "  " + line + "\n";
    return "\nTrench\n  " + record::trench_rule_words(trench.rule, unit) + "\n" + table.text() + spoil;
}

std::string follow_text(const DrainBookAnswer& answer) {
    return FollowText(answer).text();
}

}  // namespace fallwright::cli
