#include "desk/plan_answer.h"

#include <algorithm>
#include <set>
#include <utility>

#include "plan/air.h"
#include "verdict/verdict.h"

namespace fallwright {

namespace {

Finding bad_request(std::vector<std::string> about, std::string message, std::string cure) {
    return finding(Code::BadRequest, std::move(about), std::move(message), std::move(cure));
}

// A length above 0; absent where it is not given.
Maybe above_0(desk::Options& options, const char* name) {
    const std::optional<Length> length = options.length(name);
    if (!length) return {};
    if (!(length->metres() > 0))
        options.refuse(bad_request({name}, std::string(name) + " must be above 0", "give a length"));
    return {length->metres()};
}

class WishReader {
  public:
    WishReader(const Book& book, const Where& where, desk::Options& options)
        : book_(book), where_(where), options_(options) {}

    PlanWish read() {
        options_.assume(book_.unit);
        wish_.line = index_of(book_.lines, "line");
        wish_.instrument = index_of(book_.instruments, "instrument");
        wish_.every = above_0(options_, "every");
        wish_.tolerance = above_0(options_, "tolerance");
        wish_.what = options_.text("what").value_or("");
        if (const std::optional<double> degrees = options_.number("temperature_difference"))
            wish_.temperature_difference = {*degrees};
        wish_.search = !options_.flag("as_it_is");
        read_places();
        return std::move(wish_);
    }

  private:
    template <class Entries>
    std::size_t index_of(const Entries& entries, const char* kind) {
        const std::optional<std::string> name = options_.text(kind);
        if (!name) return not_named;
        const NameId known = book_.names.find(*name);
        const std::int32_t index = known == no_name ? -1 : ByName(entries)(known);
        if (index >= 0) return static_cast<std::size_t>(index);
        options_.refuse(bad_request({*name}, std::string(kind) + " " + *name + " is not in the book",
                                    std::string("name a ") + kind + " of the book"));
        return not_named;
    }

    void read_places() {
        const std::vector<std::string> places = options_.texts("places");
        if (places.size() > most_places)
            options_.refuse(bad_request({"places"}, "more than " + std::to_string(most_places) + " places",
                                        "name the likeliest ones"));
        for (const std::string& text : places) {
            const Spot spot = place(text);
            if (!spot.known)
                options_.refuse(
                    bad_request({text}, "where " + text + " is cannot be told",
                                "give a point whose place is known, or a chainage of the line: 40, 40 L3.5"));
            wish_.places.push_back(spot);
        }
    }

    Spot place(const std::string& text) const {
        const NameId point = book_.names.find(text);
        if (point != no_name && where_.points[point].known) return where_.points[point];
        if (wish_.line == not_named) return {};
        const std::size_t side = text.find_first_of("LR");
        const Result<Length> ch = parse_chainage(text.substr(0, side), book_.unit);
        if (!ch) return {};
        const PlanLine line(book_.lines[wish_.line], static_cast<std::int32_t>(wish_.line));
        if (side == std::string::npos) return line.at(ch->metres(), 0);
        const Result<Length> off = parse_length(text.substr(side + 1), book_.unit);
        if (!off) return {};
        return line.at(ch->metres(), text[side] == 'L' ? -off->metres() : off->metres());
    }

    const Book& book_;
    const Where& where_;
    desk::Options& options_;
    PlanWish wish_;
};

bool said(const Findings& findings, const Finding& found) {
    return std::any_of(findings.begin(), findings.end(), [&found](const Finding& each) {
        return each.code == found.code && each.message == found.message;
    });
}

// What is only so because nothing is read yet is no news to somebody who plans.
void gather(PlanAnswer& answer) {
    for (const Finding& found : answer.evaluation->findings) {
        const bool unread = found.code == Code::NothingRead || found.code == Code::AssumedDatum ||
                            found.code == Code::Undetermined;
        if (!unread) answer.findings.push_back(found);
    }
    for (const Finding& found : answer.plan.findings) {
        if (!said(answer.findings, found)) answer.findings.push_back(found);
    }
}

void find_benchmarks(PlanAnswer& answer) {
    const Book& book = *answer.evaluation->book;
    std::set<NameId> read;
    for (const PlannedSight& sight : answer.plan.layout.sights) read.insert(sight.as.point);
    for (const Reading& reading : book.readings) {
        if (!reading.planned) read.insert(reading.point);
    }
    for (const Benchmark& benchmark : book.benchmarks) {
        if (read.erase(benchmark.point) > 0) answer.relative_to.push_back(benchmark.point);
    }
}

}  // namespace

Result<PlanAnswer> plan_of(const std::shared_ptr<const Book>& book, desk::Options& options,
                           const PlanProgress& progress) {
    PlanAnswer answer;
    answer.evaluation = std::make_shared<const Evaluation>(evaluate(book));
    const Evaluation& evaluation = *answer.evaluation;
    const PlanWish wish = WishReader(*book, evaluation.where, options).read();
    if (options.fault()) return *options.fault();
    const PlanBasis basis{*book,
                          evaluation.designs,
                          evaluation.figures,
                          evaluation.where,
                          *evaluation.model,
                          evaluation.lines,
                          evaluation.trials.checked};
    answer.plan = plan_work(basis, wish, progress);
    answer.confidence = confidence_of(*book);
    find_benchmarks(answer);
    gather(answer);
    return answer;
}

Result<QuickPlan> quick_plan(desk::Options& options) {
    QuickPlan quick;
    quick.unit = options.unit();
    const auto take = [&options](const char* name, double& to) {
        const Maybe given = above_0(options, name);
        if (given.has()) to = given.value;
    };
    take("tolerance", quick.tolerance);
    take("reading_sd", quick.kit.reading_sd);
    take("length", quick.length);
    take("at", quick.at);
    take("benchmark_sd", quick.kit.benchmark_sd);
    if (const std::optional<Gradient> tilt = options.gradient("tilt_sd")) quick.kit.tilt_sd = tilt->ratio();
    if (const std::optional<Gradient> grows = options.gradient("sd_per_m"))
        quick.kit.sd_per_m = grows->ratio();
    if (const std::optional<double> k = options.number("k")) quick.k = *k;
    if (const std::optional<double> degrees = options.number("temperature_difference"))
        quick.warm_up = warm_up_minutes(*degrees);
    if (!(quick.k > 0) || !(quick.kit.tilt_sd >= 0) || !(quick.kit.sd_per_m >= 0))
        options.refuse(
            bad_request({"k"}, "k must be above 0, and no uncertainty below it", "give k 2 for 95 %"));
    if (options.fault()) return *options.fault();
    return quick;
}

}  // namespace fallwright
