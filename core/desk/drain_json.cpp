#include <cmath>

#include "base/print.h"
#include "desk/drain_answer.h"
#include "desk/write_json.h"
#include "quantity/discharge.h"

namespace fallwright {

namespace {

using drain::Uniform;

void figure(JsonOut& out, const char* name, double value) {
    out.figures(name, value, significant_figures);
}

class Writer {
  public:
    Writer(const DrainAnswer& answer, JsonOut& out) : answer_(answer), pipe_(answer.pipe), out_(out) {}

    void write() {
        out_.begin_object().integer("version", format_version).text("unit", unit_word(answer_.unit));
        write_asked();
        write_state("full", pipe_.full, pipe_.asked.fall);
        write_state("greatest_flow", pipe_.most, pipe_.asked.fall);
        write_state("greatest_velocity", pipe_.fastest, pipe_.asked.fall);
        write_optional("part", pipe_.part);
        write_optional("upper", pipe_.upper);
        write_critical();
        out_.number("pressure_fall", pipe_.pressure_fall, gradient_places);
        write_held_to();
        out_.key("rules");
        const double flow = pipe_.part ? pipe_.part->flow : pipe_.asked.flow;
        const drain::CleansingCase held{pipe_.asked.bore, pipe_.asked.fall, pipe_.asked.friction, flow,
                                        pipe_.asked.closets};
        write_rules(out_, pipe_.rules, held, answer_.unit);
        write_cautions(out_, answer_.cautions);
        write_findings(out_, pipe_.findings);
        out_.end_object();
    }

  private:
    double length(double metres) const { return Length::metres(metres).in(answer_.unit); }
    double area(double square_metres) const { return length(length(square_metres)); }
    double velocity(double metres) const { return Velocity::metres(metres).in(answer_.unit); }
    double flow(double cubic_metres) const { return Discharge::cubic_metres(cubic_metres).in(answer_.unit); }

    void write_asked() {
        const drain::PipeQuestion& asked = pipe_.asked;
        const bool manning = asked.friction.law == drain::Friction::Law::Manning;
        const Gradient fall = Gradient::ratio(asked.fall);
        out_.number("bore", length(asked.bore), length_places).number("fall", asked.fall, gradient_places);
        figure(out_, "one_in", fall.one_in().value_or(NAN));
        out_.text("fall_from", answer_.fall_from == FallFrom::Given      ? "given"
                               : answer_.fall_from == FallFrom::Velocity ? "velocity"
                                                                         : "flow");
        out_.text("law", manning ? "manning" : "colebrook-white");
        figure(out_, "roughness", manning ? NAN : length(asked.friction.roughness));
        figure(out_, "manning", manning ? asked.friction.manning : NAN);
        figure(out_, "viscosity", manning ? NAN : asked.friction.viscosity);
        figure(out_, "flow", flow(asked.flow));
        if (asked.closets < 0) {
            out_.null("closets");
        } else {
            out_.integer("closets", asked.closets);
        }
    }

    void write_state(const char* name, const Uniform& state, double fall) {
        out_.key(name).begin_object();
        out_.number("depth", length(state.depth), length_places);
        figure(out_, "proportion", state.depth / pipe_.asked.bore);
        figure(out_, "velocity", velocity(state.velocity));
        figure(out_, "flow", flow(state.flow));
        figure(out_, "area", area(state.wet.area));
        figure(out_, "perimeter", length(state.wet.perimeter));
        figure(out_, "radius", length(state.wet.radius));
        figure(out_, "top", length(state.wet.top));
        figure(out_, "froude", state.froude());
        figure(out_, "drag", std::fmax(0.0, state.shear(fall)));
        out_.end_object();
    }

    void write_optional(const char* name, const std::optional<Uniform>& state) {
        if (state) {
            write_state(name, *state, pipe_.asked.fall);
        } else {
            out_.null(name);
        }
    }

    void write_critical() {
        if (!pipe_.critical) {
            out_.null("critical");
            return;
        }
        out_.key("critical").begin_object();
        out_.number("depth", length(pipe_.critical->depth), length_places);
        figure(out_, "proportion", pipe_.critical->depth / pipe_.asked.bore);
        figure(out_, "velocity", velocity(pipe_.critical->velocity));
        out_.number("fall", pipe_.critical->fall, gradient_places).end_object();
    }

    void write_held_to() {
        if (answer_.held_to == nullptr) {
            out_.null("held_to");
        } else {
            out_.text("held_to", answer_.held_to->name);
        }
    }

    const DrainAnswer& answer_;
    const drain::PipeAnswer& pipe_;
    JsonOut& out_;
};

void write_rule(JsonOut& out, const drain::CleansingVerdict& held, const drain::CleansingCase& pipe,
                Unit unit) {
    const auto velocity = [unit](double metres) { return Velocity::metres(metres).in(unit); };
    out.begin_object().text("name", held.rule->name).text("title", held.rule->title);
    out.text("source", held.rule->source.text).text("edition", held.rule->source.edition);
    out.text("provenance", preset::provenance_word(held.provenance));
    out.text("verdict", drain::cleansing_word(held.verdict));
    out.key("wants").begin_object().number("fall", held.wants_fall, gradient_places);
    out.number("most_fall", held.most_fall, gradient_places);
    figure(out, "velocity", velocity(held.wants_velocity));
    figure(out, "drag", held.wants_drag);
    out.end_object().key("has").begin_object().number("fall", pipe.fall, gradient_places);
    figure(out, "velocity", velocity(held.has_velocity));
    figure(out, "drag", held.has_drag);
    out.end_object().integer("closets", held.closets);
    out.number("meets_from", Length::metres(held.meets_from).in(unit), length_places);
    out.text("sentence", drain::cleansing_sentence(held, pipe, unit)).end_object();
}

}  // namespace

std::string drain_json(const DrainAnswer& answer) {
    JsonOut out;
    Writer(answer, out).write();
    return out.take();
}

void write_rules(JsonOut& out, const std::vector<drain::CleansingVerdict>& rules,
                 const drain::CleansingCase& pipe, Unit unit) {
    out.begin_array();
    for (const drain::CleansingVerdict& held : rules) write_rule(out, held, pipe, unit);
    out.end_array();
}

}  // namespace fallwright
