#include <cmath>

#include "desk/evaluation_out.h"
#include "desk/setout_answer.h"
#include "desk/write_json.h"

namespace fallwright {

namespace {

class SetoutWriter : EvaluationOut {
  public:
    SetoutWriter(const Evaluation& evaluation, JsonOut& out) : EvaluationOut(evaluation, out) {}

    void tables(const std::vector<SetoutTable>& tables) {
        out_.key("setout").begin_array();
        for (const SetoutTable& table : tables) write_table(table);
        out_.end_array();
    }

    void whole(const SetoutAnswer& answer) {
        out_.begin_object().integer("version", format_version).text("unit", unit_word(book_.unit));
        out_.text("line", line_of(answer.table));
        write_setup(answer.table);
        tables({answer.table});
        write_one_targets(answer.table);
        write_rod(answer);
        write_pegs(answer);
        write_rails(answer);
        write_cautions(out_, answer.cautions);
        write_findings(out_, answer.findings);
        out_.end_object();
    }

  private:
    std::string_view line_of(const SetoutTable& table) const {
        return book_.names.text(book_.lines[table.line].name);
    }

    void write_setup(const SetoutTable& table) {
        if (table.setup == no_setup) {
            out_.null("setup");
        } else {
            out_.text("setup", book_.names.text(book_.setups[table.setup].name));
        }
    }

    void write_table(const SetoutTable& table) {
        out_.begin_object();
        write_setup(table);
        out_.text("line", line_of(table)).key("rows").begin_array();
        for (const SetoutRow& row : table.rows) write_row(row);
        out_.end_array().end_object();
    }

    void write_row(const SetoutRow& row) {
        out_.begin_object();
        length("ch", row.ch);
        length("off", row.off);
        out_.text("what", row.what);
        length("design", row.design);
        length("target", row.target);
        length("sd", row.sd);
        length("dig", row.dig);
        length("dig_sd", row.dig_sd);
        row.dig_to.empty() ? out_.null("dig_to") : out_.text("dig_to", row.dig_to);
        length("trench_depth", row.trench_depth);
        length("trench_depth_sd", row.trench_depth_sd);
        length("cover", row.cover);
        out_.end_object();
    }

    void write_one_targets(const SetoutTable& table) {
        out_.key("one_targets").begin_array();
        for (const OneTarget& one : table.one_targets) {
            out_.begin_object().text("what", one.what);
            length("off", one.off);
            length("target", one.target);
            length("spread", one.spread);
            out_.end_object();
        }
        out_.end_array();
    }

    void write_rod(const SetoutAnswer& answer) {
        out_.key("rod");
        if (!answer.rod) {
            out_.null();
            return;
        }
        out_.begin_array();
        for (const RodCard& card : *answer.rod) {
            out_.begin_object();
            length("from", card.from);
            length("to", card.to);
            out_.key("marks").begin_array();
            for (const RodMark& mark : card.marks) {
                out_.begin_object().text("what", mark.what);
                length("height", mark.height);
                length("clamp", mark.clamp);
                out_.end_object();
            }
            out_.end_array();
            length("sd", card.sd);
            length("spread", card.spread);
            out_.end_object();
        }
        out_.end_array();
    }

    void write_pegs(const SetoutAnswer& answer) {
        out_.key("pegs");
        if (!answer.pegs) {
            out_.null();
            return;
        }
        out_.begin_array();
        for (const PegRow& peg : *answer.pegs) {
            out_.begin_object().text("point", book_.names.text(peg.point));
            length("ch", peg.ch);
            length("off", peg.off);
            out_.text("what", peg.what);
            length("level", peg.level);
            length("design", peg.design);
            length("cut", peg.cut);
            length("sd", peg.sd);
            length("whole", peg.whole);
            length("line_down", peg.line_down);
            out_.end_object();
        }
        out_.end_array();
    }

    void write_rails(const SetoutAnswer& answer) {
        length("traveller", answer.traveller);
        out_.key("rails");
        if (!answer.rails) {
            out_.null();
            return;
        }
        out_.begin_array();
        for (const Rail& rail : *answer.rails) {
            out_.begin_object();
            length("ch", rail.ch);
            out_.text("what", rail.what);
            length("level", rail.level);
            length("above_ground", rail.above_ground);
            out_.key("above_pegs").begin_array();
            for (const RailOverPeg& over : rail.above_pegs) {
                out_.begin_object().text("point", book_.names.text(over.point));
                length("height", over.height);
                out_.end_object();
            }
            out_.end_array().end_object();
        }
        out_.end_array();
    }
};

}  // namespace

std::string setout_json(const SetoutAnswer& answer) {
    JsonOut out;
    SetoutWriter(*answer.evaluation, out).whole(answer);
    return out.take();
}

void write_setout(const Evaluation& evaluation, JsonOut& out) {
    SetoutWriter(evaluation, out).tables(evaluation.setout.tables);
}

}  // namespace fallwright
