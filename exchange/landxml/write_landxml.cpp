#include <algorithm>

#include "base/print.h"
#include "exchange/handover/network.h"
#include "exchange/landxml/landxml.h"
#include "exchange/xml/xml_out.h"

namespace fallwright::landxml {

namespace {

using handover::EastNorth;
using handover::known;
using handover::Line;
using handover::Network;
using handover::network_of;
using handover::Node;
using handover::Standing;
using handover::Stretch;
using xml::XmlOut;

class Writer {
  public:
    Writer(const handover::Handover& from, std::string_view when) : from_(from), when_(when) {}

    Written all() {
        out_.begin("LandXML").attribute("xmlns", "http://www.landxml.org/schema/LandXML-1.2");
        out_.attribute("version", "1.2").attribute("date", when_.substr(0, when_.find('T')));
        const std::size_t time = when_.find('T');
        if (time != std::string_view::npos) out_.attribute("time", when_.substr(time + 1));
        out_.attribute("language", "English").attribute("readOnly", "false");
        units();
        out_.begin("Project").attribute("name", from_.title.empty() ? "book" : from_.title);
        if (!from_.datum.empty()) out_.attribute("desc", "levels on " + from_.datum);
        out_.end();
        out_.begin("Application")
            .attribute("name", "Fallwright")
            .attribute("version", FALLWRIGHT_VERSION)
            .end();
        points();
        alignments();
        networks();
        surfaces();
        out_.end();
        return {out_.take(), std::move(notes_)};
    }

  private:
    bool feet() const { return from_.unit == Unit::Foot; }
    double in_unit(double metres) const { return feet() ? metres / metres_per_foot : metres; }
    std::string length(double metres) const { return trimmed(in_unit(metres), length_places); }
    // North before east, as the format has it.
    std::string place(double e, double n) const { return length(n) + " " + length(e); }
    void number(std::string_view name, double metres) {
        out_.attribute(name, in_unit(metres), length_places);
    }
    void note(std::string message) { notes_.push_back(finding(Code::ExportLeftOut, {}, std::move(message))); }

    void units() {
        out_.begin("Units").begin(feet() ? "Imperial" : "Metric");
        out_.attribute("areaUnit", feet() ? "squareFoot" : "squareMeter");
        out_.attribute("linearUnit", feet() ? "foot" : "meter");
        out_.attribute("volumeUnit", feet() ? "cubicFeet" : "cubicMeter");
        out_.attribute("temperatureUnit", feet() ? "fahrenheit" : "celsius");
        out_.attribute("pressureUnit", feet() ? "inchHG" : "HPA");
        out_.attribute("diameterUnit", feet() ? "foot" : "meter");
        out_.attribute("angularUnit", "decimal degrees").attribute("directionUnit", "decimal degrees");
        out_.end().end();
    }

    void points() {
        std::size_t unplaced = 0;
        bool open = false;
        for (const handover::Point& point : from_.points) {
            if (!point.placed()) {
                ++unplaced;
                continue;
            }
            if (!open) out_.begin("CgPoints");
            open = true;
            this->point(point);
        }
        if (open) out_.end();
        if (unplaced > 0)
            note(std::to_string(unplaced) + (unplaced == 1 ? " point has" : " points have") +
                 " no place on the grid, which LandXML wants");
    }

    void point(const handover::Point& point) {
        const bool wanted = point.standing == Standing::Wanted;
        out_.begin("CgPoint").attribute("name", point.name);
        if (!point.note.empty()) out_.attribute("desc", point.note);
        out_.attribute("state", wanted ? "proposed" : "existing");
        if (!wanted) out_.attribute("pntSurv", point.standing == Standing::Held ? "control" : "sideshot");
        out_.text(place(point.e, point.n) + (known(point.level) ? " " + length(point.level) : std::string()));
        if (point.standing == Standing::Measured && known(point.level) && known(point.sd)) {
            out_.begin("Feature").attribute("code", "fallwright").begin("Property").attribute("label", "sd");
            out_.attribute("value", length(point.sd)).end().end();
        }
        out_.end();
    }

    void alignments() {
        bool open = false;
        for (const Line& line : from_.lines) {
            if (line.plan.size() < 2 && line.profile.empty()) continue;
            if (!open) out_.begin("Alignments");
            open = true;
            alignment(line);
        }
        if (open) out_.end();
    }

    void alignment(const Line& line) {
        double length = 0;
        for (std::size_t i = 1; i < line.plan.size(); ++i)
            length += std::hypot(line.plan[i].e - line.plan[i - 1].e, line.plan[i].n - line.plan[i - 1].n);
        if (line.plan.empty()) length = line.profile.back().ch - line.profile.front().ch;
        out_.begin("Alignment").attribute("name", line.name);
        number("length", length);
        number("staStart", line.plan.empty() ? line.profile.front().ch : line.start);
        if (!line.use.empty()) out_.attribute("desc", line.use);
        if (!line.plan.empty()) geometry(line);
        if (!line.profile.empty()) profile(line);
        out_.end();
    }

    void geometry(const Line& line) {
        out_.begin("CoordGeom").attribute("name", line.name);
        for (std::size_t i = 1; i < line.plan.size(); ++i) {
            const EastNorth& a = line.plan[i - 1];
            const EastNorth& b = line.plan[i];
            out_.begin("Line");
            number("length", std::hypot(b.e - a.e, b.n - a.n));
            out_.begin("Start").text(place(a.e, a.n)).end().begin("End").text(place(b.e, b.n)).end().end();
        }
        out_.end();
    }

