#include <algorithm>

#include "base/print.h"
#include "preset/misclosure.h"
#include "record/chapters.h"
#include "verdict/verdict.h"

namespace fallwright::record {

namespace {

std::vector<std::string> formulas(const Writer& out) {
    const std::string confidence = percent(confidence_of(out.book));
    std::vector<std::string> items = {
        "A reading, taken upright, is the height of the light over the point less the level of the point: "
        "height of the light = its height at the instrument + gradient along the main axis x distance along "
        "it "
        "+ gradient along the cross axis x distance along that + (1 - k) d\u00b2/2R + what the instrument's "
        "cone "
        "or "
        "collimation adds over the distance d.",
        out.book.curvature ? "Curvature and refraction are taken off: k 0.13 unless a rule of the book says "
                             "otherwise, R 6371 km."
                           : "Curvature and refraction are left out, as the book says.",
        "All readings, steps and weighted benchmarks of the book are solved together by least squares. Each "
        "cause of error (reading, staff's foot, tilt, levelling-up, grade, aim, staff, benchmark) is one "
        "unknown with its stated or assumed uncertainty; uncertainties are a priori and never scaled by how "
        "well the readings agree.",
        "The \u00b1 of a level or a fall is one standard deviation from the joint solution: variance = sum "
        "over "
        "all "
        "causes of (what one standard deviation of the cause moves the result)\u00b2. What two levels share "
        "does "
        "not make their difference uncertain.",
        "Probability that a figure x \u00b1 s truly lies between the limits a and b: Phi((b - x) / s) - "
        "Phi((a - "
        "x) "
        "/ s), Phi the normal distribution function. Within from " +
            confidence + " on, outside from " + confidence +
            " of the contrary on, else too close to call. As measured compares x itself with the limits.",
        "A fall is the difference of two levels over their distance; a best straight line is the ordinary "
        "one "
        "of levels on chainage.",
        "A booked page is kept in exact decimals by height of collimation and by rise and fall; a misclosure "
        "is found less known.",
        "Suspicions: every kind of slip is weighed by how often it happens and by how much better it "
        "explains "
        "the readings; those that no reading tells apart are named together."};
    return items;
}

void add_presets(Writer& out) {
    Rows rows("Tables this rests on", {words_column("name"), words_column("edition"), text_column("source"),
                                       words_column("standing")});
    for (const UsedPreset& used : out.evaluation.presets)
        rows.add({used.name, used.edition, used.source, std::string(used.provenance)});
    out.table(std::move(rows));
}

// What nobody stated and the program assumed.
void add_assumed(Writer& out) {
    std::vector<std::string> items;
    for (const Finding& found : out.evaluation.findings) {
        if (found.code == Code::AssumedErrors) items.push_back(finding_sentence(found));
    }
    if (items.empty()) return;
    out.heading(3, "Assumed, untested");
    out.list(std::move(items));
}

void add_fit(Writer& out) {
    const Summary& summary = out.model.summary;
    std::string text = std::to_string(summary.observations) + " observations, " +
                       std::to_string(summary.unknowns) + " unknowns, " + std::to_string(summary.dof) +
                       " more than needed.";
    constexpr int places = 4;
    if (summary.dof > 0)
        text += " Misfit (chi-square) " + significant(summary.chi2, places) +
                "; 95 % of sound books lie between " + significant(summary.chi2_low, places) + " and " +
                significant(summary.chi2_high, places) + ".";
    out.say(text);
}

}  // namespace

void add_method(Writer& out, const Wanted& wanted) {
    out.heading(1, "How it was worked out");
    out.heading(2, "Formulas");
    out.list(formulas(out));
    out.heading(2, "How well the readings agree");
    add_fit(out);
    out.heading(2, "Where figures come from");
    out.say("Misclosures are allowed by: " + preset::rule_text(out.evaluation.rule, out.unit) + ".");
    if (!out.evaluation.presets.empty())
        out.say(
            "A table marked from memory was not confirmed against its text: it gives a hint and no verdict.");
    add_presets(out);
    add_assumed(out);
    out.say("Worked out by Fallwright " + (wanted.version.empty() ? "(version not said)" : wanted.version) +
            ". The same book gives the same figures on any machine.");
}

}  // namespace fallwright::record
