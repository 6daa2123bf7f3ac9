#include "sheet/document.h"

#include <string_view>

namespace fallwright::sheet {

std::string word_before(const Statement& statement) {
    constexpr std::string_view word = "Caution";
    const bool said = std::string_view(statement.text).substr(0, word.size()) == word;
    return statement.tone == Tone::Caution && !said ? std::string(word) + ": " : std::string();
}

}  // namespace fallwright::sheet
