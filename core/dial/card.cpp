#include "dial/card.h"

#include <cmath>

#include "base/print.h"
#include "dial/keypad.h"

namespace fallwright {

namespace {

class CardWriter {
  public:
    CardWriter(const DialBasis& basis, const Dial& dial)
        : book_(basis.book),
          dial_(dial),
          setup_(book_.setups[dial.setup]),
          machine_(book_.instruments[static_cast<std::size_t>(setup_.instrument_at)]) {}

    std::vector<std::string> write() {
        say("last job's grade cleared? Set both axes to 0 and let the laser level before keying in");
        say_aim();
        say_axis("main (X)", dial_.keyed.main, dial_.set.main, "along the main axis", dial_.grades.main);
        say_axis("cross (Y)", dial_.keyed.cross, dial_.set.cross, "to the right", dial_.grades.cross);
        if (machine_.keypad.nested && dial_.set.cross != 0 && dial_.set.main != 0)
            say("the cross figure is for an axis that tilts with the main one");
        say_remaining();
        say_take_up();
        say("laser light: keep the beam out of everyone's eyes, never look into it or at it through an "
            "optic; its "
            "class and local rules decide what else");
        return std::move(card_);
    }

  private:
    void say(std::string line) { card_.push_back(std::move(line)); }

    void say_aim() {
        if (std::isnan(dial_.aim)) {
            say("aim: any way, the plane is level");
            return;
        }
        const std::string bearing = "bearing " + fixed(dial_.aim, 2) + " deg";
        if (!dial_.aim_is_advice) {
            say("aim the main axis as the set-up has it, " + bearing);
        } else {
            say("aim the main axis along " + what() + ", " + bearing);
        }
    }

    std::string what() const {
        if (dial_.line != no_name) return book_.name(dial_.line);
        return book_.name(dial_.points.front()) + " to " + book_.name(dial_.points.back());
    }

    void say_axis(const char* axis, double keyed, double set, const char* along, double wanted) {
        if (std::isnan(keyed)) {
            say(std::string(axis) + ": " + percent(wanted) + " is more than this machine can be set to");
            return;
        }
        const std::string way = set > 0 ? "rises " : "falls ";
        say(std::string(axis) + ": key in " + keyed_text(machine_, keyed) +
            (set == 0 ? ", level" : ", the light " + way + along));
    }

    static std::string percent(double ratio) { return trimmed(ratio * 100, gradient_places - 2) + " %"; }

    // In the machine's own figures, since that is what its display shows now.
    void say_remaining() {
        if (dial_.as_in_book) {
            say("the book has this set-up so: nothing to change");
            return;
        }
        if (std::isnan(dial_.in_book.main) || std::isnan(dial_.in_book.cross)) {
            say("the book has this set-up matched: what its display shows now is not what is wanted here");
            return;
        }
        const Axes now = as_keyed(to_step(tangents_for(dial_.in_book, machine_.keypad), machine_.grade_step),
                                  machine_.keypad);
        say("the book has this set-up at main (X) " + keyed_text(machine_, now.main) + ", cross (Y) " +
            keyed_text(machine_, now.cross) + ": still to change by " +
            keyed_text(machine_, dial_.keyed.main - now.main) + " and " +
            keyed_text(machine_, dial_.keyed.cross - now.cross));
    }

    void say_take_up() {
        if (!dial_.take_up) return;
        say("then both ends read " + length(dial_.take_up->mark, 3) + ": the fall is taken up once " +
            book_.name(dial_.take_up->near) + " is read again");
    }

    std::string length(double metres, int places) const {
        return fixed(book_.in_unit(metres), places) + (book_.unit == Unit::Foot ? " ft" : " m");
    }

    const Book& book_;
    const Dial& dial_;
    const Setup& setup_;
    const Instrument& machine_;
    std::vector<std::string> card_;
};

}  // namespace

std::string keyed_text(const Instrument& machine, double keyed) {
    if (std::isnan(keyed)) return "-";
    const int places = keypad_places(machine.keypad, machine.grade_step);
    const std::string sign = rounded_to(keyed, places) > 0 ? "+" : "";
    return sign + fixed(keyed, places) + " " + std::string(keypad_unit(machine.keypad));
}

std::vector<std::string> keypad_card(const DialBasis& basis, const Dial& dial) {
    return CardWriter(basis, dial).write();
}

}  // namespace fallwright
