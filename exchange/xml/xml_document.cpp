#include "exchange/xml/xml_document.h"

#include <algorithm>
#include <array>
#include <utility>

namespace fallwright::xml {

namespace {

bool is_space(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

bool begins_name(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || c == ':' ||
           static_cast<unsigned char>(c) >= 0x80;
}

bool in_name(char c) {
    return begins_name(c) || (c >= '0' && c <= '9') || c == '-' || c == '.';
}

std::string_view without_prefix(std::string_view name) {
    const std::size_t colon = name.rfind(':');
    return colon == std::string_view::npos ? name : name.substr(colon + 1);
}

// XML 1.0 has no control characters but tab and line ends.
bool is_forbidden(char c) {
    return static_cast<unsigned char>(c) < 0x20 && !is_space(c);
}

bool is_character(std::uint32_t code) {
    if (code < 0x20) return code == 0x9 || code == 0xA || code == 0xD;
    return code <= 0x10FFFF && !(code >= 0xD800 && code <= 0xDFFF) && code != 0xFFFE && code != 0xFFFF;
}

void append_utf8(std::string& out, std::uint32_t code) {
    const auto byte = [&](std::uint32_t value) { out += static_cast<char>(value); };
    if (code < 0x80) return byte(code);
    if (code < 0x800) {
        byte(0xC0 | (code >> 6));
    } else if (code < 0x10000) {
        byte(0xE0 | (code >> 12));
        byte(0x80 | ((code >> 6) & 0x3F));
    } else {
        byte(0xF0 | (code >> 18));
        byte(0x80 | ((code >> 12) & 0x3F));
        byte(0x80 | ((code >> 6) & 0x3F));
    }
    byte(0x80 | (code & 0x3F));
}

}  // namespace

// Reads a document tag by tag; the first fault ends it.
class Reading {
  public:
    Reading(std::string_view text, const XmlLimits& limits) : text_(text), limits_(limits) {}

    Result<XmlDocument> all() {
        if (text_.size() > limits_.bytes)
            return finding(Code::ImportTooLarge, {},
                           "the file is larger than " + std::to_string(limits_.bytes >> 20) + " MB");
        while (fault_.empty() && at_ < text_.size()) step();
        if (fault_.empty() && !open_.empty())
            fail("the file ends within <" + std::string(tag_name(open_.back())) + "> of line " +
                 std::to_string(made_.elements_[open_.back()].line));
        if (fault_.empty() && made_.elements_.empty()) fail("the file holds no element");
        if (!fault_.empty())
            return finding(too_large_ ? Code::ImportTooLarge : Code::ImportXml,
                           {"line " + std::to_string(fault_line_)}, fault_);
        return std::move(made_);
    }

  private:
    // Line ends up to a place are counted once, as reading goes on.
    std::size_t line_at(std::size_t place) {
        for (; counted_ < place; ++counted_) line_ += text_[counted_] == '\n' ? 1 : 0;
        return line_;
    }
    void fail(std::string what) {
        if (!fault_.empty()) return;
        fault_ = std::move(what);
        fault_line_ = line_at(std::min(at_, text_.size()));
    }
    void pass_limit(std::string what) {
        too_large_ = true;
        fail(std::move(what));
    }
    bool begins(std::string_view with) const { return text_.substr(at_, with.size()) == with; }
    std::string_view tag_name(Index element) const { return full_names_[depth_of(element)]; }
    std::size_t depth_of(Index element) const {
        std::size_t depth = 0;
        while (open_[depth] != element) ++depth;
        return depth;
    }

    void step() {
        if (text_[at_] != '<') return characters();
        if (begins("<!--")) return skip("<!--", "-->", "a comment");
        if (begins("<![CDATA[")) return cdata();
        if (begins("<!")) return fail("a document type stands in the file; only files without one are read");
        if (begins("<?")) return skip("<?", "?>", "a processing instruction");
        if (begins("</")) return end_tag();
        start_tag();
    }

    void skip(std::string_view opening, std::string_view closing, const char* what) {
        const std::size_t end = text_.find(closing, at_ + opening.size());
        if (end == std::string_view::npos) return fail(std::string("the file ends within ") + what);
        at_ = end + closing.size();
    }

    void cdata() {
        constexpr std::string_view opening = "<![CDATA[";
        const std::size_t end = text_.find("]]>", at_ + opening.size());
        if (end == std::string_view::npos) return fail("the file ends within a CDATA section");
        if (open_.empty()) return fail("text stands outside of the root element");
        add_text(text_.substr(at_ + opening.size(), end - at_ - opening.size()));
        at_ = end + 3;
    }