    void pvi(double ch, double level) { out_.begin("PVI").text(length(ch) + " " + length(level)).end(); }

    void profile(const Line& line) {
        out_.begin("Profile").attribute("name", line.name);
        out_.begin("ProfAlign").attribute("name", line.name).attribute("state", "proposed");
        for (const handover::Corner& corner : line.profile) {
            if (corner.curve != 0) {
                out_.begin("ParaCurve");
                number("length", corner.curve);
                out_.text(length(corner.ch) + " " + length(corner.before)).end();
                continue;
            }
            // Beyond its ends there is no profile.
            const bool first = &corner == &line.profile.front(), last = &corner == &line.profile.back();
            if (!first) pvi(corner.ch, corner.before);
            if (first || (corner.after != corner.before && !last)) pvi(corner.ch, corner.after);
        }
        out_.end().end();
    }

    void networks() {
        bool open = false;
        for (const Line& line : from_.lines) {
            if (line.pipes.empty() && line.chambers.empty()) continue;
            const std::optional<Network> network = network_of(line);
            if (!network) {
                note("the pipes and chambers of " + line.name +
                     ": a network wants a plan, pipes and their inverts");
                continue;
            }
            if (!open) out_.begin("PipeNetworks").attribute("name", "drains");
            open = true;
            this->network(line, *network);
        }
        if (open) out_.end();
    }

    void network(const Line& line, const Network& network) {
        const bool with = line.flow != Line::Flow::Against;
        out_.begin("PipeNetwork").attribute("name", line.name).attribute("pipeNetType", "other");
        out_.attribute("alignmentRef", line.name).begin("Structs");
        for (std::size_t i = 0; i < network.nodes.size(); ++i) structure(network, i, with);
        out_.end().begin("Pipes");
        for (const Stretch& part : network.stretches) {
            const Node& from = network.nodes[with ? part.from : part.to];
            const Node& to = network.nodes[with ? part.to : part.from];
            out_.begin("Pipe").attribute("name", part.name).attribute("refStart", from.name);
            out_.attribute("refEnd", to.name).begin("CircPipe");
            number("diameter", known(part.pipe->bore) ? part.pipe->bore : 0);
            if (known(part.pipe->wall)) number("thickness", part.pipe->wall);
            out_.end().end();
        }
        out_.end().end();
    }

    void structure(const Network& network, std::size_t index, bool with) {
        const Node& node = network.nodes[index];
        const handover::Chamber* chamber = node.chamber;
        out_.begin("Struct").attribute("name", node.name);
        out_.attribute("desc", chamber == nullptr ? "pipes meet" : "chamber");
        if (chamber != nullptr && known(chamber->cover)) number("elevRim", chamber->cover);
        out_.begin("Center").text(place(node.e, node.n)).end();
        if (chamber != nullptr && known(chamber->size)) {
            out_.begin("CircStruct");
            number("diameter", chamber->size);
            out_.end();
        } else {
            out_.begin("Connection").end();
        }
        for (const Stretch& part : network.stretches) {
            if (part.from != index && part.to != index) continue;
            const bool leaves = (part.from == index) == with;
            out_.begin("Invert");
            number("elev", part.from == index ? part.from_level : part.to_level);
            out_.attribute("flowDir", leaves ? "out" : "in").attribute("refPipe", part.name).end();
        }
        out_.end();
    }

    void surfaces() {
        if (from_.surfaces.empty()) return;
        out_.begin("Surfaces");
        for (const handover::Surface& surface : from_.surfaces) this->surface(surface);
        out_.end();
    }

    void surface(const handover::Surface& surface) {
        out_.begin("Surface").attribute("name", surface.name);
        const auto spot = [&](const handover::Spot& at) {
            return place(at.e, at.n) + " " + length(at.level);
        };
        if (!surface.breaklines.empty()) {
            out_.begin("SourceData").begin("Breaklines");
            for (const std::vector<std::int32_t>& chain : surface.breaklines) {
                std::string places;
                for (const std::int32_t at : chain) {
                    if (!places.empty()) places += ' ';
                    places += spot(surface.spots[static_cast<std::size_t>(at)]);
                }
                out_.begin("Breakline").attribute("brkType", "standard").begin("PntList3D").text(places);
                out_.end().end();
            }
            out_.end().end();
        }
        out_.begin("Definition").attribute("surfType", "TIN").begin("Pnts");
        for (std::size_t i = 0; i < surface.spots.size(); ++i)
            out_.begin("P").attribute("id", std::to_string(i + 1)).text(spot(surface.spots[i])).end();
        out_.end().begin("Faces");
        for (const std::array<std::int32_t, 3>& face : surface.faces)
            out_.begin("F")
                .text(std::to_string(face[0] + 1) + " " + std::to_string(face[1] + 1) + " " +
                      std::to_string(face[2] + 1))
                .end();
        out_.end().end().end();
    }

    const handover::Handover& from_;
    std::string_view when_;
    XmlOut out_;
    Findings notes_;
};

}  // namespace

Written write_landxml(const handover::Handover& from, std::string_view when) {
    return Writer(from, when).all();
}

}  // namespace fallwright::landxml
