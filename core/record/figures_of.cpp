#include "record/figures_of.h"

#include <iterator>
#include <string>

namespace fallwright::record {

namespace {

using Of = FigureKind::Of;

Finding bad_request(std::string about, std::string message, std::string cure) {
    return finding(Code::BadRequest, {std::move(about)}, std::move(message), std::move(cure));
}

using OfLine = std::vector<sheet::Figure> (*)(const Evaluation&, std::size_t, Room);

// nullptr: of the book as a whole.
OfLine drawer_of(std::string_view name) {
    if (name == "long-section") return long_section;
    if (name == "cross-sections") return cross_sections;
    if (name == "deviations") return deviation_strip;
    if (name == "trench") return trench_sections;
    if (name == "surface") return surface_plan;
    if (name == "rod") return rod_cards;
    if (name == "pegs") return peg_cards;
    return nullptr;
}

std::string all_names() {
    std::string names;
    for (const FigureKind& kind : figure_kinds())
        names += (names.empty() ? "" : ", ") + std::string(kind.name);
    return names;
}

template <class Entries>
Result<std::vector<std::size_t>> chosen(const Book& book, const Entries& entries, std::string_view subject,
                                        const std::string& kind) {
    std::vector<std::size_t> indices;
    for (std::size_t i = 0; i < entries.size(); ++i) {
        if (subject.empty() || book.names.text(entries[i].name) == subject) indices.push_back(i);
    }
    if (indices.empty() && !subject.empty())
        return bad_request(std::string(subject), kind + " " + std::string(subject) + " is not in the book",
                           "name a " + kind + " of the book");
    return indices;
}

}  // namespace

const std::vector<FigureKind>& figure_kinds() {
    static const std::vector<FigureKind> kinds = {
        {"long-section", Of::Line, "a line with a design, its ground or something laid on it"},
        {"cross-sections", Of::Line, "a line with readings beside it or with a crossfall"},
        {"deviations", Of::Line,
         "a line on which something laid was read, with a design or enough for a fit"},
        {"trench", Of::Line, "a line with pipes that have a bore, and its ground"},
        {"plan", Of::Book, "points, lines or set-ups with a place"},
        {"network", Of::Book, "readings or steps"},
        {"surface", Of::Surface, "a measured surface of three points or more"},
        {"rod", Of::Line, "a line with pipes or layers, so that two surfaces lie over one another"},
        {"pegs", Of::Line, "a line with a design and pegs read on it"},
    };
    return kinds;
}

Result<std::vector<sheet::Figure>> figures_of(const Evaluation& evaluation, std::string_view name,
                                              std::string_view subject, Room room) {
    const Book& book = *evaluation.book;
    for (const FigureKind& kind : figure_kinds()) {
        if (kind.name != name) continue;
        std::vector<sheet::Figure> figures;
        if (kind.of == Of::Book) {
            figures = name == "plan" ? plan_of(evaluation, room) : network(evaluation, room);
        } else {
            const Result<std::vector<std::size_t>> indices =
                kind.of == Of::Line ? chosen(book, book.lines, subject, "line")
                                    : chosen(book, book.surfaces, subject, "surface");
            if (!indices) return indices.finding();
            for (const std::size_t index : *indices) {
                std::vector<sheet::Figure> more = drawer_of(name)(evaluation, index, room);
                figures.insert(figures.end(), std::make_move_iterator(more.begin()),
                               std::make_move_iterator(more.end()));
            }
        }
        if (!figures.empty()) return figures;
        return bad_request(std::string(subject.empty() ? name : subject),
                           "there is nothing to draw for " + std::string(name),
                           "it needs " + std::string(kind.needs));
    }
    return bad_request("figure", "there is no drawing " + std::string(name), "name one of " + all_names());
}

}  // namespace fallwright::record
