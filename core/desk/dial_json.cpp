#include "desk/dial_answer.h"
#include "desk/evaluation_out.h"
#include "desk/write_json.h"
#include "dial/card.h"
#include "dial/keypad.h"

namespace fallwright {

namespace {

class DialWriter : EvaluationOut {
  public:
    DialWriter(const Evaluation& evaluation, JsonOut& out) : EvaluationOut(evaluation, out) {}

    // As evaluate has it.
    void short_form(const Dial& dial) {
        out_.begin_object();
        what(dial);
        figures(dial);
        out_.end_object();
    }

    // With what only a person who is about to set it needs.
    void long_form(const Dial& dial) {
        out_.begin_object();
        what(dial);
        names(dial);
        figures(dial);
        pair("sd", dial.grades_sd);
        pair("set", dial.set);
        pair("in_book", dial.in_book);
        out_.boolean("as_in_book", dial.as_in_book).boolean("aim_advised", dial.aim_is_advice);
        length("farthest", dial.farthest);
        take_up(dial);
        out_.key("card").begin_array();
        for (const std::string& line : keypad_card(dial_basis(evaluation_), dial)) out_.text(line);
        out_.end_array().end_object();
    }

  private:
    void what(const Dial& dial) {
        out_.text("setup", book_.names.text(book_.setups[dial.setup].name)).key("line");
        dial.line == no_name ? out_.null() : out_.text(book_.names.text(dial.line));
        out_.key("surface");
        dial.surface == no_name ? out_.null() : out_.text(book_.names.text(dial.surface));
        length("from", dial.from);
        length("to", dial.to);
        out_.text("side", dial.side == DialSide::Both   ? "both"
                          : dial.side == DialSide::Left ? "left"
                                                        : "right");
    }

    void names(const Dial& dial) {
        out_.key("points").begin_array();
        for (const NameId point : dial.points) out_.text(book_.names.text(point));
        out_.end_array();
    }

    void figures(const Dial& dial) {
        gradient("main", dial.grades.main);
        gradient("cross", dial.grades.cross);
        const Setup& setup = book_.setups[dial.setup];
        const Keypad& keypad = book_.instruments[static_cast<std::size_t>(setup.instrument_at)].keypad;
        const int places = keypad_places(keypad, 0);
        out_.number("main_shown", dial.keyed.main, places).number("cross_shown", dial.keyed.cross, places);
        out_.text("shown_unit", keypad_unit(keypad));
        out_.figures("aim", dial.aim, significant_figures);
        length("rounding_cost", dial.rounding_cost);
        length("aim_cost_per_degree", dial.aim_cost);
        out_.boolean("reachable", dial.reachable).key("proof");
        if (!dial.proof) {
            out_.null();
            return;
        }
        out_.begin_object().text("point", book_.names.text(dial.proof->point));
        length("staff", dial.proof->staff);
        length("sd", dial.proof->sd);
        out_.end_object();
    }

    void pair(const char* key, const Axes& axes) {
        out_.key(key).begin_object();
        gradient("main", axes.main);
        gradient("cross", axes.cross);
        out_.end_object();
    }

    void take_up(const Dial& dial) {
        out_.key("take_up");
        if (!dial.take_up) {
            out_.null();
            return;
        }
        out_.begin_object().text("near", book_.names.text(dial.take_up->near));
        out_.text("far", book_.names.text(dial.take_up->far));
        length("mark", dial.take_up->mark);
        out_.end_object();
    }
};

}  // namespace

void write_dials(const Evaluation& evaluation, JsonOut& out) {
    out.key("dials").begin_array();
    for (const Dial& dial : evaluation.dials.dials) DialWriter(evaluation, out).short_form(dial);
    out.end_array();
}

std::string dial_json(const DialAnswer& answer) {
    JsonOut out;
    out.begin_object()
        .integer("version", format_version)
        .text("unit", unit_word(answer.evaluation->book->unit))
        .key("dials")
        .begin_array();
    for (const Dial& dial : answer.dials.dials) DialWriter(*answer.evaluation, out).long_form(dial);
    out.end_array();
    write_findings(out, answer.findings);
    out.end_object();
    return out.take();
}

}  // namespace fallwright
