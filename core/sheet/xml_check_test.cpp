#include "sheet/xml_check.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <cstddef>

namespace fallwright::sheet {

namespace {

class Reader {
  public:
    Reader(std::string_view text, bool html) : rest_(text), html_(html) {}

    XmlSeen read() {
        if (html_) skip("<!DOCTYPE html>");
        while (!rest_.empty() && seen_.trouble.empty()) rest_.front() == '<' ? tag() : characters();
        if (!open_.empty()) fail("left open: " + open_.back());
        return seen_;
    }

  private:
    void fail(const std::string& why) {
        if (seen_.trouble.empty()) seen_.trouble = why + " before " + std::string(rest_.substr(0, 40));
    }
    bool skip(std::string_view what) {
        if (rest_.substr(0, what.size()) != what) return false;
        rest_.remove_prefix(what.size());
        return true;
    }
    static bool in_name(char c) {
        return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-' || c == ':';
    }
    std::string name() {
        std::size_t length = 0;
        while (length < rest_.size() && in_name(rest_[length])) ++length;
        std::string out(rest_.substr(0, length));
        rest_.remove_prefix(length);
        if (out.empty()) fail("no name");
        return out;
    }
    std::string decoded(std::string_view raw) {
        std::string out;
        while (!raw.empty()) {
            const char c = raw.front();
            if (static_cast<unsigned char>(c) < 0x20 && c != '\n') fail("control character");
            if (c == '<') fail("< in text");
            if (c != '&') {
                out += c;
                raw.remove_prefix(1);
                continue;
            }
            const std::size_t end = raw.find(';');
            const std::string_view entity = raw.substr(0, end == raw.npos ? 1 : end + 1);
            if (entity == "&amp;")
                out += '&';
            else if (entity == "&lt;")
                out += '<';
            else if (entity == "&gt;")
                out += '>';
            else if (entity == "&quot;")
                out += '"';
            else
                fail("entity " + std::string(entity));
            raw.remove_prefix(entity.size());
        }
        return out;
    }
    void characters() {
        const std::string_view raw = rest_.substr(0, rest_.find('<'));
        const std::string text = decoded(raw);
        rest_.remove_prefix(raw.size());
        if (text.find_first_not_of(" \n") == std::string::npos) return;
        if (open_.empty()) fail("text outside");
        seen_.texts.push_back(text);
    }
    void attributes() {
        std::vector<std::string> names;
        while (skip(" ") && seen_.trouble.empty()) {
            names.push_back(name());
            if (!skip("=\"")) return fail("no quote");
            const std::size_t end = rest_.find('"');
            if (end == rest_.npos) return fail("no end of a value");
            seen_.texts.push_back(decoded(rest_.substr(0, end)));
            rest_.remove_prefix(end + 1);
        }
        std::sort(names.begin(), names.end());
        if (std::adjacent_find(names.begin(), names.end()) != names.end()) fail("attribute twice");
    }
    void tag() {
        rest_.remove_prefix(1);
        if (skip("/")) {
            const std::string ended = name();
            if (open_.empty() || open_.back() != ended) return fail("end of " + ended);
            open_.pop_back();
            if (!skip(">")) fail("no >");
            return;
        }
        const std::string begun = name();
        seen_.tags.push_back(begun);
        attributes();
        if (skip("/>")) return;
        if (!skip(">")) return fail("no > after " + begun);
        const bool empty = begun == "meta" || begun == "br" || begun == "hr" || begun == "col";
        if (!html_ || !empty) open_.push_back(begun);
    }

    std::string_view rest_;
    bool html_;
    std::vector<std::string> open_;
    XmlSeen seen_;
};

}  // namespace

XmlSeen read_xml(std::string_view text, bool html) {
    return Reader(text, html).read();
}

TEST(XmlCheck, SeesWhatIsWrong) {
    EXPECT_EQ(read_xml("<a b=\"1\"><c/>x &lt; y</a>").trouble, "");
    for (const char* bad : {"<a>", "<a></b>", "<a b=1></a>", "<a b=\"1\" b=\"2\"/>", "<a>& </a>",
                            "<a>\x01</a>", "<a b=\"<\"/>", "<a></a></a>", "text", "<a><br></a>"}) {
        EXPECT_NE(read_xml(bad).trouble, "") << bad;
    }
    EXPECT_EQ(read_xml("<!DOCTYPE html><p>a<br>b</p>", true).trouble, "");
}

}  // namespace fallwright::sheet
