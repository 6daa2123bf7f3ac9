#include "exchange/xml/xml_out.h"

#include <cassert>
#include <utility>

#include "base/print.h"

namespace fallwright::xml {

namespace {

void append_escaped(std::string& out, std::string_view value) {
    for (const char c : value) {
        switch (c) {
            case '<':
                out += "&lt;";
                break;
            case '>':
                out += "&gt;";
                break;
            case '&':
                out += "&amp;";
                break;
            case '"':
                out += "&quot;";
                break;
            default:
                out += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
        }
    }
}

}  // namespace

XmlOut::XmlOut() : out_("<?xml version=\"1.0\" encoding=\"UTF-8\"?>") {}

void XmlOut::line(std::size_t depth) {
    out_ += '\n';
    out_.append(2 * depth, ' ');
}

void XmlOut::close_tag() {
    if (in_tag_) out_ += '>';
    in_tag_ = false;
}

XmlOut& XmlOut::begin(std::string_view name) {
    close_tag();
    line(open_.size());
    out_ += '<';
    out_ += name;
    open_.emplace_back(name);
    in_tag_ = true;
    has_text_ = false;
    return *this;
}

XmlOut& XmlOut::attribute(std::string_view name, std::string_view value) {
    assert(in_tag_);
    out_ += ' ';
    out_ += name;
    out_ += "=\"";
    append_escaped(out_, value);
    out_ += '"';
    return *this;
}

XmlOut& XmlOut::attribute(std::string_view name, double value, int places) {
    return attribute(name, trimmed(value, places));
}

XmlOut& XmlOut::text(std::string_view value) {
    close_tag();
    append_escaped(out_, value);
    has_text_ = true;
    return *this;
}

XmlOut& XmlOut::end() {
    assert(!open_.empty());
    const std::string name = std::move(open_.back());
    open_.pop_back();
    if (in_tag_) {
        out_ += "/>";
    } else {
        if (!has_text_) line(open_.size());
        out_ += "</" + name + ">";
    }
    in_tag_ = false;
    has_text_ = false;
    return *this;
}

std::string XmlOut::take() {
    assert(open_.empty());
    out_ += '\n';
    return std::exchange(out_, {});
}

}  // namespace fallwright::xml
