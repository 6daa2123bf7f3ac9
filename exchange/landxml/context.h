// context: what all parts of reading LandXML share: units, and refusing an element. Inside landxml only.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/finding.h"
#include "exchange/handover/handover.h"
#include "exchange/xml/xml_document.h"

namespace fallwright::landxml {

// Metres in one unit of the file.
struct Scales {
    double linear = 1, elevation = 1, diameter = 1;
};

class Context {
  public:
    explicit Context(const xml::XmlDocument& read) : document(read) {}

    // From the element Units; refuses what it does not know. feet: the file is in feet of some kind.
    void read_units();
    bool feet = false, survey_feet = false;
    Scales scale;

    // "line 12", "Pipe P1": how findings name an element.
    std::vector<std::string> about(const xml::Element& element) const;
    void refuse(const xml::Element& element, std::string message, std::string cure = {});
    void note(Code code, const xml::Element& element, std::string message);
    bool failed() const { return failed_; }

    // Text of an attribute; empty where it is not there.
    std::string text(const xml::Element& element, std::string_view name) const;
    // A number times a scale; unknown where it is absent; refused where it is no number or beyond what can
    // be.
    double number(const xml::Element& element, std::string_view name, double by);
    // North and east (and a level) as the content of an element; refused where it is no such thing.
    struct Place {
        double e = handover::unknown, n = handover::unknown, level = handover::unknown;
    };
    std::optional<Place> place(const xml::Element& element);
    // North and east of every point of a list; of 3 numbers the third is a level.
    std::vector<handover::EastNorth> places_in(const xml::Element& list, std::size_t numbers);
    // Two numbers: a station and a level.
    std::optional<std::pair<double, double>> station_level(const xml::Element& element);

    const xml::XmlDocument& document;
    Findings findings;

  private:
    double unit(const xml::Element& element, std::string_view name, double otherwise);
    bool failed_ = false;
    std::size_t refused_ = 0;
};

void read_points(Context& context, const xml::Element& points, handover::Handover& to);
void read_alignments(Context& context, const xml::Element& alignments, double chord, handover::Handover& to);
// Lines of that name that are there already get the pipes.
void read_networks(Context& context, const xml::Element& networks, handover::Handover& to);
void read_surfaces(Context& context, const xml::Element& surfaces, handover::Handover& to);

}  // namespace fallwright::landxml
