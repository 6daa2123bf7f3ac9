#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "properties/answers.h"
#include "properties/transform.h"

namespace fallwright::properties {

namespace {

Draw any_draw() {
    return Draw(*rc::gen::noShrink(rc::gen::arbitrary<std::uint64_t>()).as("choice"));
}

Wishes told() {
    Wishes wishes;
    wishes.told = true;
    return wishes;
}

// Something a person may write and take back.
Json second_thought(Draw& draw, const RandomBook& book) {
    const std::vector<Json> thoughts = {
        {{"kind", "reading"}, {"setup", "U1"}, {"point", "P1"}, {"staff", 3.333}},
        {{"kind", "reading"}, {"setup", "U1"}, {"point", "seen nowhere else"}, {"staff", 0.5}},
        {{"kind", "reading"}, {"setup", "no such"}, {"point", "P2"}, {"staff", "much"}},
        {{"kind", "benchmark"}, {"point", "P2"}, {"level", 12}},
        {{"kind", "step"}, {"from", "P1"}, {"to", "P3"}, {"rise", 7}},
        {{"kind", "setup"}, {"name", "U99"}, {"instrument", "L1"}},
        {{"kind", "instrument"}, {"name", "L9"}, {"type", "rotating-laser"}},
        {{"kind", "relaid"}, {"line", "D1"}, {"what", "ground"}, {"why", "dug"}},
        {{"kind", "adjusted"}, {"instrument", "N1"}, {"why", "dropped"}},
        {{"kind", "receiver"}, {"name", "R1"}, {"window", 0.01}},
        {{"kind", "nonsense"}, {"field", 1}}};
    Json thought = draw.from(thoughts);
    thought["at"] = book.lines.back()["at"];
    return thought;
}

Json about(const Json& entry, const char* kind, const std::string& id) {
    return {{"kind", kind}, {"of", entry["id"]}, {"why", "a slip"}, {"id", id}, {"at", entry["at"]}};
}

// Spoils a field of the entry and returns the amendment that puts it right.
Json spoil(Draw& draw, Json& entry, const std::string& id) {
    const Json right = entry;
    const std::vector<std::pair<std::string, Json>> slips = {
        {"staff", 1.111},           {"staff", "1,111"}, {"mark", -5},
        {"point", "elsewhere"},     {"level", 1},       {"rise", 100},
        {"plane", {{"main", 0.5}}}, {"zero", "none"},   {"dist", -3},
        {"instrument", "L7"}};
    std::vector<std::pair<std::string, Json>> fitting;
    for (const auto& slip : slips) {
        if (right.contains(slip.first)) fitting.push_back(slip);
    }
    fitting.emplace_back("shoe", Json::array());
    const auto [field, wrong] = draw.from(fitting);
    entry[field] = wrong;
    Json amend = about(entry, "amend", id);
    amend["set"][field] = right.contains(field) ? right[field] : Json();
    if (draw.one_in(2)) amend["was"][field] = wrong;
    return amend;
}

}  // namespace

RC_GTEST_PROP(I09, AStruckEntryLeavesNoTrace, ()) {
    const RandomBook book = any_book(told());
    Draw draw = any_draw();
    RandomBook other = book;
    for (std::size_t i = 0, count = 1 + draw.below(4); i < count; ++i) {
        Json thought = second_thought(draw, book);
        thought["id"] = "X-" + std::to_string(i);
        const std::size_t where = 1 + draw.below(other.lines.size());
        other.lines.insert(other.lines.begin() + static_cast<std::ptrdiff_t>(where), thought);
        other.lines.push_back(about(thought, "strike", "Y-" + std::to_string(i)));
    }
    RC_LOG(other.text());
    RC_ASSERT(answer_to(other.text()) == answer_to(book.text()));
}

RC_GTEST_PROP(I09, StrikingAStrikeUndoesIt, ()) {
    const RandomBook book = any_book(told());
    Draw draw = any_draw();
    RandomBook other = book;
    const Json& entry = book.lines[1 + draw.below(book.lines.size() - 1)];
    other.lines.push_back(about(entry, "strike", "Y-1"));
    other.lines.push_back(about(other.lines.back(), "strike", "Y-2"));
    RC_LOG(other.text());
    RC_ASSERT(answer_to(other.text()) == answer_to(book.text()));
}

RC_GTEST_PROP(I14, AnAmendedBookIsTheBookWrittenRightInTheFirstPlace, ()) {
    const RandomBook book = any_book(told());
    Draw draw = any_draw();
    RandomBook other = book;
    std::vector<Json> amends;
    for (std::size_t i = 0, count = 1 + draw.below(3); i < count; ++i) {
        Json& entry = other.lines[1 + draw.below(book.lines.size() - 1)];
        if (entry.contains("spoilt")) continue;
        amends.push_back(spoil(draw, entry, "Y-" + std::to_string(i)));
        entry["spoilt"] = true;
    }
    for (Json& line : other.lines) line.erase("spoilt");
    other.lines.insert(other.lines.end(), amends.begin(), amends.end());
    RC_LOG(other.text());
    RC_ASSERT(answer_to(other.text()) == answer_to(book.text()));
}

}  // namespace fallwright::properties