    void characters() {
        const std::size_t end = std::min(text_.find('<', at_), text_.size());
        const std::string_view raw = text_.substr(at_, end - at_);
        if (open_.empty()) {
            for (const char c : raw) {
                if (!is_space(c)) return fail("text stands outside of the root element");
            }
        } else {
            if (raw.find("]]>") != std::string_view::npos) return fail("]]> stands in a text");
            add_text(decoded(raw));
        }
        at_ = end;
    }

    // Only what stands before the first child counts: LandXML has no other text.
    void add_text(std::string_view piece) {
        Element& element = made_.elements_[open_.back()];
        if (element.first_child != none || piece.empty()) return;
        if (element.text.empty()) {
            element.text = piece;
        } else if (element.text.data() + element.text.size() == piece.data()) {
            element.text = {element.text.data(), element.text.size() + piece.size()};
        } else {
            element.text = grown(element.text, piece);
        }
    }

    // A text in pieces is kept once and grows at its end, so that many pieces cost no more than their length.
    std::string_view grown(std::string_view before, std::string_view piece) {
        if (growing_of_ != open_.back()) {
            growing_ = &made_.owned_.emplace_back(before);
            growing_of_ = open_.back();
        }
        return growing_->append(piece);
    }

    std::string_view decoded(std::string_view raw) {
        for (const char c : raw) {
            if (is_forbidden(c)) {
                fail("a control character stands in the file");
                return {};
            }
        }
        if (raw.find('&') == std::string_view::npos) return raw;
        std::string out;
        for (std::size_t i = 0; i < raw.size();) {
            if (raw[i] != '&') {
                out += raw[i++];
                continue;
            }
            const std::size_t end = raw.find(';', i);
            constexpr std::size_t longest = 12;
            if (end == std::string_view::npos || end - i > longest ||
                !entity(raw.substr(i + 1, end - i - 1), out)) {
                fail("an entity that is not known: " + std::string(raw.substr(i, longest)));
                return {};
            }
            i = end + 1;
        }
        return made_.owned_.emplace_back(std::move(out));
    }

    static bool entity(std::string_view name, std::string& out) {
        constexpr std::array<std::pair<std::string_view, char>, 5> known = {
            {{"lt", '<'}, {"gt", '>'}, {"amp", '&'}, {"quot", '"'}, {"apos", '\''}}};
        for (const auto& [word, character] : known) {
            if (name == word) {
                out += character;
                return true;
            }
        }
        if (name.size() < 2 || name[0] != '#') return false;
        const bool hex = name[1] == 'x';
        std::uint32_t code = 0;
        for (const char c : name.substr(hex ? 2 : 1)) {
            const int digit = c >= '0' && c <= '9'          ? c - '0'
                              : hex && c >= 'a' && c <= 'f' ? c - 'a' + 10
                              : hex && c >= 'A' && c <= 'F' ? c - 'A' + 10
                                                            : -1;
            if (digit < 0) return false;
            code = code * (hex ? 16 : 10) + static_cast<std::uint32_t>(digit);
            if (code > 0x10FFFF) return false;
        }
        if ((hex && name.size() < 3) || !is_character(code)) return false;
        append_utf8(out, code);
        return true;
    }

    void spaces() {
        while (at_ < text_.size() && is_space(text_[at_])) ++at_;
    }

    std::string_view name() {
        const std::size_t begin = at_;
        if (at_ < text_.size() && begins_name(text_[at_])) {
            while (at_ < text_.size() && in_name(text_[at_])) ++at_;
        }
        return text_.substr(begin, at_ - begin);
    }

    void start_tag() {
        const std::size_t line = line_at(at_);
        if (open_.empty() && !made_.elements_.empty()) return fail("a second root element");
        if (open_.size() >= limits_.depth)
            return pass_limit("elements are nested deeper than " + std::to_string(limits_.depth));
        if (made_.elements_.size() >= limits_.elements)
            return pass_limit("the file holds more than " + std::to_string(limits_.elements) + " elements");
        ++at_;
        const std::string_view full = name();
        if (full.empty()) return fail("< without the name of an element");
        Element element;
        element.name = without_prefix(full);
        element.line = static_cast<Index>(line);
        element.first_attribute = static_cast<Index>(made_.attributes_.size());
        const bool closed = attributes_of(full);
        if (!fault_.empty()) return;
        element.attributes = static_cast<Index>(made_.attributes_.size()) - element.first_attribute;
        add(element, full, closed);
    }

    void add(Element element, std::string_view full, bool closed) {
        const auto index = static_cast<Index>(made_.elements_.size());
        if (!open_.empty()) {
            element.parent = open_.back();
            Index& last = last_child_.back();
            (last == none ? made_.elements_[open_.back()].first_child : made_.elements_[last].next) = index;
            last = index;
        }
        made_.elements_.push_back(element);
        if (closed) return;
        open_.push_back(index);
        full_names_.push_back(full);
        last_child_.push_back(none);
    }

