#include <algorithm>

#include "record/chapters.h"

namespace fallwright::record {

namespace {

void add_severity(Writer& out, const Findings& findings, Severity severity) {
    constexpr const char* titles[] = {"Left out, or cannot be told", "A person should look", "Notes"};
    std::vector<std::string> items;
    for (const Finding& found : findings) {
        if (catalogue(found.code).severity == severity) items.push_back(finding_sentence(found));
    }
    if (items.empty()) return;
    out.heading(2, titles[static_cast<std::size_t>(severity)]);
    out.list(std::move(items));
}

// What holds of every job, whatever the book has. Wording after the project's rules of what may be said.
std::vector<std::string> general_cautions() {
    return {
        "Deeper or shallower, trenches fall in: the competent person decides support at every depth. Work in "
        "and near excavations, buried services, laser light and traffic have rules of their own; local codes "
        "and licensed practice come first.",
        "Levels do not pass a drain: tests of tightness and alignment are not covered here.",
        "An instrument check in this record was made on site; it is no calibration certificate.",
        "Figures are relative to the benchmarks as given; a benchmark that is wrong moves everything with "
        "it."};
}

}  // namespace

void add_findings(Writer& out) {
    out.heading(1, "What to look at");
    const Findings findings = beside_cautions(out.evaluation.findings);
    if (findings.empty()) {
        out.say("Nothing was noticed beside what is said above.");
        return;
    }
    for (const Severity severity : {Severity::Error, Severity::Warning, Severity::Note})
        add_severity(out, findings, severity);
}

void add_cautions(Writer& out) {
    out.heading(1, "Cautions");
    for (const Caution& caution : out.evaluation.cautions.all)
        out.say(caution_sentence(caution), sheet::Tone::Caution);
    out.list(general_cautions());
}

void add_fingerprint(Writer& out, const Wanted& wanted) {
    if (wanted.fingerprint.empty()) {
        out.say("The book's fingerprint is not given: whoever made this record had no file of it.");
        return;
    }
    out.facts({{"SHA-256 of the book", wanted.fingerprint}});
    if (wanted.length == Length::OnePage) {
        out.say(
            "Of every byte of the book: it shows that something changed, not who changed it, nor that what "
            "was written is true.",
            sheet::Tone::Small);
        return;
    }
    const std::string name = wanted.book_name.empty() ? "the book's file" : wanted.book_name;
    out.say("Taken over every byte of " + name +
                ". If the file gives another fingerprint, it is another book than the one this record was "
                "made from: something in it was changed or added. It does not show who changed it, nor when, "
                "nor that what was written is true. Anybody can take it again with a program for SHA-256 "
                "(sha256sum FILE).",
            sheet::Tone::Small);
}

void add_closing(Writer& out, const Wanted& wanted) {
    out.heading(1, "Fingerprint and signature");
    add_fingerprint(out, wanted);
    out.signature({"name", "signature", "date"});
}

}  // namespace fallwright::record
