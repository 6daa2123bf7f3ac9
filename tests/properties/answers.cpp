#include "properties/answers.h"

#include <rapidcheck.h>

#include <cmath>
#include <memory>
#include <utility>

#include "desk/desk.h"

namespace fallwright::properties {

Evaluation evaluated(const std::string& text) {
    Result<std::unique_ptr<Book>> read = read_book(text);
    RC_ASSERT(static_cast<bool>(read));
    return evaluate(std::shared_ptr<const Book>(std::move(*read)));
}

Evaluation evaluated(const RandomBook& book) {
    const std::string text = book.text();
    RC_LOG(text);
    return evaluated(text);
}

std::string answer_to(const std::string& text, const std::string& verb) {
    const Json request = {{"verb", verb}, {"book", text}};
    return desk::answer(request.dump());
}

Json answer_json(const RandomBook& book) {
    const std::string text = book.text();
    RC_LOG(text);
    return Json::parse(answer_to(text));
}

std::map<std::string, PointLevel> levels_of(const Evaluation& evaluation) {
    std::map<std::string, PointLevel> levels;
    const Model& model = *evaluation.model;
    for (std::size_t i = 0; i < model.points.size(); ++i)
        levels[evaluation.book->name(model.points.name(i))] = model.levels[i];
    return levels;
}

bool same(double a, double b, double tolerance) {
    if (std::isnan(a) || std::isnan(b)) return std::isnan(a) && std::isnan(b);
    return std::fabs(a - b) <= tolerance;
}

bool alike(double a, double b, double relative) {
    return same(a, b, relative * std::fmax(std::fabs(a), std::fabs(b)) + 1e-12);
}

bool same_levels(const std::map<std::string, PointLevel>& a, const std::map<std::string, PointLevel>& b) {
    if (a.size() != b.size()) return false;
    for (const auto& [name, level] : a) {
        const auto found = b.find(name);
        if (found == b.end()) return false;
        const PointLevel& other = found->second;
        if (!same(level.level, other.level, 1e-9) || !alike(level.sd, other.sd, 1e-7)) return false;
        if (level.readings != other.readings || level.checked != other.checked) return false;
    }
    return true;
}

}  // namespace fallwright::properties
