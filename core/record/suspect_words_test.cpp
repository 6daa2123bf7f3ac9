#include "record/suspect_words.h"

#include <gtest/gtest.h>

namespace fallwright::record {
namespace {

Evaluation evaluated(const std::string& entries) {
    auto book = read_book("{\"kind\":\"book\",\"format\":\"fallwright\",\"version\":1}\n" + entries);
    return evaluate(std::shared_ptr<const Book>(std::move(*book)));
}

const std::string site = R"({"kind":"benchmark","point":"BM","level":50}
{"kind":"instrument","name":"L","type":"rotating-laser"}
{"kind":"setup","name":"S","instrument":"L"}
)";

TEST(SuspectWords, WithoutAReadingNobodyIsSureOfAnything) {
    for (const std::string& entries : {std::string(), site}) {
        const Evaluation nothing = evaluated(entries);
        EXPECT_FALSE(anything_read(nothing));
        EXPECT_EQ(nothing_noticed(nothing), "Nothing is read yet, so nothing can be noticed.");
        EXPECT_EQ(suspect_line(nothing), "");
    }
}

TEST(SuspectWords, OfLoneReadingsItIsSaidThatNothingChecksThem) {
    const Evaluation read = evaluated(site + R"({"kind":"reading","point":"BM","staff":1.0,"dist":20}
{"kind":"reading","point":"P","staff":1.2,"dist":20}
)");
    EXPECT_TRUE(anything_read(read));
    EXPECT_EQ(nothing_noticed(read),
              "Nothing noticed. 2 of 2 readings are checked by nothing: a slip there would not show.");
}

}  // namespace
}  // namespace fallwright::record
