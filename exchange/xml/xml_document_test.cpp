#include "exchange/xml/xml_document.h"

#include <gtest/gtest.h>

#include <chrono>

namespace fallwright::xml {
namespace {

// What a text is refused for, with its line; empty where it is taken.
std::string refused(std::string_view text, const XmlLimits& limits = {}) {
    const Result<XmlDocument> read = XmlDocument::read(text, limits);
    return read ? "" : read.finding().about[0] + ": " + read.finding().message;
}

TEST(XmlDocument, ReadsElementsAttributesAndText) {
    const Result<XmlDocument> read = XmlDocument::read(
        "<?xml version=\"1.0\"?>\n<!-- a -->\n<l:Root xmlns:l='urn:x' a=\"1 &lt; 2\">\n<P id='3'>1 2\n3</P>"
        "<Q/><l:P>&#x41;&#66;<![CDATA[<C>]]></l:P></l:Root>\n");
    ASSERT_TRUE(read) << read.finding().message;
    const Element& root = read->root();
    EXPECT_EQ(root.name, "Root");
    EXPECT_EQ(root.line, 3U);
    EXPECT_EQ(read->attribute(root, "a"), "1 < 2");
    EXPECT_FALSE(read->attribute(root, "b"));
    EXPECT_FALSE(read->attribute(root, "l"));
    const Element* first = read->child(root, "P");
    ASSERT_NE(first, nullptr);
    EXPECT_EQ(first->text, "1 2\n3");
    EXPECT_EQ(first->line, 4U);
    EXPECT_EQ(read->attribute(*first, "id"), "3");
    const Element* second = read->next(*first);
    ASSERT_NE(second, nullptr);
    EXPECT_EQ(second->name, "Q");
    EXPECT_EQ(second->line, 5U);
    EXPECT_EQ(read->next(*second)->text, "AB<C>");
    EXPECT_EQ(read->size(), 4U);
}

TEST(XmlDocument, WhatIsNotWellFormedIsRefusedWithItsLine) {
    EXPECT_EQ(refused(""), "line 1: the file holds no element");
    EXPECT_EQ(refused("<a>\n<b>\n</a>"), "line 3: </a> ends no element: <b> of line 2 is open");
    EXPECT_EQ(refused("<a>\n<b>"), "line 2: the file ends within <b> of line 2");
    EXPECT_EQ(refused("<a x=1/>"), "line 1: the value of x stands without quotes");
    EXPECT_EQ(refused("<a x='1' x='2'/>"), "line 1: attribute x stands twice in one element");
    EXPECT_EQ(refused("<a x='1"), "line 1: the quote of x is never closed");
    EXPECT_EQ(refused("<a x='<'/>"), "line 1: < stands in the value of x");
    EXPECT_EQ(refused("<a>&nbsp;</a>"), "line 1: an entity that is not known: &nbsp;");
    EXPECT_EQ(refused("<a>&#0;</a>"), "line 1: an entity that is not known: &#0;");
    EXPECT_EQ(refused("<a>&#xD800;</a>"), "line 1: an entity that is not known: &#xD800;");
    EXPECT_EQ(refused("<a>x & y</a>"), "line 1: an entity that is not known: & y");
    EXPECT_EQ(refused("<a/><b/>"), "line 1: a second root element");
    EXPECT_EQ(refused("<a/>text"), "line 1: text stands outside of the root element");
    EXPECT_EQ(refused("<a>]]></a>"), "line 1: ]]> stands in a text");
    EXPECT_EQ(refused("<a>\x01</a>"), "line 1: a control character stands in the file");
    EXPECT_EQ(refused("<a><!-- </a>"), "line 1: the file ends within a comment");
    EXPECT_EQ(refused("<a><![CDATA[ </a>"), "line 1: the file ends within a CDATA section");
    EXPECT_EQ(refused("<1a/>"), "line 1: < without the name of an element");
    EXPECT_EQ(refused("<a b='1'c='2'/>"), "line 1: the tag of <a> cannot be read");
    EXPECT_EQ(refused("<a"), "line 1: the file ends within the tag of <a>");
}

// Entities within entities grow a short file to gigabytes, external ones ask for other files.
TEST(XmlDocument, DocumentTypesAreRefused) {
    EXPECT_EQ(refused("<?xml version='1.0'?>\n<!DOCTYPE l [<!ENTITY a 'ha'><!ENTITY b '&a;&a;'>]><l>&b;</l>"),
              "line 2: a document type stands in the file; only files without one are read");
    EXPECT_EQ(refused("<!DOCTYPE l SYSTEM 'file:///etc/hostname'><l/>"),
              "line 1: a document type stands in the file; only files without one are read");
}

TEST(XmlDocument, LimitsHold) {
    XmlLimits limits;
    limits.depth = 3;
    limits.elements = 4;
    limits.attributes = 2;
    limits.bytes = 60;
    EXPECT_EQ(refused("<a><b><c/></b></a>", limits), "");
    EXPECT_EQ(refused("<a><b><c><d/></c></b></a>", limits), "line 1: elements are nested deeper than 3");
    EXPECT_EQ(refused("<a><b/><b/><b/><b/></a>", limits), "line 1: the file holds more than 4 elements");
    EXPECT_EQ(refused("<a x='1' y='2' z='3'/>", limits), "line 1: an element has more than 2 attributes");
    EXPECT_EQ(XmlDocument::read(std::string(61, ' '), limits).finding().code, Code::ImportTooLarge);
}

// Time grows with the length of the text, whatever it holds.
TEST(XmlDocument, HostileTextsTakeNoLongerThanTheirLength) {
    const auto repeated = [](std::string_view piece, std::size_t bytes) {
        std::string all = "<a>";
        while (all.size() < bytes) all += piece;
        return all;
    };
    constexpr std::size_t bytes = 1 << 20;
    for (const char* piece :
         {"<a>", "x&amp;<!-- -->", "<![CDATA[x]]>y", "<b/>", "&#65;", "<", "&", "<b x='", "]"}) {
        const std::string text = repeated(piece, bytes);
        const auto begin = std::chrono::steady_clock::now();
        (void)refused(text);
        const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
        EXPECT_LT(took.count(), 5) << piece;
    }
}

TEST(XmlDocument, DeclaredEncoding) {
    EXPECT_EQ(declared_encoding("<?xml version='1.0' encoding='ISO-8859-1'?><a/>"), "ISO-8859-1");
    EXPECT_EQ(declared_encoding("\xEF\xBB\xBF<?xml version=\"1.0\" encoding=\"UTF-8\"?>"), "UTF-8");
    EXPECT_EQ(declared_encoding("<?xml version='1.0'?>"), "");
    EXPECT_EQ(declared_encoding("<?xml version='1.0' encoding='UTF"), "");
    EXPECT_EQ(declared_encoding("<a encoding='x'/>"), "");
}

}  // namespace
}  // namespace fallwright::xml
