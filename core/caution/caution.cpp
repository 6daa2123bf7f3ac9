#include "caution/caution.h"

#include <algorithm>
#include <utility>

#include "caution/excavation.h"
#include "fall/dig_to.h"

namespace fallwright {

namespace {

using preset::CautionOf;

Caution of_text(CautionOf of, std::vector<std::string> about) {
    const preset::CautionText& text = preset::caution_text(of);
    return {std::string(text.code),           std::move(about),
            std::string(text.text),           std::string(text.source.text),
            std::string(text.source.edition), text.source.provenance};
}

// One sentence stands once, about all it is about.
void add(std::vector<Caution>& all, Caution caution) {
    for (Caution& each : all) {
        if (each.code != caution.code || each.text != caution.text || each.source != caution.source) continue;
        each.about.insert(each.about.end(), caution.about.begin(), caution.about.end());
        return;
    }
    all.push_back(std::move(caution));
}

void caution_line(const SetoutBasis& basis, std::size_t index, const ChosenLimits& chosen,
                  std::vector<Caution>& all) {
    const LineEntry& line = basis.book.lines[index];
    const std::string name = basis.book.name(line.name);
    if (carries_pipes(line)) {
        for (Caution& each : excavation_cautions(basis.book, name, trench_along(basis, index), chosen))
            add(all, std::move(each));
    }
    const auto stand = [&](CautionOf of, bool applies) {
        if (applies) add(all, of_text(of, {name}));
    };
    stand(CautionOf::Services, carries_pipes(line) || !line.layers.empty());
    stand(CautionOf::ConfinedSpace, !line.chambers.empty());
    stand(CautionOf::Traffic, line.use == LineUse::Road || line.use == LineUse::Kerb);
    stand(CautionOf::DrainageDesign, line.use == LineUse::Drain);
}

// Names of the lasers that stand somewhere, in the order of the book.
std::vector<std::string> lasers_used(const Book& book) {
    std::vector<bool> used(book.instruments.size());
    for (const Setup& setup : book.setups) {
        if (setup.instrument_at >= 0) used[static_cast<std::size_t>(setup.instrument_at)] = true;
    }
    std::vector<std::string> names;
    for (std::size_t i = 0; i < used.size(); ++i) {
        if (used[i] && book.instruments[i].type != InstrumentType::OpticalLevel)
            names.push_back(book.name(book.instruments[i].name));
    }
    return names;
}

void caution_job(const ChosenLimits& chosen, std::vector<Caution>& all) {
    for (const std::string& sentence : chosen.add)
        all.push_back({"job", {}, sentence, "rule cautions of the book", "", preset::Provenance::Published});
}

}  // namespace

Cautions cautions_of(const SetoutBasis& basis) {
    ChosenLimits chosen = limits_of(basis.book);
    Cautions cautions;
    for (std::size_t line = 0; line < basis.book.lines.size(); ++line)
        caution_line(basis, line, chosen, cautions.all);
    std::vector<std::string> lasers = lasers_used(basis.book);
    if (!lasers.empty()) cautions.all.push_back(of_text(CautionOf::LaserLight, std::move(lasers)));
    caution_job(chosen, cautions.all);
    cautions.findings = std::move(chosen.findings);
    return cautions;
}

std::vector<Caution> cautions_beside(const Book& book, const Cautions& cautions, std::size_t line) {
    const std::string name = book.name(book.lines[line].name);
    std::vector<Caution> beside;
    for (const Caution& each : cautions.all) {
        const bool general = each.code == "job" || each.code == "laser-light";
        if (general || std::find(each.about.begin(), each.about.end(), name) != each.about.end())
            beside.push_back(each);
    }
    return beside;
}

Caution drainage_caution() {
    return of_text(CautionOf::DrainageDesign, {});
}

Findings trench_notes(const SetoutBasis& basis, const std::vector<SetoutTable>& tables) {
    const ChosenLimits chosen = limits_of(basis.book);
    Findings notes;
    std::vector<bool> said(basis.book.lines.size());
    for (const SetoutTable& table : tables) {
        if (said[table.line]) continue;
        said[table.line] = true;
        const std::string words = depth_words(basis.book, trench_along(basis, table.line), chosen);
        if (!words.empty())
            notes.push_back(
                finding(Code::TrenchDepth, {basis.book.name(basis.book.lines[table.line].name)}, words));
    }
    return notes;
}

}  // namespace fallwright
