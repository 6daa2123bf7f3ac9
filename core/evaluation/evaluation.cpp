#include "evaluation/evaluation.h"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

#include "base/print.h"
#include "evenness/evenness.h"
#include "model/misclosure.h"
#include "verdict/verdict.h"

namespace fallwright {

namespace {

constexpr double assumed_sight = 30;      // metres, where the book has no rule
constexpr double model_certainty = 1.96;  // sds allowed by rule model

const Rule* rule_named(const Book& book, std::string_view name) {
    for (const Rule& rule : book.rules) {
        if (book.name(rule.name) == name) return &rule;
    }
    return nullptr;
}

double sight_rule(const Book& book) {
    const Rule* rule = rule_named(book, "assumed-sight");
    return rule != nullptr ? rule->d.or_else(assumed_sight) : assumed_sight;
}

// Once each; whether it is new.
bool list_preset(Evaluation& evaluation, const std::string& name, const preset::Source& source) {
    std::vector<UsedPreset>& all = evaluation.presets;
    if (std::any_of(all.begin(), all.end(), [&name](const UsedPreset& used) { return used.name == name; }))
        return false;
    all.push_back({name, std::string(source.edition), std::string(source.text),
                   preset::provenance_word(source.provenance)});
    return true;
}

void show_preset(Evaluation& evaluation, const std::string& name, const preset::Source& source) {
    const bool is_new = list_preset(evaluation, name, source);
    if (is_new && source.provenance == preset::Provenance::FromMemory) {
        evaluation.findings.push_back(
            finding(Code::PresetFromMemory, {name}, "preset " + name + " is from memory, not confirmed"));
    }
}

void use_preset(Evaluation& evaluation, const Rule& rule) {
    const std::string& name = evaluation.book->name(rule.preset);
    const preset::MisclosurePreset* found = preset::find_misclosure(name);
    if (found == nullptr) {
        const bool listed =
            std::any_of(preset::misclosure_presets().begin(), preset::misclosure_presets().end(),
                        [&name](const preset::MisclosurePreset& row) { return row.name == name; });
        evaluation.findings.push_back(finding(
            Code::UnknownPreset, {evaluation.book->id_of(rule.entry)},
            "misclosure preset " + name + (listed ? " is no limit of a misclosure" : " is not known") +
                "; the model's limit is used"));
        return;
    }
    evaluation.rule = found->rule();
    show_preset(evaluation, name, found->source);
}

void use_tolerance_presets(Evaluation& evaluation) {
    for (const Tolerance& tolerance : evaluation.book->tolerances) {
        for (const Tolerance::Used& used : tolerance.used)
            show_preset(evaluation, std::string(used.name), *used.source);
    }
}

void choose_misclosure_rule(Evaluation& evaluation) {
    using By = preset::MisclosureRule::By;
    evaluation.rule = preset::model_rule();
    const Rule* rule = rule_named(*evaluation.book, "misclosure");
    if (rule == nullptr) return;
    if (rule->preset != no_name) use_preset(evaluation, *rule);
    const std::string& by = evaluation.book->name(rule->by);
    if (by == "model") evaluation.rule = preset::model_rule();
    if ((by == "sets" || by == "km") && rule->a.has()) {
        constexpr double millimetres = 1000;
        evaluation.rule = {by, by == "sets" ? By::Sets : By::Km, rule->a.value * millimetres};
    }
}

double allowed_for(const Evaluation& evaluation, const Closure& closure) {
    using By = preset::MisclosureRule::By;
    if (evaluation.rule.by == By::Model)
        return model_certainty * misclosure_sd(*evaluation.book, *evaluation.model, closure);
    if (evaluation.rule.by == By::Km && !closure.length.has()) return NAN;
    constexpr double kilometre = 1000;
    return preset::allowed_m(evaluation.rule, closure.setups, closure.length.or_else(0) / kilometre);
}

void judge_closures(Evaluation& evaluation) {
    const Book& book = *evaluation.book;
    for (const Closure& closure : evaluation.pages.closures) {
        JudgedClosure judged;
        judged.allowed = allowed_for(evaluation, closure);
        const double found = rounded_to(std::fabs(book.in_unit(closure.misclosure.metres())), length_places);
        judged.ok = found <= rounded_to(book.in_unit(judged.allowed), length_places);
        evaluation.closures.push_back(judged);
        if (judged.ok || std::isnan(judged.allowed)) continue;
        const std::string text =
            trimmed(book.in_unit(closure.misclosure.metres()), 4) + (book.unit == Unit::Foot ? " ft" : " m");
        evaluation.findings.push_back(
            finding(Code::MisclosureTooLarge, {book.name(closure.from), book.name(closure.to)},
                    "from " + book.name(closure.from) + " to " + book.name(closure.to) +
                        " the misclosure is " + text + ", more than is allowed"));
    }
}

// Readings that stood on a pipe's crown, soffit or collar speak of its invert; where none can be told they
// speak of nothing.
void take_figures_down(Evaluation& evaluation) {
    const Book& book = *evaluation.book;
    if (std::none_of(book.readings.begin(), book.readings.end(),
                     [](const Reading& reading) { return reading.on != On::Nothing; }))
        return;
    const TakenDown taken = take_down(book, evaluation.designs);
    evaluation.figures.down.resize(book.readings.size());
    for (std::size_t i = 0; i < book.readings.size(); ++i) {
        if (std::isnan(taken.readings[i])) {
            evaluation.figures.usable[i] = false;
        } else {
            evaluation.figures.down[i] = Decimal::metres(taken.readings[i]);
        }
    }
    evaluation.designs.findings.insert(evaluation.designs.findings.end(), taken.findings.begin(),
                                       taken.findings.end());
}

void gather_findings(Evaluation& evaluation) {
    Findings all = evaluation.book->findings;
    for (const Findings* part :
         {&evaluation.designs.findings, &evaluation.figures.findings, &evaluation.where.findings,
          &evaluation.trials.findings, &evaluation.model->sights.findings, &evaluation.model->findings,
          &evaluation.pages.findings, &evaluation.surveys.findings, &evaluation.dials.findings,
          &evaluation.setout.findings, &evaluation.drains.findings, &evaluation.cautions.findings,
          &evaluation.findings}) {
        all.insert(all.end(), part->begin(), part->end());
    }
    for (const Page& page : evaluation.pages.pages) {
        if (!page.sloped && !page.agrees) {
            all.push_back(
                finding(Code::PageDisagrees,
                        {evaluation.book->name(evaluation.book->readings[page.rows.front().reading].point)},
                        "the sums of a page do not agree"));
        }
    }
    if (evaluation.model->sights.rows.empty() && evaluation.book->steps.empty()) {
        all.push_back(finding(Code::NothingRead, {}, "the book has no reading that can be evaluated"));
    }
    evaluation.findings = std::move(all);
}

void survey(Evaluation& evaluation) {
    evaluation.surveys = ground::survey_surfaces(*evaluation.book, evaluation.where, *evaluation.model);
    for (const preset::FlatnessPreset* preset : evaluation.surveys.presets)
        list_preset(evaluation, std::string(preset->name), preset->source);
}

void add(Findings& all, const Findings& more) {
    all.insert(all.end(), more.begin(), more.end());
}

// A set-out table of a line has told already where its pipe stands out.
void keep_said_once(Evaluation& evaluation) {
    Findings& drains = evaluation.drains.findings;
    const Findings& tables = evaluation.setout.findings;
    const auto told = [&tables](const Finding& found) {
        if (found.code != Code::SetoutNoCover) return false;
        return std::any_of(tables.begin(), tables.end(), [&found](const Finding& each) {
            return each.code == found.code && each.about == found.about;
        });
    };
    drains.erase(std::remove_if(drains.begin(), drains.end(), told), drains.end());
}

void run_drains(Evaluation& evaluation) {
    drain::RunWish wish;
    wish.setup = drain::standing_setup(*evaluation.book);
    evaluation.drains = drain::drain_runs(setout_basis(evaluation), wish);
    keep_said_once(evaluation);
    for (const drain::Run& run : evaluation.drains.runs) {
        const drain::CoverRule& cover = run.cover_rule;
        if (!cover.source.text.empty()) list_preset(evaluation, cover.name, cover.source);
    }
    const preset::CleansingRule* held = evaluation.drains.job ? evaluation.drains.job->held_to : nullptr;
    if (held != nullptr) list_preset(evaluation, std::string(held->name), held->source);
}

void seek_suspects(Evaluation& evaluation) {
    evaluation.suspects = std::make_unique<Suspects>(find_suspects(
        *evaluation.book, evaluation.where, evaluation.figures, evaluation.designs, *evaluation.model));
}

}  // namespace

Evaluation evaluate(std::shared_ptr<const Book> book, Seek seek) {
    Evaluation evaluation;
    evaluation.book = std::move(book);
    const Book& read = *evaluation.book;
    evaluation.designs = design_lines(read);
    evaluation.figures = read_figures(read);
    take_figures_down(evaluation);
    evaluation.where = locate(read, sight_rule(read));
    choose_misclosure_rule(evaluation);
    use_tolerance_presets(evaluation);
    evaluation.trials = check_instruments(read, evaluation.where);
    evaluation.model = build_model(read, evaluation.figures, evaluation.where, evaluation.trials.checked);
    if (seek == Seek::Suspects) seek_suspects(evaluation);  // before the pages: what it needs is given back
    evaluation.pages = book_pages(read, evaluation.figures, evaluation.where, evaluation.rule.by);
    judge_closures(evaluation);
    evaluation.lines = find_falls(read, *evaluation.model);
    const Findings judging = verdict_findings(read, evaluation.designs, evaluation.lines);
    add(evaluation.findings, judging);
    add(evaluation.findings, verdict_hints(read, evaluation.designs, evaluation.lines, *evaluation.model));
    survey(evaluation);
    evaluation.dials = dial_wants({read, evaluation.designs, evaluation.where, *evaluation.model},
                                  dial_surfaces(evaluation));
    evaluation.setout = set_out_wants(setout_basis(evaluation));
    evaluation.cautions = cautions_of(setout_basis(evaluation));
    add(evaluation.setout.findings, trench_notes(setout_basis(evaluation), evaluation.setout.tables));
    run_drains(evaluation);
    gather_findings(evaluation);
    if (evaluation.suspects != nullptr) add(evaluation.findings, evaluation.suspects->findings);
    return evaluation;
}

SetoutBasis setout_basis(const Evaluation& evaluation) {
    return {*evaluation.book, evaluation.designs, evaluation.where, *evaluation.model, evaluation.lines};
}

std::vector<DialSurface> dial_surfaces(const Evaluation& evaluation) {
    std::vector<DialSurface> surfaces;
    for (const ground::SurveyedSurface& surface : evaluation.surveys.surfaces) {
        if (!surface.plane) continue;
        DialSurface dialled = {surface.ready.entry->name, {}};
        for (const ground::BookSpot& spot : surface.ready.inner) dialled.points.push_back(spot.name);
        surfaces.push_back(std::move(dialled));
    }
    return surfaces;
}

bool laid_outside(const Evaluation& evaluation) {
    const auto outside = [](const Judgement& judged) { return judged.verdict == Verdict::Outside; };
    for (std::size_t i = 0; i < evaluation.lines.size(); ++i) {
        const LineFalls& found = evaluation.lines[i];
        const Design& design = evaluation.designs.lines[i];
        const LineJudge judge(*evaluation.book, design, found, *evaluation.model);
        if (!judge.has_tolerances()) continue;
        for (const Station& station : found.stations) {
            if (outside(judge.judge(station).judged)) return true;
        }
        for (const FoundFall& fall : list_falls(*evaluation.book, design, found, *evaluation.model)) {
            if (outside(judge.judge(fall).judged)) return true;
        }
        if (uneven({*evaluation.book, design, found, *evaluation.model})) return true;
    }
    return false;
}

bool floor_outside(const Evaluation& evaluation) {
    for (const ground::SurveyedSurface& surface : evaluation.surveys.surfaces) {
        for (const ground::Flatness& flatness : surface.flatness) {
            if (flatness.verdict == Verdict::Outside) return true;
        }
    }
    return false;
}

double off_plane(const Evaluation& evaluation, std::size_t reading) {
    const Reading& entry = evaluation.book->readings[reading];
    const Maybe& clamp = evaluation.book->setups[static_cast<std::size_t>(entry.setup_at)].clamp;
    if (!clamp.has() || entry.figure.form == Form::None) return NAN;
    const double above = (Decimal::metres(clamp.value) - evaluation.figures.value[reading]).metres();
    return entry.figure.inverted ? -above : above;
}

}  // namespace fallwright
