// preset: tables of figures that other people set, each with its source, edition and provenance.
//
// One table, one pair of files here (misclosure, error_figures, ...); a new table is a new pair and one line
// in preset.cpp. A table says where its figures come from, and how sure we are of that:
//   published                    the figures were read in the source named
//   from memory                  recalled, not confirmed against the text: a finding preset-from-memory says
//                                so wherever such a preset is used, and it stays editable
//   common practice, no source   what is usual on site
// A preset is a starting point that a rule in the book overrides; the specification or code that governs the
// work always comes first. docs/methods/presets.md lists every preset (a test holds it to this list).
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace fallwright::preset {

enum class Provenance : std::uint8_t { Published, FromMemory, CommonPractice };

std::string_view provenance_word(Provenance provenance);

struct Source {
    std::string_view text;     // author, title, section; empty where there is none
    std::string_view edition;  // year or number as the source gives it; "undated" where it gives none
    Provenance provenance = Provenance::CommonPractice;
};

// One preset in words: what docs/methods/presets.md and a choice list show.
struct Listed {
    std::string name;     // as written in a book's rule
    std::string figures;  // "5 mm x sqrt(set-ups)"
    std::string use;      // what it is for, and what it is not
    Source source;
};

// Every preset of every table, table by table.
std::vector<Listed> all_presets();

}  // namespace fallwright::preset
