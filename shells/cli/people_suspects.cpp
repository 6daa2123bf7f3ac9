#include "shells/cli/people_suspects.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <vector>

#include "base/print.h"
#include "record/suspect_words.h"
#include "shells/cli/suspect_cures.h"
#include "shells/cli/table.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

namespace {

constexpr double least_said = 0.1;

class SuspectsText {
  public:
    SuspectsText(const Evaluation& evaluation, const std::string& path)
        : evaluation_(evaluation),
          book_(*evaluation.book),
          suspects_(*evaluation.suspects),
          words_(book_),
          cures_(book_),
          path_(path) {
        for (const Suspect& suspect : suspects_.list) {
            if (record::is_said(suspect)) said_.push_back(&suspect);
        }
    }

    std::string text() const {
        std::string text = book_.title.empty() ? "" : book_.title + "\n";
        text += said_.empty() ? nothing() + unnoticed() : happened() + decides() + amending();
        return text + lifting() + asked();
    }

  private:
    std::string length(double metres) const {
        return small(std::fabs(metres), book_.unit) + " " + small_unit(book_.unit);
    }
    std::string size(double value, bool is_length) const {
        constexpr double percent = 100;
        return is_length ? length(value) : fixed(std::fabs(value) * percent, 3) + " %";
    }
    std::string point(std::int32_t index) const {
        return book_.name(evaluation_.model->points.name(static_cast<std::size_t>(index)));
    }
    std::string setup(std::int32_t index) const {
        return book_.name(book_.setups[static_cast<std::size_t>(index)].name);
    }
    std::string staff(double metres, double sd) const {
        return level(metres, book_.unit) + " ± " + length(sd);
    }

    std::string nothing() const {
        if (!record::anything_read(evaluation_)) return record::nothing_noticed(evaluation_) + "\n";
        return "Nothing noticed: " + percent(suspects_.none) + " sure that nothing is wrong.\n";
    }

    std::string happened() const {
        std::string text = "What probably happened\n";
        for (const Suspect* each : said_) {
            text += "  " + std::string(likely_word(each->probability)) + " (" + percent(each->probability) +
                    "): " + each->what + "\n" + misfit(*each) + alike(*each);
        }
        if (suspects_.none >= least_said) text += "  nothing wrong at all: " + percent(suspects_.none) + "\n";
        return text;
    }

    std::string misfit(const Suspect& suspect) const {
        constexpr int places = 3;
        if (std::isnan(suspect.limit)) return "";
        const std::string usual = significant(suspect.limit, places) + " is usual";
        std::string text =
            "    misfit of all readings " + significant(suspect.before, places) + ", up to " + usual;
        if (suspect.with.empty())
            text += "; explained like this " + significant(suspect.after, places) + " is left";
        return text + "\n";
    }

    // Of each kind the number, and by name what is not of the leader's own kind.
    std::string alike(const Suspect& suspect) const {
        constexpr std::size_t most_named = 4;
        std::map<SuspectKind, std::size_t> counts;
        std::vector<const Accused*> firsts;
        for (const Accused& who : suspect.alike) {
            if (++counts[who.kind] == 1 && who.kind != suspect.who.kind) firsts.push_back(&who);
        }
        std::string text;
        const auto add = [&text](const std::string& what) { text += (text.empty() ? "" : "; or ") + what; };
        if (counts[suspect.who.kind] > 0) add("the same " + words_.elsewhere(suspect.who, suspect.alike));
        for (std::size_t i = 0; i < firsts.size() && i < most_named; ++i) add(words_.what(*firsts[i]));
        if (firsts.size() > most_named) add("another kind of slip, all with --json");
        return text.empty() ? "" : "    these readings cannot tell it from: " + text + "\n";
    }

