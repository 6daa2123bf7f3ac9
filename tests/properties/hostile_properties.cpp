#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>

#include "desk/desk.h"
#include "properties/answers.h"

namespace fallwright::properties {

namespace {

constexpr int damages_per_book = 10;

// Damages a text as transfer, editors and people do.
class Vandal {
  public:
    Vandal(Draw& draw, std::string text) : draw_(draw), text_(std::move(text)) {}

    std::string run() {
        for (std::size_t i = 0, count = 1 + draw_.below(5); i < count; ++i) damage();
        return std::move(text_);
    }

  private:
    void damage() {
        if (text_.empty()) return;
        switch (draw_.below(8)) {
            case 0:
                text_[draw_.below(text_.size())] = static_cast<char>(draw_.below(256));
                break;
            case 1:
                text_.erase(draw_.below(text_.size()), draw_.below(40));
                break;
            case 2:
                text_.insert(draw_.below(text_.size()), draw_.below(40), static_cast<char>(draw_.below(256)));
                break;
            case 3:
                copy_a_piece();
                break;
            case 4:
                text_.resize(draw_.below(text_.size()));
                break;
            default:
                replace_a_value();
        }
    }

    void copy_a_piece() {
        const std::size_t from = draw_.below(text_.size());
        const std::string piece = text_.substr(from, draw_.below(400));
        text_.insert(draw_.below(text_.size()), piece);
    }

    // What stands between a colon and the next comma or brace becomes something else.
    void replace_a_value() {
        static const std::array<const char*, 24> values = {
            "1e300",  "-1e300", "1e-300", "1e9",         "-1e9",   "999999999.9999999",
            "0",      "-0.0",   "1e999",  "null",        "true",   "[]",
            "{}",     "\"\"",   "\"#3\"", "\"L1\"",      "\"U1\"", "\"P1\"",
            "\"BM\"", "-1",     "1e-12",  "\"1 in 80\"", "[1,2]",  "\"2026-05-04T08:00:00Z\""};
        const std::size_t colon = text_.find(':', draw_.below(text_.size()));
        if (colon == std::string::npos) return;
        const std::size_t end = text_.find_first_of(",}\n", colon);
        if (end == std::string::npos) return;
        text_.replace(colon + 1, end - colon - 1, draw_.from(values));
    }

    Draw& draw_;
    std::string text_;
};

bool is_answer(const std::string& text) {
    const Json answer = Json::parse(text, nullptr, false);
    return answer.is_object() && (answer.contains("error") || answer.contains("findings"));
}

std::string answer_to_bytes(const std::string& bytes) {
    const auto book = desk::open(bytes);
    if (!book) return desk::refuse(book.finding());
    const std::string fall = desk::run(**book, R"({"verb":"fall","options":{"line":"D1"}})");
    return is_answer(fall) ? desk::run(**book, R"({"verb":"evaluate"})") : fall;
}

}  // namespace

RC_GTEST_PROP(I16, ADamagedBookGivesAnAnswer, ()) {
    const std::string text = any_book({}).text();
    Draw draw(*rc::gen::noShrink(rc::gen::arbitrary<std::uint64_t>()).as("damage"));
    for (int i = 0; i < damages_per_book; ++i) {
        const std::string damaged = Vandal(draw, text).run();
        RC_LOG(damaged);
        RC_ASSERT(is_answer(answer_to_bytes(damaged)));
    }
}

RC_GTEST_PROP(I16, AnyBytesGiveAnAnswer, ()) {
    const auto bytes = *rc::gen::container<std::string>(rc::gen::arbitrary<char>());
    RC_ASSERT(is_answer(answer_to_bytes(bytes)));
    RC_ASSERT(
        is_answer(answer_to_bytes("{\"kind\":\"book\",\"format\":\"fallwright\",\"version\":1}\n" + bytes)));
    RC_ASSERT(is_answer(desk::answer(bytes)));
}

}  // namespace fallwright::properties
