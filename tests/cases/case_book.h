// The book of a case: what stands between `book` and `end`, expanded to the lines of a book file.
//
// A line beginning with { is taken as it is, even if it is no JSON. `bytes "TEXT" [times N]` adds TEXT,
// decoded as a JSON string, without a newline. A Markdown table is a booked page. Anything else is the short
// hand of cases/FORMAT.md: WORD SUBJECT FIELD VALUE ...
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fallwright::cases {

class CaseBook {
  public:
    // The first line of the book with the fields given as FIELD VALUE words. Without it the book has none.
    void head(const std::vector<std::string>& words);
    // One line of the notation.
    void add(std::string_view line);
    // After the last line.
    void close();

    // FIELD of ENTRY becomes VALUE; FIELD may be a path (plane.bearing), null takes the field out. ENTRY is
    // an id, or the subject of the only entry that has it (a set-up's name, a benchmark's point), or #N, or
    // with * in it every id that follows the pattern.
    void change(std::string_view entry, const std::string& field, std::string_view value);
    void take_out(std::string_view entry);

    // The text of the book file.
    std::string text() const;

  private:
    struct Line {
        std::string text, id, subject;
    };
    void add_words(const std::vector<std::string>& words);
    void add_bytes(const std::vector<std::string>& words);
    void add_reading(const std::vector<std::string>& words);
    void add_raw(std::string_view line);
    void add_table_row(std::string_view line);
    void add_sight(std::string_view sight, const std::vector<std::string>& cells);
    void open_setup();
    std::string free_id(const std::string& wanted) const;
    Line& find(std::string_view entry);

    std::vector<Line> lines_;
    std::vector<std::string> columns_;  // of the table that is open
    std::string instrument_, setup_;
    int setups_ = 0;
};

}  // namespace fallwright::cases
