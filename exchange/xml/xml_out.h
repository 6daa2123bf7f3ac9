// XmlOut: XML written as a stream, indented, numbers by the printing rule (base/print.h).
//
// Text and values are escaped; control characters, which XML 1.0 cannot hold, become spaces. Unbalanced calls
// are programmer errors.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fallwright::xml {

// Example:
//   XmlOut out;
//   out.begin("Units").begin("Metric").attribute("linearUnit", "meter").end().end();
//   out.take() is the declaration, then <Units> with <Metric linearUnit="meter"/> on a line of its own
class XmlOut {
  public:
    XmlOut();

    XmlOut& begin(std::string_view name);
    // Before any text or child of the element.
    XmlOut& attribute(std::string_view name, std::string_view value);
    // At most `places` decimals.
    XmlOut& attribute(std::string_view name, double value, int places);
    // The whole content of an element without children.
    XmlOut& text(std::string_view value);
    XmlOut& end();

    std::string take();

  private:
    void close_tag();
    void line(std::size_t depth);

    std::string out_;
    std::vector<std::string> open_;
    bool in_tag_ = false;    // the last tag still takes attributes
    bool has_text_ = false;  // so its end tag stands on the same line
};

}  // namespace fallwright::xml
