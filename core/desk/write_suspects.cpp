// What probably went wrong, as the contract's members suspects and none, and what would not have been
// noticed.
#include <cmath>

#include "desk/evaluation_out.h"

namespace fallwright {

namespace {

class SuspectWriter : EvaluationOut {
  public:
    SuspectWriter(const Evaluation& evaluation, JsonOut& out)
        : EvaluationOut(evaluation, out), suspects_(*evaluation.suspects) {}

    void list() {
        out_.key("suspects").begin_array();
        for (const Suspect& suspect : suspects_.list) write(suspect);
        out_.end_array();
        out_.number("none", suspects_.none, probability_places);
    }

    void unnoticed() {
        out_.key("not_noticed").begin_object().integer("lone_sights", suspects_.lone_sights);
        out_.key("smallest").begin_array();
        for (const Unseen& unseen : suspects_.unseen) {
            out_.begin_object();
            accused(unseen.who);
            size("size", unseen.detectable, unseen.is_length);
            out_.end_object();
        }
        out_.end_array().end_object();
        before_lifting();
    }

  private:
    // Gradients, angles and factors are no lengths, and are the same in feet.
    void size(std::string_view key, double value, bool is_length) {
        const double in_unit = is_length ? book_.in_unit(value) : value;
        out_.number(key, in_unit, is_length ? length_places : gradient_places);
    }

    void accused(const Accused& who) {
        out_.text("kind", kind_word(who.kind)).key("about").begin_array();
        for (const std::string& name : who.about) out_.text(name);
        out_.end_array();
    }

    void write(const Suspect& suspect) {
        out_.begin_object();
        accused(suspect.who);
        size("size", suspect.size, suspect.size_is_length);
        size("size_sd", suspect.size_sd, suspect.size_is_length);
        out_.number("probability", suspect.probability, probability_places);
        out_.key("alike").begin_array();
        for (const Accused& who : suspect.alike) {
            out_.begin_object();
            accused(who);
            out_.end_object();
        }
        out_.end_array();
        if (!suspect.with.empty()) second(suspect);
        out_.text("why", suspect.why);
        settle_by(suspect);
        if (!suspect.redo.empty()) out_.text("redo", suspect.redo);
        out_.end_object();
    }

    void second(const Suspect& suspect) {
        const Accused& who = suspect.with.front();
        out_.key("with").begin_object();
        accused(who);
        size("size", suspect.with_size, size_is_length(who.kind));
        size("size_sd", suspect.with_sd, size_is_length(who.kind));
        out_.end_object();
    }

    void name_or_null(std::string_view key, NameId name) {
        if (name == no_name) {
            out_.null(key);
        } else {
            out_.text(key, book_.names.text(name));
        }
    }
    NameId point(std::int32_t index) const {
        return index < 0 ? no_name : model_.points.name(static_cast<std::size_t>(index));
    }
    NameId setup(std::int32_t index) const {
        return index < 0 ? no_name : book_.setups[static_cast<std::size_t>(index)].name;
    }

    void settle_by(const Suspect& suspect) {
        if (suspect.settle_by == nullptr) {
            out_.null("settle_by");
            return;
        }
        const Deciding& deciding = *suspect.settle_by;
        out_.key("settle_by").begin_object();
        name_or_null("setup", setup(deciding.setup));
        name_or_null("point", point(deciding.point));
        if (deciding.from >= 0) name_or_null("from", point(deciding.from));
        out_.integer("effort", deciding.effort).key("predicts").begin_array();
        for (const Expected& expected : deciding.predicts) {
            out_.begin_object();
            if (expected.nothing_wrong) {
                out_.text("kind", "none").key("about").begin_array().end_array();
            } else {
                accused(expected.who);
            }
            length("staff", expected.staff);
            length("sd", expected.sd);
            out_.end_object();
        }
        out_.end_array().end_object();
    }

    void before_lifting() {
        const BeforeLifting* again = suspects_.before_lifting.get();
        if (again == nullptr) {
            out_.null("before_lifting");
            return;
        }
        out_.key("before_lifting").begin_object();
        name_or_null("setup", setup(again->setup));
        name_or_null("point", point(again->point));
        length("staff", again->staff);
        length("sd", again->sd);
        length("limit", again->limit);
        out_.end_object();
    }

    const Suspects& suspects_;
};

}  // namespace

void write_suspects(const Evaluation& evaluation, JsonOut& out) {
    if (evaluation.suspects != nullptr) SuspectWriter(evaluation, out).list();
}

void write_unnoticed(const Evaluation& evaluation, JsonOut& out) {
    if (evaluation.suspects != nullptr) SuspectWriter(evaluation, out).unnoticed();
}

}  // namespace fallwright
