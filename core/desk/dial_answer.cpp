#include "desk/dial_answer.h"

#include <algorithm>
#include <utility>

namespace fallwright {

namespace {

Finding bad_request(std::vector<std::string> about, std::string message, std::string cure) {
    return finding(Code::BadRequest, std::move(about), std::move(message), std::move(cure));
}

// What was asked, looked up in the book.
struct Asked {
    std::int32_t line = -1, setup = -1;
    NameId surface = no_name;
    std::vector<NameId> points;
    double crossfall = 0;
};

std::int32_t find_setup(const Book& book, desk::Options& options) {
    const std::optional<std::string> name = options.text("setup");
    const std::int32_t setup = name ? ByName(book.setups)(book.names.find(*name)) : -1;
    if (!name) {
        options.refuse(bad_request({"setup"}, "which set-up the laser stands in is not said",
                                   "name a set-up of the book"));
    } else if (setup < 0) {
        options.refuse(
            bad_request({*name}, "set-up " + *name + " is not in the book", "name a set-up of the book"));
    }
    return setup;
}

std::int32_t find_line(const Book& book, const std::string& name, desk::Options& options) {
    const std::int32_t line = ByName(book.lines)(book.names.find(name));
    if (line < 0)
        options.refuse(
            bad_request({name}, "line " + name + " is not in the book", "name a line of the book"));
    return line;
}

NameId find_surface(const Book& book, const std::string& name, desk::Options& options) {
    if (ByName(book.surfaces)(book.names.find(name)) < 0)
        options.refuse(
            bad_request({name}, "surface " + name + " is not in the book", "name a surface of the book"));
    return book.names.find(name);
}

std::vector<NameId> find_points(const Book& book, const std::vector<std::string>& names,
                                desk::Options& options) {
    std::vector<NameId> points;
    for (const std::string& name : names) {
        const NameId point = book.names.find(name);
        if (point == no_name)
            options.refuse(
                bad_request({name}, "point " + name + " is not in the book", "name points of the book"));
        if (std::find(points.begin(), points.end(), point) != points.end())
            options.refuse(bad_request({name}, "point " + name + " is named twice", "name each point once"));
        points.push_back(point);
    }
    return points;
}

Asked read_asked(const Book& book, desk::Options& options) {
    Asked asked;
    asked.setup = find_setup(book, options);
    const std::optional<std::string> line = options.text("line");
    const std::vector<std::string> points = options.texts("points");
    const std::optional<std::string> surface = options.text("surface");
    if (surface && (line || !points.empty())) {
        options.refuse(
            bad_request({"surface"}, "surface and line or points are given together", "keep one of them"));
    } else if (line && !points.empty()) {
        options.refuse(
            bad_request({"line", "points"}, "line and points are given together", "keep one of the two"));
    } else if (line) {
        asked.line = find_line(book, *line, options);
    } else if (surface) {
        asked.surface = find_surface(book, *surface, options);
    } else if (points.size() < 2) {
        options.refuse(bad_request({"line"}, "what the laser is to follow is not said",
                                   "name a line, a surface, or two points or more"));
    }
    asked.points = find_points(book, points, options);
    if (const std::optional<Gradient> crossfall = options.gradient("crossfall")) {
        asked.crossfall = crossfall->ratio();
        if (points.size() != 2)
            options.refuse(bad_request({"crossfall"}, "a crossfall goes with two points",
                                       "name two points, or leave the crossfall to the line or the plane"));
    }
    return asked;
}

}  // namespace

DialBasis dial_basis(const Evaluation& evaluation) {
    return {*evaluation.book, evaluation.designs, evaluation.where, *evaluation.model};
}

namespace {

// A surface that cannot be made, or has no plane, has said so in the book's findings.
Dials dial_asked(const DialBasis& basis, const Evaluation& evaluation, const Asked& asked) {
    const auto setup = static_cast<std::size_t>(asked.setup);
    if (asked.line >= 0) return dial_line(basis, static_cast<std::size_t>(asked.line), setup);
    if (asked.surface == no_name) return dial_points(basis, asked.points, asked.crossfall, setup);
    for (const DialSurface& surface : dial_surfaces(evaluation)) {
        if (surface.name == asked.surface) return dial_surface(basis, surface, setup);
    }
    return {};
}

}  // namespace

Result<DialAnswer> dial_of(const std::shared_ptr<const Book>& book, desk::Options& options) {
    const Asked asked = read_asked(*book, options);
    if (options.fault()) return *options.fault();
    DialAnswer answer;
    answer.evaluation = std::make_shared<const Evaluation>(evaluate(book));
    const DialBasis basis = dial_basis(*answer.evaluation);
    answer.dials = dial_asked(basis, *answer.evaluation, asked);
    answer.findings = answer.evaluation->findings;
    for (const Finding& found : answer.dials.findings) {
        // A line the book wants a table of has said so already.
        const bool said =
            std::any_of(answer.findings.begin(), answer.findings.end(), [&found](const Finding& each) {
                return each.code == found.code && each.message == found.message;
            });
        if (!said) answer.findings.push_back(found);
    }
    return answer;
}

}  // namespace fallwright
