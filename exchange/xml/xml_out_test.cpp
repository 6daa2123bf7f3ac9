#include "exchange/xml/xml_out.h"

#include <gtest/gtest.h>

#include "exchange/xml/xml_document.h"

namespace fallwright::xml {
namespace {

TEST(XmlOut, ElementsTextsAndNumbers) {
    XmlOut out;
    out.begin("a").attribute("n", 1.25, 5).begin("b").end().begin("c").text("1 2").end().end();
    EXPECT_EQ(out.take(),
              "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<a n=\"1.25\">\n  <b/>\n  <c>1 2</c>\n</a>\n");
}

TEST(XmlOut, WhatPeopleWriteComesBack) {
    const std::string words = "a<b>&\"c\" 'd' ]]> \xC3\xA9";
    XmlOut out;
    out.begin("a").attribute("v", words).begin("b").text(words).end().begin("c").text("x\x01y").end().end();
    const std::string text = out.take();
    const Result<XmlDocument> read = XmlDocument::read(text);
    ASSERT_TRUE(read) << read.finding().message;
    EXPECT_EQ(read->attribute(read->root(), "v"), words);
    EXPECT_EQ(read->child(read->root(), "b")->text, words);
    EXPECT_EQ(read->child(read->root(), "c")->text, "x y");
}

}  // namespace
}  // namespace fallwright::xml
