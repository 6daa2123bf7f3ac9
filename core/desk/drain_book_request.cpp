#include "desk/drain_book_request.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "desk/asked.h"
#include "preset/bulking.h"
#include "preset/cover.h"

namespace fallwright {

using desk::bad_request;
using desk::entry_named;
using desk::length_above_0;

namespace {

constexpr double bare_millimetres = 10;  // a bore of a bare 10 m and more is meant in millimetres
constexpr int usual_grades = 3;

}  // namespace

DrainBookRequest::DrainBookRequest(const Book& book, desk::Options& options)
    : book_(book), options_(options) {
    options_.assume(book.unit);
}

std::size_t DrainBookRequest::line() {
    const std::optional<std::string> name = options_.text("line");
    if (!name) {
        if (options_.flag("follow")) refuse("line", "which line is to be followed is not said", "name it");
        return no_line;
    }
    return static_cast<std::size_t>(std::max(0, entry_named(book_, book_.lines, *name, "line", options_)));
}

drain::RunWish DrainBookRequest::run_wish() {
    drain::RunWish wish;
    wish.all_rules = true;
    wish.staff_asked = true;
    wish.setup = drain::standing_setup(book_);
    if (const std::optional<std::string> setup = options_.text("setup")) {
        const std::int32_t index = entry_named(book_, book_.setups, *setup, "set-up", options_);
        if (index >= 0) wish.setup = static_cast<std::size_t>(index);
    }
    if (const std::optional<std::string> rule = options_.text("rule")) {
        wish.held_to = preset::find_cleansing(*rule);
        if (wish.held_to == nullptr)
            refuse("rule", "there is no rule of self-cleansing named " + *rule,
                   "take a name from docs/methods/presets.md, or give fall_min");
    }
    return wish;
}

// Asked for; else nothing.
std::optional<drain::CoverRule> DrainBookRequest::cover() {
    if (const std::optional<std::string> name = options_.word("cover")) {
        const preset::CoverPreset* found = preset::find_cover(*name);
        if (found != nullptr) return drain::CoverRule{*name, found->least, found->source};
        refuse("cover", "there is no cover preset named " + *name, "give a length, or a name of presets.md");
    } else if (const std::optional<double> least = length_above_0(options_, "cover")) {
        return drain::CoverRule{"as asked", *least, {}};
    }
    return std::nullopt;
}

// Over what the book says.
void DrainBookRequest::trench(drain::TrenchRule& rule) {
    if (const std::optional<std::string> name = options_.word("width")) {
        rule.preset = preset::find_trench_width(*name);
        rule.name = *name;
        if (rule.preset == nullptr)
            refuse("width", "there is no trench width preset named " + *name,
                   "give a length, or a name of presets.md");
    } else if (const std::optional<double> width = length_above_0(options_, "width")) {
        rule.preset = nullptr;
        rule.width = *width;
        rule.name = "as asked";
    }
    if (const std::optional<double> batter = not_below_0("batter")) rule.batter = *batter;
    if (const std::optional<Length> surround = options_.length("surround"))
        rule.surround = std::fmax(0.0, surround->metres());
    spoil(rule);
}

drain::FollowWish DrainBookRequest::follow(std::size_t line, const drain::RunWish& run,
                                           const drain::CoverRule& cover, const drain::TrenchRule& trench,
                                           std::string& fall_from) {
    drain::FollowWish wish;
    wish.line = line;
    wish.trench = trench;
    wish.what = options_.text("what").value_or("");
    wish.cover = cover.least;
    if (std::isnan(cover.least))
        refuse("cover", "how much cover the pipe is to keep is not said",
               "give cover: a length, or a preset such as cover-highway");
    take_pipe(wish);
    take_falls(wish, run, fall_from);
    if (const std::optional<Length> level = options_.length("outfall")) wish.limits.outfall = level->metres();
    if (const std::optional<Length> level = options_.length("inlet")) wish.limits.inlet = level->metres();
    take_grades(wish);
    if (const std::optional<double> saving = not_below_0("saving")) wish.saving = std::fmin(*saving, 1);
    for (const Length& ch : options_.chainages("breaks")) wish.breaks.push_back(ch.metres());
    take_direction(wish);
    return wish;
}

void DrainBookRequest::refuse(const char* about, std::string message, std::string cure) {
    options_.refuse(bad_request({about}, std::move(message), std::move(cure)));
}

std::optional<double> DrainBookRequest::not_below_0(const char* name) {
    const std::optional<double> value = options_.number(name);
    if (value && *value < 0) refuse(name, std::string(name) + " must be 0 or more", "give a ratio");
    return value;
}

void DrainBookRequest::spoil(drain::TrenchRule& rule) {
    if (const std::optional<std::string> name = options_.word("spoil")) {
        const preset::BulkingPreset* found = preset::find_bulking(*name);
        if (found == nullptr) {
            refuse("spoil", "there is no bulking preset named " + *name,
                   "give a ratio such as 0.25, or a name of presets.md");
        } else {
            rule.bulking = found->ratio;
            rule.material = found->material;
        }
    } else if (options_.has("spoil")) {
        const std::optional<double> share = options_.share("spoil");
        rule.bulking = share ? *share : not_below_0("spoil").value_or(NAN);
        rule.material = "as asked";
    }
    const std::optional<double> load = options_.number("load");
    if (load && !(*load > 0)) refuse("load", "load must be above 0", "give what one lorry takes, loose");
    const double m = book_.metres_per_unit();
    if (load) rule.load = *load * m * m * m;
}

void DrainBookRequest::take_pipe(drain::FollowWish& wish) {
    const std::vector<Pipe>& pipes = book_.lines[wish.line].pipes;
    if (!pipes.empty()) wish.pipe = pipes.front();
    if (const std::optional<double> bore = length_above_0(options_, "bore")) {
        const bool millimetres =
            book_.unit == Unit::Metre && options_.bare("bore") && *bore >= bare_millimetres;
        wish.pipe.bore.value = millimetres ? *bore / 1000 : *bore;
    }
    if (const std::optional<Length> wall = options_.length("wall")) wish.pipe.wall.value = wall->metres();
    if (const std::optional<Length> bed = options_.length("bedding")) wish.pipe.bedding.value = bed->metres();
    if (!wish.pipe.bore.has())
        refuse("bore", "the bore of the pipe is not said", "give bore, or pipes in the line");
}

void DrainBookRequest::take_falls(drain::FollowWish& wish, const drain::RunWish& run,
                                  std::string& fall_from) {
    const std::optional<Gradient> least = options_.fall("fall_min");
    const std::optional<Gradient> most = options_.fall("fall_max");
    if (most) wish.limits.steepest_fall = most->ratio();
    if (least) {
        wish.limits.least_fall = least->ratio();
    } else if (wish.pipe.bore.has() && !options_.fault()) {
        by_rule(wish, run, fall_from);
    }
    if (wish.limits.least_fall < 0)
        refuse("fall_min", "the least fall must not rise", "give it positive the way the water runs");
    if (wish.limits.steepest_fall < wish.limits.least_fall)
        refuse("fall_max", "the steepest fall is flatter than the least one",
               "exchange them, or correct one");
}

// The largest least fall of the rules the job is held to.
void DrainBookRequest::by_rule(drain::FollowWish& wish, const drain::RunWish& run, std::string& fall_from) {
    const drain::Job job = drain::job_of(book_);
    drain::CleansingCase asked;
    asked.bore = wish.pipe.bore.value;
    asked.fall = 0.01;  // whichever: what a rule wants does not depend on it
    asked.friction = drain::friction_of(job, wish.pipe);
    asked.flow = job.flow;
    asked.closets = job.closets;
    wish.limits.least_fall = -1;
    const auto take = [&](const preset::CleansingRule& rule) {
        const drain::CleansingVerdict verdict = drain::hold_against(rule, asked, book_.unit);
        // Written so that a rule that does not speak of the pipe (NaN) wants nothing.
        if (!(verdict.wants_fall > wish.limits.least_fall)) return;
        wish.limits.least_fall = verdict.wants_fall;
        fall_from = rule.title;
    };
    for (const preset::CleansingRule& own : job.own) take(own);
    const preset::CleansingRule* held = run.held_to != nullptr ? run.held_to : job.held_to;
    if (held != nullptr) take(*held);
    if (wish.limits.least_fall < 0)
        options_.refuse(bad_request({"fall_min"}, "the least fall of the pipe is not said",
                                    "give fall_min, or a rule that speaks of this bore"));
}

void DrainBookRequest::take_grades(drain::FollowWish& wish) {
    const double grades = options_.number("grades").value_or(usual_grades);
    if (!(grades >= 1 && grades <= drain::most_grades) || grades != std::floor(grades)) {
        refuse("grades", "grades must be a whole number from 1 to " + std::to_string(drain::most_grades),
               "give how many falls the pipe may have");
        return;
    }
    wish.limits.grades = static_cast<int>(grades);
}

void DrainBookRequest::take_direction(drain::FollowWish& wish) {
    const std::string direction = options_.text("direction").value_or("");
    if (direction == "with") {
        wish.flow = Flow::With;
    } else if (direction == "against") {
        wish.flow = Flow::Against;
    } else if (!direction.empty()) {
        refuse("direction", "the water runs with or against the chainage", "write with or against");
    }
}

std::vector<std::size_t> DrainBookRequest::lines(std::size_t line, bool follow) {
    std::vector<std::size_t> lines;
    for (std::size_t i = 0; i < book_.lines.size(); ++i) {
        const bool pipes = !(book_.lines[i].pipes.empty() && book_.lines[i].chambers.empty());
        if (line == no_line ? drain::is_run(book_.lines[i]) : i == line && pipes) lines.push_back(i);
    }
    if (!lines.empty() || follow) return lines;
    if (line == no_line) {
        options_.refuse(bad_request({"line"},
                                    "the book has no line for use as a drain with pipes or chambers",
                                    "add one, or name a line and ask for the pipe that follows it (follow)"));
    } else {
        options_.refuse(bad_request({book_.name(book_.lines[line].name)},
                                    "that line has no pipes and no chambers",
                                    "give it pipes, or ask for the pipe that follows it (follow)"));
    }
    return lines;
}

}  // namespace fallwright
