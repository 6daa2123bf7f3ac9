#include "record/report.h"

#include <utility>

#include "record/chapters.h"

namespace fallwright::record {

namespace {

void add_all(Writer& out, const Wanted& wanted) {
    add_cover(out, wanted);
    add_in_short(out);
    add_plan(out);
    add_falls(out);
    add_verdicts(out);
    add_drains(out);
    add_evenness(out);
    add_surfaces(out);
    add_levels(out);
    add_pages(out);
    add_setting_out(out);
    add_trials(out);
    add_suspects(out);
    add_changes(out, wanted);
    add_findings(out);
    add_cautions(out);
    add_method(out, wanted);
    add_closing(out, wanted);
}

std::string foot_of(const Wanted& wanted) {
    std::string text = wanted.book_name;
    const auto add = [&text](const std::string& more) { text += (text.empty() ? "" : " - ") + more; };
    constexpr std::size_t enough = 12;  // digits of the fingerprint that tell two books apart on a desk
    if (!wanted.fingerprint.empty()) add("SHA-256 " + wanted.fingerprint.substr(0, enough) + "...");
    if (!wanted.made_at.empty()) add(wanted.made_at);
    return text;
}

}  // namespace

std::string title_of(const Evaluation& evaluation, const Wanted& wanted) {
    if (!evaluation.book->title.empty()) return evaluation.book->title;
    return wanted.book_name.empty() ? "Levels" : wanted.book_name;
}

sheet::Document report_of(const Evaluation& evaluation, const Wanted& wanted) {
    sheet::Document document;
    document.title = title_of(evaluation, wanted);
    document.subject =
        wanted.length == Length::Full ? "Record of levels and falls" : "Levels and falls on one page";
    document.paper = wanted.paper;
    document.foot = foot_of(wanted);
    Writer out(evaluation, wanted.paper);
    document.one_sheet = wanted.length == Length::OnePage;
    if (wanted.length == Length::Full) {
        add_all(out, wanted);
    } else {
        add_one_page(out, wanted);
    }
    document.blocks = std::move(out).take();
    return document;
}

}  // namespace fallwright::record
