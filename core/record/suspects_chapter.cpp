#include <algorithm>
#include <cmath>

#include "base/print.h"
#include "record/chapters.h"
#include "record/suspect_words.h"
#include "record/times.h"

namespace fallwright::record {

namespace {

class SuspectsChapter {
  public:
    explicit SuspectsChapter(Writer& out)
        : out_(out), suspects_(*out.evaluation.suspects), words_(out.book) {}

    void run() {
        decided();
        bool any = false;
        for (const Suspect& suspect : suspects_.list) {
            if (!is_said(suspect)) continue;
            any = true;
            open(suspect);
        }
        if (any) return;
        if (!anything_read(out_.evaluation)) return out_.say(nothing_noticed(out_.evaluation));
        out_.say("No suspicion stands open: " + percent(suspects_.none) + " sure that nothing is wrong. " +
                 nothing_noticed(out_.evaluation));
        unseen();
    }

  private:
    // Amendments taken over from a suspicion, and the readings that decided them.
    void decided() {
        Rows rows("Amended on a suspicion", {words_column("entry"), words_column("decided by reading"),
                                             words_column("read"), text_column("")});
        for (const OnSuspicion& amend : out_.book.on_suspicion) {
            const Reading* reading = read_since(amend);
            rows.add({out_.book.id_of(amend.entry), out_.name(amend.point),
                      reading == nullptr ? "" : time_words(out_.book.entries[reading->entry].at),
                      reading == nullptr ? "open: not read since"
                                         : "settled by reading " + out_.book.id_of(reading->entry)});
        }
        out_.table(std::move(rows));
    }

    // As the stage suspect asks: the first reading of the point after the amendment.
    const Reading* read_since(const OnSuspicion& amend) const {
        const Instant from = out_.book.entries[amend.entry].at;
        for (const Reading& reading : out_.book.readings) {
            const Instant at = out_.book.entries[reading.entry].at;
            const bool later = at > from || (at == from && reading.entry > amend.entry);
            if (!reading.planned && reading.point == amend.point && later) return &reading;
        }
        return nullptr;
    }

    void open(const Suspect& suspect) {
        out_.heading(2, "Open: " + words_.what(suspect.who));
        std::string text = std::string(likely_word(suspect.probability)) + " (" +
                           percent(suspect.probability) +
                           "): " + (suspect.why.empty() ? suspect.what : suspect.why) +
                           ". It is not decided; nothing has been taken out by itself.";
        out_.say(capital(std::move(text)), sheet::Tone::Finding);
        deciding(suspect);
    }

    std::string point(std::int32_t index) const {
        return out_.name(out_.model.points.name(static_cast<std::size_t>(index)));
    }

    void deciding(const Suspect& suspect) {
        const Deciding* reading = suspect.settle_by.get();
        if (reading == nullptr) {
            out_.say("No reading from where the instrument stands decides it any more" +
                     (suspect.redo.empty() ? std::string(".") : "; to be safe: " + suspect.redo + "."));
            return;
        }
        out_.say(std::string(reading->confirms_only
                                 ? "The reading that shows once more that something is wrong: "
                                 : "The reading that decides: ") +
                 (reading->from < 0
                      ? point(reading->point) + " from set-up " +
                            out_.name(out_.book.setups[static_cast<std::size_t>(reading->setup)].name) +
                            " as it stands."
                      : "set up anew between " + point(reading->from) + " and " + point(reading->point) +
                            " and read both; the second less the first counts."));
        Rows rows("", {figure_column("it reads"), figure_column("\u00b1 " + small_unit(out_.unit)),
                       text_column("if")});
        for (const Expected& each : reading->predicts)
            rows.add({level(each.staff, out_.unit), small(each.sd, out_.unit),
                      each.nothing_wrong ? "nothing is wrong" : words_.what(each.who)});
        out_.table(std::move(rows));
    }

    void unseen() {
        constexpr double hundred = 100;
        Rows rows("What would not have been noticed",
                  {text_column("what"), text_column("where it shows least"), figure_column("shows from")});
        for (const Unseen& unseen : suspects_.unseen) {
            const std::string from = std::isnan(unseen.detectable) ? "never"
                                     : unseen.is_length
                                         ? out_.mm(unseen.detectable)
                                         : fixed(std::fabs(unseen.detectable) * hundred, 3) + " %";
            rows.add({words_.slip(unseen.who.kind), words_.where(unseen.who), from});
        }
        out_.table(std::move(rows));
    }

    Writer& out_;
    const Suspects& suspects_;
    SuspectWords words_;
};

}  // namespace

void add_suspects(Writer& out) {
    out.heading(1, "Suspicions, and how they were decided");
    if (out.evaluation.suspects == nullptr) return;
    SuspectsChapter(out).run();
}

}  // namespace fallwright::record
