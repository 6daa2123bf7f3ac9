#include "shells/cli/words.h"

#include <cmath>

namespace fallwright::cli {

namespace {

constexpr int most_alike = 5;

}  // namespace

std::string cautions_text(const std::vector<Caution>& cautions) {
    std::string text = cautions.empty() ? "" : "\nCautions\n";
    for (const Caution& each : cautions) text += "  - " + record::caution_sentence(each) + "\n";
    return text;
}

std::string findings_text(const Findings& findings) {
    std::string all;
    for (const Severity severity : {Severity::Error, Severity::Warning, Severity::Note}) {
        Code last = Code::count_;
        int alike = 0;
        for (const Finding& found : findings) {
            if (catalogue(found.code).severity != severity) continue;
            alike = found.code == last ? alike + 1 : 1;
            last = found.code;
            if (alike <= most_alike)
                all += "  " + std::string(severity_word(severity)) + ": " + record::finding_sentence(found) +
                       "\n";
            if (alike == most_alike + 1) all += "  ... and more of the same; all of them with --json\n";
        }
    }
    return all;
}

bool has_error(const Findings& findings) {
    for (const Finding& found : findings) {
        if (catalogue(found.code).severity == Severity::Error) return true;
    }
    return false;
}

bool something_outside(const Evaluation& evaluation) {
    for (const JudgedClosure& closure : evaluation.closures) {
        if (!closure.ok && !std::isnan(closure.allowed)) return true;
    }
    return laid_outside(evaluation) || floor_outside(evaluation) || has_error(evaluation.findings);
}

}  // namespace fallwright::cli
