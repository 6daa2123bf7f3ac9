// The pieces of the book notation (cases/FORMAT.md): words to JSON fields, table rows to cells.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fallwright::cases {

// A word of the notation: the kind it writes, the fields given by place (the first is the subject), and what
// the word itself says.
struct NotationWord {
    std::string kind;
    std::vector<std::string> by_place;
    std::string fixed;
};
// nullptr where the word is none.
const NotationWord* notation_word(std::string_view word);

bool is_sight(std::string_view word);

// ,"name":value
std::string json_field(std::string_view name, std::string_view word);
// FIELD VALUE pairs from words[from] on. `back 1.432` is short for sight and staff.
std::string json_fields(const std::vector<std::string>& words, std::size_t from);
// The word that follows `name`, empty if there is none.
std::string value_after(const std::vector<std::string>& words, std::string_view name);

std::vector<std::string> table_cells(std::string_view line);

// A word without its quotes, escapes decoded.
std::string unquoted(std::string_view word);

}  // namespace fallwright::cases
