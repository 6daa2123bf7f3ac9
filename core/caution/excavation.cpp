#include "caution/excavation.h"

#include <cmath>
#include <utility>

#include "setout/words.h"

namespace fallwright {

namespace {

using preset::CautionOf;

constexpr const char* at_every_depth =
    "shallower trenches fall in too; the competent person decides support at every depth; local codes hold";

void take_rule(const Book& book, const Rule& rule, ChosenLimits& chosen) {
    const std::string name = book.name(rule.preset);
    if (rule.preset != no_name) {
        if (const preset::ExcavationLimits* found = preset::find_excavation_limits(name)) {
            chosen.limits = *found;
        } else {
            chosen.findings.push_back(finding(Code::UnknownPreset, {book.id_of(rule.entry)},
                                              "rule cautions: limits named " + name + " are not known"));
        }
    }
    const CautionsRule& own = rule.cautions;
    if (own.depth.has()) chosen.limits.support_is = "";
    chosen.limits.support = own.depth.or_else(chosen.limits.support);
    chosen.limits.way_out = own.egress.or_else(chosen.limits.way_out);
    chosen.limits.spoil = own.spoil.or_else(chosen.limits.spoil);
    chosen.own = own;
    chosen.own_source = own.source == no_name ? "rule cautions of the book" : book.name(own.source);
    for (const NameId sentence : own.add) chosen.add.push_back(book.name(sentence));
}

// Chainages from the first to the last place that is deeper.
std::string deeper_words(const Book& book, const Trench& trench, double limit) {
    const double printed = rounded_to(book.in_unit(limit), length_places);
    double from = NAN, to = NAN;
    for (const TrenchDepth& place : trench.depths) {
        if (!(rounded_to(book.in_unit(place.depth), length_places) > printed)) continue;
        if (std::isnan(from)) from = place.ch;
        to = place.ch;
    }
    return std::isnan(from) ? "" : stretch_words(book, from, to);
}

// own: the figure as the rule gives it, if it does.
std::string source_words(const ChosenLimits& chosen, const Maybe& own) {
    return own.has() ? chosen.own_source : std::string(chosen.limits.source.text);
}

Caution made(const char* code, const std::string& line, std::string text, const ChosenLimits& chosen,
             const Maybe& own) {
    Caution caution{
        code, {line}, std::move(text), source_words(chosen, own), "", chosen.limits.source.provenance};
    if (own.has()) {
        caution.provenance = preset::Provenance::Published;
    } else {
        caution.edition = chosen.limits.source.edition;
    }
    return caution;
}

Caution of_text(CautionOf of, const std::string& line) {
    const preset::CautionText& text = preset::caution_text(of);
    return {std::string(text.code),           {line},
            std::string(text.text),           std::string(text.source.text),
            std::string(text.source.edition), text.source.provenance};
}

class Writer {
  public:
    Writer(const Book& book, std::string line, const Trench& trench, const ChosenLimits& chosen)
        : book_(book), line_(std::move(line)), trench_(trench), chosen_(chosen) {}

    std::vector<Caution> all() {
        const preset::ExcavationLimits& limits = chosen_.limits;
        add_depth();
        cautions_.push_back(of_text(CautionOf::Inspection, line_));
        if (reaches(limits.way_out)) add_way_out();
        if (!std::isnan(limits.spoil))
            add("spoil",
                "spoil, plant and loads stay at least " + length(limits.spoil) + " back from the edge",
                chosen_.own.spoil);
        if (reaches(limits.air))
            add("air", from(limits.air) + " air that may be bad is tested before anybody goes in", {});
        const bool american = limits.name == preset::usual_excavation_limits(Unit::Foot).name;
        if (american && reaches(limits.support)) cautions_.push_back(of_text(CautionOf::Slopes, line_));
        if (reaches(limits.engineered))
            add("engineered", from(limits.engineered) + " a registered engineer designs the support", {});
        return std::move(cautions_);
    }

  private:
    std::string length(double metres) const { return length_words(book_, metres); }
    std::string from(double depth) const { return "in trenches of " + length(depth) + " and deeper"; }

    // Compared as printed.
    bool reaches(double limit) const {
        return rounded_to(book_.in_unit(trench_.deepest), length_places) >=
               rounded_to(book_.in_unit(limit), length_places);
    }

    void add(const char* code, std::string text, const Maybe& own) {
        cautions_.push_back(made(code, line_, std::move(text), chosen_, own));
    }

    void add_depth() {
        const std::string known = depth_words(book_, trench_, chosen_);
        const std::string unknown =
            "how deep the trench is cannot be told: no ground was read along the line, or "
            "nothing is designed below it";
        add("excavation", (known.empty() ? unknown : known) + "; " + at_every_depth, chosen_.own.depth);
    }

    void add_way_out() {
        std::string text = from(chosen_.limits.way_out) + " a ladder, steps or a ramp stands";
        text += std::isnan(chosen_.limits.way_out_within)
                    ? std::string(" ready")
                    : " within " + length(chosen_.limits.way_out_within) + " of everybody";
        add("way-out", std::move(text), chosen_.own.egress);
    }

    const Book& book_;
    std::string line_;
    const Trench& trench_;
    const ChosenLimits& chosen_;
    std::vector<Caution> cautions_;
};

}  // namespace

ChosenLimits limits_of(const Book& book) {
    ChosenLimits chosen;
    chosen.limits = preset::usual_excavation_limits(book.unit);
    for (const Rule& rule : book.rules) {
        if (book.name(rule.name) != "cautions") continue;
        take_rule(book, rule, chosen);
        break;
    }
    return chosen;
}

std::string depth_words(const Book& book, const Trench& trench, const ChosenLimits& chosen) {
    if (std::isnan(trench.deepest)) return "";
    std::string text = "the trench is up to " + fixed(book.in_unit(trench.deepest), 3) + " \u00b1 " +
                       length_words(book, trench.deepest_sd) + " deep at chainage " +
                       chainage_words(book, trench.deepest_at);
    const double limit = chosen.limits.support;
    const std::string where = std::isnan(limit) ? "" : deeper_words(book, trench, limit);
    if (where.empty()) return text;
    text += ", deeper than " + length_words(book, limit) + " (";
    if (!chosen.limits.support_is.empty()) {
        text += chosen.limits.support_is;
        text += ", ";
    }
    return text + source_words(chosen, chosen.own.depth) + ") " + where;
}

std::vector<Caution> excavation_cautions(const Book& book, const std::string& line, const Trench& trench,
                                         const ChosenLimits& chosen) {
    return Writer(book, line, trench, chosen).all();
}

}  // namespace fallwright