    std::string decides() const {
        const Deciding* reading = said_.front()->settle_by.get();
        if (reading == nullptr) return "\nNo reading from here decides any more\n" + redo();
        std::string text = reading->confirms_only
                               ? "\nThe reading that shows once more that something is wrong\n"
                               : "\nThe reading that decides\n";
        text += reading->from < 0 ? "  Now, from set-up " + setup(reading->setup) + " as it stands: read " +
                                        point(reading->point) + ". The staff should read\n"
                                  : "  Set up anew between " + point(reading->from) + " and " +
                                        point(reading->point) + " and read both. " + point(reading->point) +
                                        " less " + point(reading->from) + " should be\n";
        for (const Expected& each : reading->predicts)
            text += "    " + staff(each.staff, each.sd) + "  if " +
                    (each.nothing_wrong ? "nothing is wrong" : words_.what(each.who)) +
                    (too_close(each, reading->predicts.front()) ? " (too close to the first to tell)" : "") +
                    "\n";
        text += reading->effort > 1 ? "  Effort: one more set-up.\n"
                                    : "  Effort: one reading, nothing is moved.\n";
        if (reading->confirms_only) text += "  It does not tell which of them it was.\n" + redo();
        return text;
    }

    static bool too_close(const Expected& each, const Expected& first) {
        constexpr double told_apart = 2;
        const double sd = std::sqrt(each.sd * each.sd + first.sd * first.sd);
        return &each != &first && std::fabs(each.staff - first.staff) < told_apart * sd;
    }

    std::string redo() const {
        std::string all;
        for (const Suspect* each : said_) {
            if (!each->redo.empty() && all.find(each->redo) == std::string::npos)
                all += "  To be safe: " + each->redo + ".\n";
        }
        return all;
    }

    std::string amending() const {
        std::string text = "\nNothing is taken out by itself. Once it is decided\n";
        for (const Suspect* each : said_) text += "  " + cures_.cure(*each, path_) + "\n";
        const Deciding* reading = said_.front()->settle_by.get();
        if (reading == nullptr || text.find(" amend of=") == std::string::npos) return text;
        return text + "  To take it over before it is decided, add settle='" + point(reading->point) +
               "': it stays flagged until that point is read.\n";
    }

    std::string unnoticed() const {
        Table table({{"what", Align::Left}, {"where it shows least", Align::Left}, {"shows from"}});
        for (const Unseen& unseen : suspects_.unseen) {
            table.add({words_.slip(unseen.who.kind), words_.where(unseen.who),
                       std::isnan(unseen.detectable) ? "never" : size(unseen.detectable, unseen.is_length)});
        }
        const std::string all = lone() + (table.empty() ? "" : table.text());
        return all.empty() ? "" : "\nWhat would not have been noticed\n" + all;
    }

    std::string lone() const {
        const std::int32_t count = suspects_.lone_sights;
        if (count == 0) return "";
        std::string text = "  " + std::to_string(count) + (count == 1 ? " sight stands" : " sights stand") +
                           " alone, checked by a design at most: a slip there ";
        for (const Unseen& unseen : suspects_.unseen) {
            if (unseen.who.kind == SuspectKind::Misread && words_.alone(unseen.who, *evaluation_.model))
                return text + "below " + length(unseen.detectable) + " would not show\n";
        }
        return text + "would not show\n";
    }

    std::string lifting() const {
        const BeforeLifting* again = suspects_.before_lifting.get();
        if (again == nullptr) return "";
        return "\nBefore the tripod of set-up " + setup(again->setup) + " is lifted\n  Read " +
               point(again->point) + " again: expect " + staff(again->staff, again->sd) + "; more than " +
               length(again->limit) + " off means that something moved.\n";
    }

    std::string asked() const {
        const std::string text = findings_text(evaluation_.findings);
        return text.empty() ? "" : "\nTo look at\n" + text;
    }

    const Evaluation& evaluation_;
    const Book& book_;
    const Suspects& suspects_;
    record::SuspectWords words_;
    SuspectCures cures_;
    std::string path_;
    std::vector<const Suspect*> said_;
};

}  // namespace

std::string suspects_text(const Evaluation& evaluation, const std::string& path) {
    return evaluation.suspects == nullptr ? "" : SuspectsText(evaluation, path).text();
}

std::string suspect_line(const Evaluation& evaluation) {
    const std::string line = record::suspect_line(evaluation);
    return line.empty() ? "" : line + "; fallwright suspects says which reading decides";
}

}  // namespace fallwright::cli
