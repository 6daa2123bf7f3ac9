// Fields: one JSON object of an entry, read field by field with its checks.
//
// Each getter marks its key as known and, where the value is of the wrong type or out of range, records a
// finding and clears ok(): the entry is then left out. Keys never asked for are reported by unknown().
//
// Inside book only.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "base/finding.h"
#include "book/book.h"
#include "book/record.h"

namespace fallwright {

// What all objects of one entry share: where findings go and how the entry is called.
// ok turns false once and stays so: every field of an entry is still read, so that a person hears of all that
// is wrong at once.
struct EntryContext {
    Book& book;
    Record& record;
    Findings& findings;
    std::uint32_t entry = 0;
    bool ok = true;

    std::string id() const { return book.id_of(entry); }

    // Records the finding about this entry and clears ok: the entry will be left out.
    void refuse(Code code, std::string message);
    void refuse(Code code, std::string message, std::string cure);
};

class Fields {
  public:
    Fields(EntryContext& context, std::uint32_t object, std::string path = "");

    // Given and not null.
    bool has(std::string_view key) { return given(key) != 0; }
    bool is_null(std::string_view key);
    // Number as written; within +-Decimal::limit_metres, as no ratio, angle or count goes beyond.
    Maybe number(std::string_view key);
    double number_or(std::string_view key, double fallback);
    // Length in metres; within +-Decimal::limit_metres.
    Maybe length(std::string_view key);
    // Not given: the fallback; required: a finding, and 0.
    double length_or(std::string_view key, double fallback);
    double required_length(std::string_view key);
    // One standard deviation; one under 1e-12 is 0, a negative one is a finding and absent. Absent where not
    // given.
    Maybe sd(std::string_view key, bool is_length = true);
    double sd_or(std::string_view key, double fallback, bool is_length = true);
    // Above zero.
    Maybe positive_length(std::string_view key);
    // Zero or above.
    Maybe thickness(std::string_view key);
    // A number, or a gradient as the trade writes it.
    Maybe gradient(std::string_view key);
    // A name, or no_name where not given; null and "" count as not given.
    NameId name(std::string_view key);
    NameId required_name(std::string_view key);
    // Text that is no name (a title): not kept among the names.
    std::string text(std::string_view key);
    // true or false.
    bool flag(std::string_view key, bool fallback = false);
    // Index into `words`, or -1 where not given; another word is a finding.
    int choice(std::string_view key, std::initializer_list<std::string_view> words);
    // The value's node; 0 where not given (node 0 is the entry itself, never a field).
    std::uint32_t take(std::string_view key) {
        const std::uint8_t shape = key_shape(key);
        return (present_ & shape_bit(shape)) == 0 ? 0 : find(key, shape);
    }
    // The same, and 0 where it is null.
    std::uint32_t given(std::string_view key) {
        const std::uint32_t node = take(key);
        return node != 0 && context_.record.node(node).type != NodeType::Null ? node : 0;
    }
    // Nodes of an array's elements; empty where not given.
    std::vector<std::uint32_t> array(std::string_view key);
    std::vector<NameId> names(std::string_view key);
    // Pairs [a, b] of numbers that are lengths.
    std::vector<std::array<double, 2>> length_pairs(std::string_view key);
    std::array<Maybe, 2> pair(std::string_view key, bool is_length);

    // Reports keys that no getter asked for, once an object.
    void unknown();

    EntryContext& context() { return context_; }
    // "staff", or "plan[3].e" inside.
    std::string path(std::string_view key) const;
    void wrong_type(std::string_view key, std::string_view wanted);
    double number_at(std::uint32_t node, std::string_view key, bool is_length);
    // 0 where it is no gradient.
    double gradient_at(std::uint32_t node, std::string_view key);
    void out_of_range(std::string_view key, std::string_view limits);
    NameId name_at(std::uint32_t node, std::string_view key);

  private:
    std::uint32_t find(std::string_view key, std::uint8_t shape);

    // Both belong to the caller, who outlives this.
    EntryContext& context_;
    std::uint32_t object_;
    std::string path_;
    std::uint64_t present_ = 0;  // a bit for the shape of each key there is: most keys asked for are absent
};

// Calls `each` for every object of a list, and reports its unknown keys; anything else in the list is a
// finding.
void for_each_object(Fields& fields, std::string_view key, const std::function<void(Fields&)>& each);

}  // namespace fallwright
