// landxml: LandXML 1.2, the open exchange format of roads, drains and ground, both ways.
//
// Written, and read again
//   CgPoints       points with a place; north, east and where known the level. Held ones are
//   pntSurv="control",
//                  measured ones "sideshot" with their standard deviation as a property, wanted ones
//                  state="proposed"
//   Alignments     lines: straight from corner to corner, or without plan geometry where the line has no
//   plan;
//                  their profile as PVI and ParaCurve. A profile that steps has two PVIs at one station
//   PipeNetworks   drains with a plan: a Struct at each chamber and each end of a pipe, with the inverts of
//                  the pipes that meet there; pipes run the way the water does
//   Surfaces       measured surfaces: points and triangles
// Read besides: curves of alignments (chords, below), feet and survey feet, inches and millimetres of pipes,
// networks without an alignment, that branch.
//
// Curves come over as chords. Interior corners lie a little outside of the circle, so that the chords are as
// long as the curve and chainages stay; no chord is farther than `chord` (1 mm) from the curve. Spirals,
// curves of a profile that are no parabolas about their corner, and stations that jump are refused, since
// what would come of them is not what was designed.
//
// The schema's text was not at hand: elements and attributes are after the pattern of LandXML 1.2 as other
// programs read and write it. Pure and total; limits as in xml_document.h.
#pragma once

#include <string>
#include <string_view>

#include "base/finding.h"
#include "exchange/handover/handover.h"
#include "exchange/xml/xml_document.h"

namespace fallwright::landxml {

struct Written {
    std::string text;
    Findings notes;  // what has no place in the format
};

// when: date and time of the file, "2026-05-04T08:30:00Z"; the day it begins with is its date.
Written write_landxml(const handover::Handover& from, std::string_view when);

struct Read {
    handover::Handover found;
    Findings findings;  // with an error there is nothing in `found` to use
};

// text: UTF-8 (text/text_decode.h). chord: how far a chord may lie off its curve, metres.
Read read_landxml(std::string_view text, double chord = 0.001, const xml::XmlLimits& limits = {});

// Whether a text looks like one: its root element is LandXML. Looks at the beginning only.
bool is_landxml(std::string_view text);

}  // namespace fallwright::landxml
