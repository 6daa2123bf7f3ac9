// xml_document: XML text -> its elements, in time and memory that grow with the text alone.
//
// What other programs hand over is XML 1.0 without a document type: elements, attributes, text, comments,
// processing instructions, CDATA, the five entities every reader knows (lt, gt, amp, quot, apos) and
// characters by number. A document type is refused, since only through it could a short file become a long
// one (entities within entities) or ask for other files. Prefixes of names are dropped: <land:Pipe> is Pipe.
//
// Text is UTF-8 and free of zero bytes (text/text_decode.h). Refused with the line: what is not well formed,
// and what passes a limit. Pure, no recursion, total over every text. Checked against another parser
// (tests/exchange) for what it takes and what it refuses. Why it is ours: docs/decisions.
#pragma once

#include <cstdint>
#include <deque>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace fallwright::xml {

// Beyond one of these the file is refused.
struct XmlLimits {
    std::size_t bytes = std::size_t{64} << 20;
    std::size_t elements = 3000000;
    std::size_t depth = 64;
    std::size_t attributes = 64;  // of one element
};

struct Attribute {
    std::string_view name;  // without its prefix
    std::string_view value;
};

using Index = std::uint32_t;
constexpr Index none = UINT32_MAX;

// One element. Indices lead into XmlDocument::elements and ::attributes.
struct Element {
    std::string_view name;  // without its prefix
    std::string_view text;  // what stands directly in it, before its first child
    Index first_attribute = 0, attributes = 0;
    Index parent = none, first_child = none, next = none;  // next: of the same parent
    Index line = 0;                                        // from 1, where its tag begins
};

class XmlDocument {
  public:
    // The text must outlive the document: names, values and texts point into it.
    static Result<XmlDocument> read(std::string_view text, const XmlLimits& limits = {});

    const Element& root() const { return elements_.front(); }
    const Element& at(Index element) const { return elements_[element]; }
    std::size_t size() const { return elements_.size(); }
    // The value of an attribute; nothing where it is not there.
    std::optional<std::string_view> attribute(const Element& element, std::string_view name) const;
    // The first child of that name; nullptr where there is none.
    const Element* child(const Element& element, std::string_view name) const;
    // The next sibling of any name; nullptr at the end. first() is the first child.
    const Element* first(const Element& element) const { return pointer(element.first_child); }
    const Element* next(const Element& element) const { return pointer(element.next); }

  private:
    friend class Reading;
    const Element* pointer(Index element) const { return element == none ? nullptr : &elements_[element]; }

    std::vector<Element> elements_;  // in the order of their tags, the root first
    std::vector<Attribute> attributes_;
    std::deque<std::string> owned_;  // texts and values that hold entities
};

// The encoding that an XML declaration at the beginning names, as written; empty where none does. Bytes, in
// any encoding that holds ASCII.
std::string_view declared_encoding(std::string_view bytes);

}  // namespace fallwright::xml
