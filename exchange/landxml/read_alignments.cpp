#include <algorithm>
#include <array>
#include <cmath>

#include "base/print.h"
#include "exchange/landxml/context.h"
#include "exchange/landxml/curve.h"

namespace fallwright::landxml {

namespace {

using handover::EastNorth;
using handover::Line;
using xml::Element;

constexpr double same_place = 0.001;

class AlignmentReader {
  public:
    AlignmentReader(Context& context, const Element& element, double chord)
        : context_(context), document_(context.document), element_(element), chord_(chord) {}

    Line read() {
        line_.name = context_.text(element_, "name");
        line_.line = element_.line;
        const double start = context_.number(element_, "staStart", context_.scale.linear);
        line_.start = handover::known(start) ? start : 0;
        constexpr std::array<std::string_view, 5> uses = {"drain", "road", "kerb", "slab", "other"};
        const std::string use = context_.text(element_, "desc");
        if (std::find(uses.begin(), uses.end(), use) != uses.end()) line_.use = use;
        if (const Element* equation = document_.child(element_, "StaEquation"))
            context_.refuse(*equation, "stations of the alignment jump",
                            "export the alignment with stations that go on from its beginning");
        if (const Element* geometry = document_.child(element_, "CoordGeom")) this->geometry(*geometry);
        if (const Element* profile = document_.child(element_, "Profile")) this->profile(*profile);
        if (curves_ > 0)
            context_.note(Code::ImportChorded, element_,
                          std::to_string(curves_) + (curves_ == 1 ? " curve comes" : " curves come") +
                              " over as chords, none more than " + trimmed(chord_ * 1000, 1) +
                              " mm off; chainages are the curve's");
        return std::move(line_);
    }

  private:
    void geometry(const Element& geometry) {
        for (const Element* piece = document_.first(geometry); piece != nullptr;
             piece = document_.next(*piece)) {
            if (piece->name == "Line")
                straight(*piece);
            else if (piece->name == "Curve")
                curve(*piece);
            else if (piece->name == "IrregularLine")
                irregular(*piece);
            else if (piece->name != "Feature" && piece->name != "Start")
                context_.refuse(*piece, "a " + std::string(piece->name) + " is not taken",
                                "export the alignment with lines and circular curves only");
        }
        if (line_.plan.size() == 1) line_.plan.clear();
    }

    std::optional<EastNorth> place(const Element& of, std::string_view name) {
        const Element* element = document_.child(of, name);
        if (element == nullptr) {
            context_.refuse(of, "it has no " + std::string(name));
            return std::nullopt;
        }
        if (const auto ref = document_.attribute(*element, "pntRef"); ref && element->text.empty()) {
            context_.refuse(*element, "it refers to a point instead of giving its place",
                            "export the alignment with coordinates in every Start and End");
            return std::nullopt;
        }
        const auto found = context_.place(*element);
        if (!found) return std::nullopt;
        return EastNorth{found->e, found->n};
    }

    // Goes on from where the last piece ended.
    bool begin(const Element& piece, const EastNorth& at) {
        if (line_.plan.empty()) line_.plan.push_back(at);
        const EastNorth& last = line_.plan.back();
        const double gap = std::hypot(at.e - last.e, at.n - last.n);
        if (gap <= same_place) return true;
        context_.refuse(piece, "it begins " + trimmed(gap, 3) + " m from where the piece before it ends");
        return false;
    }

    void go_to(const EastNorth& at) {
        const EastNorth& last = line_.plan.back();
        if (std::hypot(at.e - last.e, at.n - last.n) > same_place / 10) line_.plan.push_back(at);
    }

    void straight(const Element& piece) {
        const auto start = place(piece, "Start"), end = place(piece, "End");
        if (start && end && begin(piece, *start)) go_to(*end);
    }

    void curve(const Element& piece) {
        const auto start = place(piece, "Start"), center = place(piece, "Center"), end = place(piece, "End");
        if (!start || !center || !end || !begin(piece, *start)) return;
        const std::string way = context_.text(piece, "rot");
        if (way != "cw" && way != "ccw") return context_.refuse(piece, "rot is neither cw nor ccw");
        const std::vector<EastNorth> corners = chords_of({*start, *center, *end, way == "cw"}, chord_);
        if (corners.empty())
            return context_.refuse(piece, "Start and End do not lie on one circle about Center");
        ++curves_;
        for (const EastNorth& corner : corners) go_to(corner);
    }

    void irregular(const Element& piece) {
        const auto start = place(piece, "Start"), end = place(piece, "End");
        if (!start || !end || !begin(piece, *start)) return;
        const Element* flat = document_.child(piece, "PntList2D");
        const Element* list = flat != nullptr ? flat : document_.child(piece, "PntList3D");
        if (list == nullptr) return context_.refuse(piece, "it has no list of points");
        for (const EastNorth& at : context_.places_in(*list, flat != nullptr ? 2 : 3)) go_to(at);
        go_to(*end);
    }

    void profile(const Element& profile) {
        const Element* wanted = nullptr;
        for (const Element* each = document_.first(profile); each != nullptr; each = document_.next(*each)) {
            if (each->name == "ProfSurf")
                context_.note(Code::ImportNotUsed, *each, "a profile of the ground is not taken");
            if (each->name != "ProfAlign") continue;
            if (wanted != nullptr)
                context_.note(Code::ImportNotUsed, *each,
                              "a second profile is not taken; the first one stands");
            else
                wanted = each;
        }
        if (wanted == nullptr) return;
        for (const Element* each = document_.first(*wanted); each != nullptr; each = document_.next(*each))
            corner(*each);
        check_order(*wanted);
    }

    void corner(const Element& element) {
        if (element.name == "Feature") return;
        if (element.name != "PVI" && element.name != "ParaCurve")
            return context_.refuse(element, "a " + std::string(element.name) + " is not taken",
                                   "export the profile with parabolas that are as long on both sides");
        const auto at = context_.station_level(element);
        if (!at) return;
        const double curve =
            element.name == "ParaCurve" ? context_.number(element, "length", context_.scale.linear) : 0.0;
        if (!(curve >= 0)) return context_.refuse(element, "it has no length");
        std::vector<handover::Corner>& profile = line_.profile;
        constexpr double same_station = 0.0005;
        if (!profile.empty() && std::fabs(profile.back().ch - at->first) < same_station) {
            profile.back().after = at->second;
            return;
        }
        if (!profile.empty() && at->first < profile.back().ch)
            return context_.refuse(element, "its station lies before the one above it");
        profile.push_back({at->first, at->second, at->second, curve});
    }

    void check_order(const Element& profile) {
        if (line_.profile.empty()) return context_.refuse(profile, "it has no PVI");
        if (line_.profile.front().curve != 0 || line_.profile.back().curve != 0)
            context_.refuse(profile, "it begins or ends with a curve, which has no grade on one side");
    }

    Context& context_;
    const xml::XmlDocument& document_;
    const Element& element_;
    double chord_;
    Line line_;
    std::size_t curves_ = 0;
};

}  // namespace

void read_alignments(Context& context, const Element& alignments, double chord, handover::Handover& to) {
    for (const Element* each = context.document.first(alignments); each != nullptr;
         each = context.document.next(*each)) {
        if (each->name == "Alignment") to.lines.push_back(AlignmentReader(context, *each, chord).read());
    }
}

}  // namespace fallwright::landxml
