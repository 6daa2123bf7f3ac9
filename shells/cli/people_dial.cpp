#include "shells/cli/people_dial.h"

#include <cmath>

#include "base/print.h"
#include "dial/card.h"
#include "shells/cli/words.h"

namespace fallwright::cli {

namespace {

class DialText {
  public:
    DialText(const Evaluation& evaluation, const Dial& dial)
        : evaluation_(evaluation),
          book_(*evaluation.book),
          dial_(dial),
          machine_(book_.instruments[static_cast<std::size_t>(book_.setups[dial.setup].instrument_at)]) {}

    std::string text() const {
        std::string all = "Set on the laser: main (X) " + keyed_text(machine_, dial_.keyed.main) +
                          ", cross (Y) " + keyed_text(machine_, dial_.keyed.cross) + "\n";
        all += "  for " + what() + ", set-up " + book_.name(book_.setups[dial_.setup].name) + ", " +
               book_.name(machine_.name) + (dial_.reachable ? "" : ": OUT OF ITS REACH") + "\n";
        all += "  the plane: main " + gradient(dial_.grades.main) + found(dial_.grades_sd.main) + ", cross " +
               gradient(dial_.grades.cross) + found(dial_.grades_sd.cross) + "\n";
        for (const std::string& line : keypad_card(dial_basis(evaluation_), dial_))
            all += "  - " + line + "\n";
        return all + proof() + costs();
    }

  private:
    std::string what() const {
        if (dial_.surface != no_name)
            return "the plane that fits surface " + book_.name(dial_.surface) + " best";
        if (dial_.line == no_name) return through_points();
        std::string text = book_.name(dial_.line) + " from " + level(dial_.from, book_.unit) + " to " +
                           level(dial_.to, book_.unit);
        if (dial_.side != DialSide::Both)
            text += dial_.side == DialSide::Left ? ", left side" : ", right side";
        return text;
    }

    std::string through_points() const {
        std::string text = "the plane through ";
        for (std::size_t i = 0; i < dial_.points.size(); ++i)
            text += (i == 0 ? "" : ", ") + book_.name(dial_.points[i]);
        return text;
    }

    // The uncertainty of a plane that was found; a plane designed has none.
    static std::string found(double sd) { return sd > 0 ? " ± " + gradient_sd(sd) : ""; }

    std::string proof() const {
        if (!dial_.proof) return "  no placed point of known level is in the light to prove it by\n";
        return "  proof: " + book_.name(dial_.proof->point) + " reads " +
               level(dial_.proof->staff, book_.unit) + " " + unit_text(book_.unit) + " ± " +
               small(dial_.proof->sd, book_.unit) + " " + small_unit(book_.unit) + "\n";
    }

    std::string costs() const {
        if (std::isnan(dial_.farthest)) return "";
        const std::string unit = " " + small_unit(book_.unit);
        return "  at the far end, " + fixed(book_.in_unit(dial_.farthest), 1) + " " + unit_text(book_.unit) +
               " away: half a step of the keypad costs " + small(dial_.rounding_cost, book_.unit) + unit +
               ", one degree beside the aim " + small(dial_.aim_cost, book_.unit) + unit + "\n";
    }

    const Evaluation& evaluation_;
    const Book& book_;
    const Dial& dial_;
    const Instrument& machine_;
};

}  // namespace

std::string dial_text(const DialAnswer& answer) {
    std::string text;
    for (const Dial& dial : answer.dials.dials)
        text += (text.empty() ? "" : "\n") + DialText(*answer.evaluation, dial).text();
    if (text.empty()) text = "Nothing can be set:\n";
    return text + findings_text(answer.findings);
}

}  // namespace fallwright::cli
