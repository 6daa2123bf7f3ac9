#include <cmath>

#include "exchange/landxml/context.h"
#include "exchange/landxml/landxml.h"

namespace fallwright::landxml {

namespace {

using xml::Element;

// Networks lie on alignments, wherever in the file these stand.
void read_parts(Context& context, double chord, handover::Handover& to) {
    const xml::XmlDocument& document = context.document;
    const auto each = [&](std::string_view name, auto work) {
        for (const Element* part = document.first(document.root()); part != nullptr;
             part = document.next(*part)) {
            if (part->name == name) work(*part);
        }
    };
    each("Project", [&](const Element& project) { to.title = context.text(project, "name"); });
    each("CgPoints", [&](const Element& points) { read_points(context, points, to); });
    each("Alignments", [&](const Element& alignments) { read_alignments(context, alignments, chord, to); });
    each("PipeNetworks", [&](const Element& networks) { read_networks(context, networks, to); });
    each("Surfaces", [&](const Element& surfaces) { read_surfaces(context, surfaces, to); });
    for (const char* other : {"Parcels", "PlanFeatures", "Roadways", "GradeModel", "Survey", "Monuments"}) {
        each(other, [&](const Element& part) {
            context.note(Code::ImportNotUsed, part, std::string(other) + " are not taken");
        });
    }
}

}  // namespace

Read read_landxml(std::string_view text, double chord, const xml::XmlLimits& limits) {
    Read read;
    const Result<xml::XmlDocument> document = xml::XmlDocument::read(text, limits);
    if (!document) {
        read.findings.push_back(document.finding());
        return read;
    }
    Context context(*document);
    const Element& root = document->root();
    if (root.name != "LandXML") {
        read.findings.push_back(finding(Code::ImportXml, {"line " + std::to_string(root.line)},
                                        "the file is " + std::string(root.name) + ", not LandXML"));
        return read;
    }
    context.read_units();
    if (!context.failed()) {
        read.found.unit = context.feet ? Unit::Foot : Unit::Metre;
        read_parts(context, chord, read.found);
    }
    read.findings = std::move(context.findings);
    if (context.survey_feet && !context.failed())
        read.findings.push_back(finding(
            Code::ImportConverted, {},
            "the file is in US survey feet; every length, coordinates too, is converted (2,000,000 of "
            "the file's feet are 2,000,004 of 0.3048 m)"));
    if (!context.failed() && !read.found.any())
        read.findings.push_back(finding(Code::ImportEmpty, {},
                                        "the file holds no points, alignments, pipes or surfaces",
                                        "export what is to be handed over, and look into the file"));
    return read;
}

bool is_landxml(std::string_view text) {
    constexpr std::size_t head = 4096;
    const std::string_view begin = text.substr(0, head);
    return begin.find("<LandXML") != std::string_view::npos ||
           begin.find(":LandXML") != std::string_view::npos;
}

}  // namespace fallwright::landxml
