#include "exchange/native/pdf/pdf.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "exchange/native/pdf/random_document_test.h"

namespace fallwright::pdf {

namespace {

std::size_t count_of(const std::string& text, std::string_view what) {
    std::size_t count = 0;
    for (std::size_t at = text.find(what); at != text.npos; at = text.find(what, at + 1)) ++count;
    return count;
}

}  // namespace

TEST(Pdf, HasPropertiesOutlineAndEmbeddedFonts) {
    sheet::Document document;
    document.title = "Back lane";
    document.subject = "Record of levels";
    document.blocks = {sheet::Heading{1, "Levels"}, sheet::Statement{"Plain."}, sheet::PageBreak{},
                       sheet::Heading{2, "As laid"}, sheet::Statement{"More."}};
    const Result<std::string> made = pdf_of(document, {"Ines", "Fallwright 1", "2026-05-04T07:10:00Z"});
    ASSERT_TRUE(made);
    const std::string& bytes = *made;
    EXPECT_EQ(bytes.substr(0, 5), "%PDF-");
    EXPECT_EQ(bytes.substr(bytes.size() - 6), "%%EOF\n");
    for (const char* part :
         {"/Title (Back lane)", "/Subject (Record of levels)", "/Author (Ines)", "/Creator (Fallwright 1)",
          "/CreationDate (20260504071000", "/Title (Levels)", "/Title (As laid)", "/FontFile2"}) {
        EXPECT_NE(bytes.find(part), bytes.npos) << part;
    }
    EXPECT_EQ(count_of(bytes, "/Type /Page %"), 2U);
}

TEST(Pdf, IsTheSameBytesEachTime) {
    sheet::Document document;
    document.title = "Back lane";
    document.blocks = {sheet::Statement{"Plain."}};
    EXPECT_EQ(*pdf_of(document, {}), *pdf_of(document, {}));
    EXPECT_EQ(pdf_of(document, {})->find("/CreationDate"), std::string::npos);
}

RC_GTEST_PROP(Pdf, AnyDocumentGivesAFile, ()) {
    const Result<std::string> made = pdf_of(random_document(), {*hard_text(), "", ""});
    RC_ASSERT(static_cast<bool>(made));
    RC_ASSERT(made->substr(0, 5) == "%PDF-");
    RC_ASSERT(count_of(*made, "/Type /Page %") >= 1);
}

}  // namespace fallwright::pdf
