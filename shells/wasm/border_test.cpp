#include "shells/wasm/border.h"

#include <gtest/gtest.h>

#include <memory>
#include <string>
#include <string_view>

#include "desk/desk.h"

namespace {

struct Free {
    void operator()(fw_reply* reply) const { fw_free(reply); }
};
using Reply = std::unique_ptr<fw_reply, Free>;

const std::string book =
    "{\"kind\":\"book\",\"format\":\"fallwright\",\"version\":1}\n"
    "{\"kind\":\"benchmark\",\"point\":\"BM1\",\"level\":10}\n"
    "{\"kind\":\"instrument\",\"name\":\"L\",\"type\":\"optical-level\"}\n"
    "{\"kind\":\"setup\",\"name\":\"S1\",\"instrument\":\"L\"}\n"
    "{\"kind\":\"reading\",\"point\":\"BM1\",\"staff\":1.5}\n"
    "{\"kind\":\"reading\",\"point\":\"P\",\"staff\":1.25}\n";
const std::string levels = "{\"verb\":\"levels\",\"options\":{}}";

Reply open(std::string_view text) {
    return Reply(fw_open(text.data(), text.size()));
}
Reply run(const Reply& opened, std::string_view request) {
    return Reply(fw_run(opened.get(), request.data(), request.size()));
}
std::string text(const Reply& reply) {
    return std::string(reply->text, reply->size);
}

}  // namespace

TEST(Border, AnOpenBookAnswersAsTheDeskDoes) {
    const Reply opened = open(book);
    ASSERT_NE(opened, nullptr);
    EXPECT_EQ(opened->status, 0);
    EXPECT_EQ(opened->size, 0u);
    const auto at_the_desk = fallwright::desk::open(book);
    ASSERT_TRUE(static_cast<bool>(at_the_desk));
    const Reply reply = run(opened, levels);
    EXPECT_EQ(reply->status, 0);
    EXPECT_EQ(text(reply), fallwright::desk::run(**at_the_desk, levels));
    EXPECT_NE(text(reply).find("10.25"), std::string::npos);
}

TEST(Border, OneBookAnswersManyTimesTheSame) {
    const Reply opened = open(book);
    const std::string first = text(run(opened, levels));
    EXPECT_EQ(text(run(opened, levels)), first);
}

TEST(Border, AReplyOutlivesItsBook) {
    Reply opened = open(book);
    const Reply reply = run(opened, levels);
    const std::string before = text(reply);
    opened.reset();
    EXPECT_EQ(text(reply), before);
}

TEST(Border, NothingIsKeptOfTheCallersBuffer) {
    auto buffer = std::make_unique<std::string>(book);
    const Reply opened = open(*buffer);
    const std::string before = text(run(opened, levels));
    buffer->assign(buffer->size(), '!');
    EXPECT_EQ(text(run(opened, levels)), before);
    buffer.reset();
    EXPECT_EQ(text(run(opened, levels)), before);
}

TEST(Border, NoBookIsRefusedWithAFindingAndStaysRefused) {
    const Reply opened = open("not a book");
    ASSERT_NE(opened, nullptr);
    EXPECT_EQ(opened->status, 1);
    EXPECT_EQ(text(opened).rfind("{\"error\":", 0), 0u);
    EXPECT_NE(text(opened).find("not-a-book"), std::string::npos);
    const Reply reply = run(opened, levels);
    EXPECT_EQ(reply->status, 1);
    EXPECT_EQ(text(reply), text(opened));
}

TEST(Border, WithoutABookTheRequestIsTheWholeDocument) {
    const std::string request = "{\"verb\":\"levels\",\"book\":\"\",\"options\":{}}";
    EXPECT_EQ(text(run(Reply(), request)), fallwright::desk::answer(request));
}

TEST(Border, ARequestThatIsNoJsonIsAnsweredWithAnError) {
    const Reply opened = open(book);
    for (const std::string_view request : {"", "{", "[]", "{\"verb\":7}", "\xff\xfe"}) {
        const Reply reply = run(opened, request);
        ASSERT_NE(reply, nullptr) << request;
        EXPECT_EQ(text(reply).rfind("{\"error\":", 0), 0u) << request;
    }
}

TEST(Border, NullAndEmptyAreAllowed) {
    fw_free(nullptr);
    const Reply opened(fw_open(nullptr, 0));
    ASSERT_NE(opened, nullptr);
    EXPECT_EQ(opened->status, 1);
    const Reply reply(fw_run(nullptr, nullptr, 0));
    ASSERT_NE(reply, nullptr);
    EXPECT_EQ(text(reply).rfind("{\"error\":", 0), 0u);
}

TEST(Border, TheVersionIsThatOfTheBuild) {
    EXPECT_STREQ(fw_version(), FALLWRIGHT_VERSION);
}