    // Up to and with the end of the tag; whether the element ends there.
    bool attributes_of(std::string_view element) {
        const std::size_t first = made_.attributes_.size();
        full_attributes_.clear();
        while (fault_.empty()) {
            const bool parted = at_ < text_.size() && is_space(text_[at_]);
            spaces();
            if (begins("/>")) {
                at_ += 2;
                return true;
            }
            if (begins(">")) {
                ++at_;
                return false;
            }
            if (at_ >= text_.size())
                fail("the file ends within the tag of <" + std::string(element) + ">");
            else if (!parted)
                fail("the tag of <" + std::string(element) + "> cannot be read");
            else if (made_.attributes_.size() - first >= limits_.attributes)
                pass_limit("an element has more than " + std::to_string(limits_.attributes) + " attributes");
            else
                attribute(element);
        }
        return false;
    }

    void attribute(std::string_view element) {
        const std::string_view full = name();
        spaces();
        if (full.empty() || !begins("="))
            return fail("the tag of <" + std::string(element) + "> cannot be read");
        ++at_;
        spaces();
        const char quote = at_ < text_.size() ? text_[at_] : '\0';
        if (quote != '"' && quote != '\'')
            return fail("the value of " + std::string(full) + " stands without quotes");
        const std::size_t end = text_.find(quote, at_ + 1);
        if (end == std::string_view::npos)
            return fail("the quote of " + std::string(full) + " is never closed");
        const std::string_view raw = text_.substr(at_ + 1, end - at_ - 1);
        if (raw.find('<') != std::string_view::npos)
            return fail("< stands in the value of " + std::string(full));
        for (const std::string_view other : full_attributes_) {
            if (other == full) return fail("attribute " + std::string(full) + " stands twice in one element");
        }
        full_attributes_.push_back(full);
        const std::string_view value = decoded(raw);
        at_ = end + 1;
        // Declarations of name spaces name no thing.
        if (full != "xmlns" && full.substr(0, 6) != "xmlns:")
            made_.attributes_.push_back({without_prefix(full), value});
    }

    void end_tag() {
        at_ += 2;
        const std::string_view full = name();
        spaces();
        if (!begins(">")) return fail("the end tag </" + std::string(full) + " cannot be read");
        if (open_.empty() || full_names_.back() != full)
            return fail("</" + std::string(full) + "> ends no element" +
                        (open_.empty()
                             ? ""
                             : ": <" + std::string(full_names_.back()) + "> of line " +
                                   std::to_string(made_.elements_[open_.back()].line) + " is open"));
        ++at_;
        open_.pop_back();
        full_names_.pop_back();
        last_child_.pop_back();
    }

    std::string_view text_;
    const XmlLimits& limits_;
    XmlDocument made_;
    std::size_t at_ = 0;
    std::size_t line_ = 1, counted_ = 0;
    std::string fault_;
    std::size_t fault_line_ = 0;
    bool too_large_ = false;
    std::string* growing_ = nullptr;  // the text in pieces of the element growing_of_
    Index growing_of_ = none;
    std::vector<Index> open_, last_child_;  // by depth
    std::vector<std::string_view> full_names_, full_attributes_;
};

Result<XmlDocument> XmlDocument::read(std::string_view text, const XmlLimits& limits) {
    return Reading(text, limits).all();
}

std::optional<std::string_view> XmlDocument::attribute(const Element& element, std::string_view name) const {
    for (Index i = 0; i < element.attributes; ++i) {
        const Attribute& each = attributes_[element.first_attribute + i];
        if (each.name == name) return each.value;
    }
    return std::nullopt;
}

const Element* XmlDocument::child(const Element& element, std::string_view name) const {
    for (const Element* each = first(element); each != nullptr; each = next(*each)) {
        if (each->name == name) return each;
    }
    return nullptr;
}

std::string_view declared_encoding(std::string_view bytes) {
    if (bytes.substr(0, 3) == "\xEF\xBB\xBF") bytes.remove_prefix(3);
    if (bytes.substr(0, 5) != "<?xml") return {};
    const std::string_view head = bytes.substr(0, bytes.find("?>"));
    const std::size_t word = head.find("encoding");
    if (word == std::string_view::npos) return {};
    const std::size_t open = head.find_first_of("\"'", word);
    if (open == std::string_view::npos) return {};
    const std::size_t close = head.find(head[open], open + 1);
    return close == std::string_view::npos ? std::string_view{} : head.substr(open + 1, close - open - 1);
}

}  // namespace fallwright::xml
