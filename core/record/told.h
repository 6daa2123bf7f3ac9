// told: sentences and tables in their order, for the record and for the terminal alike.
//
// depth: how far in a line stands on a terminal, 0 for what everything below belongs to; the record makes
// lists of what is deeper. A piece is a sentence, or a table.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "record/writer.h"

namespace fallwright::record {

struct Told {
    // 0, 1, 2, ...; a table has one too.
    int depth = 0;
    std::string text;                   // without a full stop
    std::optional<sheet::Table> table;  // instead of a text; its columns without any text are left out
};

// Collects the pieces of one thing told.
class Tale {
  public:
    void say(int depth, std::string text) { pieces_.push_back({depth, std::move(text), std::nullopt}); }
    // A table without rows is none.
    void table(int depth, Rows rows) {
        if (!rows.empty()) pieces_.push_back({depth, "", std::move(rows).take()});
    }
    // Once, at the end.
    std::vector<Told> take() && { return std::move(pieces_); }

  private:
    std::vector<Told> pieces_;
};

// The pieces as blocks: what is of depth 0 as headings of that depth, the rest as lists and
// tables; what is deeper than an item of a list goes on in it, sentence by sentence.
void write_told(Writer& out, std::vector<Told> pieces, int heading_depth);

}  // namespace fallwright::record
