// xml_check: is a text well-formed in the small, for tests. Inside sheet only.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fallwright::sheet {

struct XmlSeen {
    std::string trouble;  // "" where all is well
    // Character data and values of attributes, as a reader takes them, in order.
    std::vector<std::string> texts;
    std::vector<std::string> tags;  // names of elements as they begin
};
// Elements balanced, attributes in double quotes and unique, no < or stray & in text, no control characters.
// With `html` elements without content (meta, br, hr ...) need not end and one <!DOCTYPE html> may stand
// first.
XmlSeen read_xml(std::string_view text, bool html = false);

}  // namespace fallwright::sheet
