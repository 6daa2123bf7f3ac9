#include "desk/fall_answer.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/json_out.h"
#include "base/print.h"
#include "desk/fall_typed.h"
#include "desk/write_json.h"
#include "evaluation/evaluation.h"
#include "fall/cross_check.h"

namespace fallwright {

namespace {

std::vector<double> in_metres(const std::vector<Length>& lengths) {
    std::vector<double> values;
    values.reserve(lengths.size());
    for (const Length& length : lengths) values.push_back(length.metres());
    return values;
}

void space_evenly(TypedFall& typed, double over) {
    const auto last = static_cast<double>(typed.staff.size() - 1);
    for (std::size_t i = 0; i < typed.staff.size(); ++i)
        typed.at.push_back(over * static_cast<double>(i) / last);
}

Finding bad_request(std::vector<std::string> about, std::string message, std::string cure) {
    return finding(Code::BadRequest, std::move(about), std::move(message), std::move(cure));
}

void read_distances(desk::Options& options, TypedFall& typed) {
    const std::vector<Length> at = options.chainages("at");
    const std::optional<Measured> over = options.measured("over");
    const std::optional<Length> over_sd = options.length("over_sd");
    if (!at.empty() && over)
        options.refuse(bad_request({"over", "at"}, "over and at are given together", "keep one of the two"));
    if (!at.empty() && at.size() != typed.staff.size())
        options.refuse(
            bad_request({"at"}, "at needs one chainage for each reading", "give as many as readings"));
    if (over && !(over->value.metres() > 0))
        options.refuse(
            bad_request({"over"}, "the distance must be above 0", "give the distance between the points"));
    if (over_sd && over_sd->metres() < 0)
        options.refuse(
            bad_request({"over_sd"}, "an uncertainty is never negative", "give one standard deviation"));
    if (options.fault()) return;
    typed.at = in_metres(at);
    if (over) {
        space_evenly(typed, over->value.metres());
        typed.over_sd = over_sd ? over_sd->metres() : over->sd ? over->sd->metres() : 0;
    }
}

std::optional<TypedFall> read_typed(desk::Options& options) {
    TypedFall typed;
    typed.unit = options.unit();
    typed.staff = in_metres(options.lengths("readings"));
    if (!options.fault() && typed.staff.size() < 2)
        options.refuse(bad_request({"readings"}, "a fall needs two readings",
                                   "give the readings in order along the line"));
    if (!options.fault()) read_distances(options, typed);
    if (const auto shown = options.gradient("shown")) typed.shown = shown->ratio();
    if (const auto near = options.length("near")) typed.near = near->metres();
    if (typed.shown && typed.at.empty())
        options.refuse(
            bad_request({"shown"}, "what is shown needs a distance to compare with", "give over or at"));
    const bool backwards = !typed.at.empty() && !(typed.at.back() > typed.at.front());
    if (backwards && (typed.shown || typed.near))
        options.refuse(bad_request({"at"}, "what is shown counts from the near point to the far one",
                                   "give the near point first, and chainages that grow towards the far one"));
    if (options.fault()) return std::nullopt;
    return typed;
}

// The readings as a book: one levelled-up laser, the points on a line without a plan.
std::string as_book(const TypedFall& typed) {
    JsonOut out;
    out.begin_object()
        .text("kind", "book")
        .text("format", "fallwright")
        .integer("version", format_version)
        .end_object();
    std::string text = out.take() +
                       "\n{\"kind\":\"instrument\",\"name\":\"laser\",\"type\":\"rotating-laser\"}\n{"
                       "\"kind\":\"line\",\"name\":\"line\"}\n";
    JsonOut setup;
    setup.begin_object().text("kind", "setup").text("name", "set-up").text("instrument", "laser");
    if (typed.near && !typed.at.empty()) {
        setup.key("place")
            .begin_object()
            .text("line", "line")
            .number("ch", typed.at.front() - *typed.near, length_places)
            .end_object();
        setup.key("plane").begin_object().text("towards", "line").end_object();
    }
    text += setup.end_object().take() + "\n";
    for (std::size_t i = 0; i < typed.staff.size(); ++i) {
        JsonOut reading;
        reading.begin_object().text("kind", "reading");
        if (typed.at.empty()) {
            reading.text("point", std::to_string(i + 1));
        } else {
            reading.text("line", "line").number("ch", typed.at[i], 7).text("what", "peg");
        }
        text += reading.number("staff", typed.staff[i], 7).end_object().take() + "\n";
    }
    return text;
}

void take_fit(const Evaluation& evaluation, const LineFalls& line, const Fit& fit, FallAnswer& answer) {
    const Model& model = *evaluation.model;
    std::vector<const Station*> fitted;
    for (const Station& station : line.stations) {
        if (station.what == fit.what && !std::isnan(station.off_fit)) fitted.push_back(&station);
    }
    std::sort(fitted.begin(), fitted.end(), [](const Station* a, const Station* b) { return a->ch < b->ch; });
    for (const Station* station : fitted) answer.readings.push_back({station->ch, NAN, station->off_fit});
    const Station& first = *fitted.front();
    const Station& last = *fitted.back();
    const std::vector<PointTerm> sum = {{last.point, 1}, {first.point, -1}};
    answer.difference = model.levels[static_cast<std::size_t>(last.point)].level -
                        model.levels[static_cast<std::size_t>(first.point)].level;
    answer.difference_sd = std::sqrt(model.variance_of(sum));
    answer.over = last.ch - first.ch;
    answer.gradient = fit.gradient;
    answer.gradient_sd = fit.sd;
    answer.rms = fitted.size() > 2 ? fit.rms : NAN;
    if (fitted.size() <= 2) return;
    const auto further = [](const FallReading& a, const FallReading& b) {
        return rounded_to(std::fabs(a.off_fit), length_places) <
               rounded_to(std::fabs(b.off_fit), length_places);
    };
    answer.worst = static_cast<int>(
        std::max_element(answer.readings.begin(), answer.readings.end(), further) - answer.readings.begin());
}

void take_difference(const Evaluation& evaluation, FallAnswer& answer) {
    const Model& model = *evaluation.model;
    const auto last = static_cast<std::int32_t>(model.levels.size()) - 1;
    const std::vector<PointTerm> sum = {{last, 1}, {0, -1}};
    answer.difference = model.levels.back().level - model.levels.front().level;
    answer.difference_sd = std::sqrt(model.variance_of(sum));
    answer.over = answer.over_sd = answer.gradient = answer.gradient_sd = answer.rms = NAN;
}

}  // namespace

Result<FallAnswer> fall_of_readings(desk::Options& options) {
    const std::optional<TypedFall> typed = read_typed(options);
    if (!typed) return *options.fault();
    Result<std::unique_ptr<Book>> book = read_book(as_book(*typed));
    if (!book) return book.finding();
    const Evaluation evaluation = evaluate(std::shared_ptr<const Book>(std::move(*book)));
    for (const Finding& found : evaluation.findings) {
        if (catalogue(found.code).severity == Severity::Error) return found;
    }
    FallAnswer answer;
    answer.unit = typed->unit;
    answer.one_pass_mark = NAN;
    if (typed->at.empty()) {
        take_difference(evaluation, answer);
        for (const double staff : typed->staff) answer.readings.push_back({NAN, staff, NAN});
    } else {
        const LineFalls& line = evaluation.lines.front();
        if (line.fits.empty() || line.stations.size() != typed->staff.size())
            return bad_request({"at"}, "each reading needs a chainage of its own",
                               "give chainages that differ");
        take_fit(evaluation, line, line.fits.front(), answer);
        answer.readings.clear();
        for (std::size_t i = 0; i < typed->staff.size(); ++i)
            answer.readings.push_back(
                {typed->at[i], typed->staff[i], typed->staff.size() > 2 ? line.stations[i].off_fit : NAN});
        answer.over_sd = typed->over_sd;
        const double stretch = answer.gradient * typed->over_sd / answer.over;
        answer.gradient_sd = std::sqrt(answer.gradient_sd * answer.gradient_sd + stretch * stretch);
        if (typed->near)
            answer.one_pass_mark = one_pass_mark(typed->staff.front(), typed->staff.back(),
                                                 typed->at.back() - typed->at.front(), *typed->near);
        if (typed->shown) cross_check(*typed, answer);
    }
    // Of the small book's own findings only what is assumed of the laser concerns the person.
    for (const Finding& found : evaluation.findings) {
        if (found.code == Code::AssumedErrors) answer.findings.push_back(found);
    }
    return answer;
}

Result<FallAnswer> fall_of_line(const std::shared_ptr<const Book>& book, desk::Options& options) {
    const std::optional<std::string> wanted = options.text("line");
    const std::optional<std::string> what = options.text("what");
    if (options.fault()) return *options.fault();
    const Evaluation evaluation = evaluate(book);
    for (std::size_t i = 0; i < book->lines.size(); ++i) {
        if (book->name(book->lines[i].name) != wanted.value_or("")) continue;
        for (const Fit& fit : evaluation.lines[i].fits) {
            if (what && book->name(fit.what) != *what) continue;
            FallAnswer answer;
            answer.unit = book->unit;
            answer.line = *wanted;
            answer.what = book->name(fit.what);
            answer.one_pass_mark = NAN;
            take_fit(evaluation, evaluation.lines[i], fit, answer);
            answer.findings = evaluation.findings;
            return answer;
        }
        return bad_request({*wanted},
                           "line " + *wanted + " has no two points read on it" + (what ? " as " + *what : ""),
                           "read two points of one surface on the line");
    }
    return bad_request({wanted.value_or("")}, "line " + wanted.value_or("") + " is not in the book",
                       "name a line of the book");
}

}  // namespace fallwright
