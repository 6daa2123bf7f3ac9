#include <array>
#include <string>
#include <unordered_map>

#include "exchange/landxml/context.h"

namespace fallwright::landxml {

namespace {

using xml::Element;

// The words of a text, up to `most`; more make none.
std::vector<std::string> words_of(std::string_view text, std::size_t most) {
    std::vector<std::string> words;
    constexpr std::string_view blanks = " \t\r\n";
    for (std::size_t at = text.find_first_not_of(blanks); at != std::string_view::npos;) {
        const std::size_t end = std::min(text.find_first_of(blanks, at), text.size());
        if (words.size() == most) return {};
        words.emplace_back(text.substr(at, end - at));
        at = text.find_first_not_of(blanks, end);
    }
    return words;
}

class SurfaceReader {
  public:
    SurfaceReader(Context& context, const Element& element)
        : context_(context), document_(context.document), element_(element) {}

    handover::Surface read() {
        made_.name = context_.text(element_, "name");
        made_.line = element_.line;
        const Element* definition = document_.child(element_, "Definition");
        const Element* points = definition == nullptr ? nullptr : document_.child(*definition, "Pnts");
        const Element* faces = definition == nullptr ? nullptr : document_.child(*definition, "Faces");
        if (points == nullptr || faces == nullptr) {
            context_.refuse(element_, "it has no triangles", "export the surface with its points and faces");
            return made_;
        }
        for (const Element* each = document_.first(*points); each != nullptr; each = document_.next(*each)) {
            if (each->name == "P") point(*each);
        }
        for (const Element* each = document_.first(*faces); each != nullptr; each = document_.next(*each)) {
            if (each->name == "F") face(*each);
        }
        if (made_.faces.empty() && !context_.failed()) context_.refuse(element_, "it has no triangles");
        return std::move(made_);
    }

  private:
    void point(const Element& element) {
        const auto place = context_.place(element);
        if (!place) return;
        if (!handover::known(place->level)) return context_.refuse(element, "it has no level");
        const std::string id = context_.text(element, "id");
        if (!numbers_.emplace(id, static_cast<std::int32_t>(made_.spots.size())).second)
            return context_.refuse(element, "two points have the id " + id);
        made_.spots.push_back({id, place->e, place->n, place->level});
    }

    void face(const Element& element) {
        // Faces marked so hold the net together and are no part of the surface.
        if (context_.text(element, "i") == "1") return;
        constexpr std::size_t corners = 3;
        const std::vector<std::string> words = words_of(element.text, corners);
        if (words.size() != corners) return context_.refuse(element, "its content is not three points");
        std::array<std::int32_t, corners> face{};
        for (std::size_t i = 0; i < corners; ++i) {
            const auto found = numbers_.find(words[i]);
            if (found == numbers_.end()) return context_.refuse(element, "there is no point " + words[i]);
            face[i] = found->second;
        }
        const double twice = twice_area(face);
        if (twice < 0) std::swap(face[1], face[2]);
        // A face without an area, of points in line or one over the other, is no part of a surface.
        constexpr double least = 1e-7;
        if (std::fabs(twice) > least) made_.faces.push_back(face);
    }

    double twice_area(const std::array<std::int32_t, 3>& face) const {
        const auto& a = made_.spots[static_cast<std::size_t>(face[0])];
        const auto& b = made_.spots[static_cast<std::size_t>(face[1])];
        const auto& c = made_.spots[static_cast<std::size_t>(face[2])];
        return (b.e - a.e) * (c.n - a.n) - (b.n - a.n) * (c.e - a.e);
    }

    Context& context_;
    const xml::XmlDocument& document_;
    const Element& element_;
    handover::Surface made_;
    std::unordered_map<std::string, std::int32_t> numbers_;
};

}  // namespace

void read_surfaces(Context& context, const Element& surfaces, handover::Handover& to) {
    for (const Element* each = context.document.first(surfaces); each != nullptr;
         each = context.document.next(*each)) {
        if (each->name == "Surface") to.surfaces.push_back(SurfaceReader(context, *each).read());
    }
}

}  // namespace fallwright::landxml
