// type: the fonts of a PDF, how wide texts are in them, where they break, and setting them. Inside pdf only.
//
// Sizes and widths in millimetres; the cairo context that is painted on has millimetres as its unit. Texts
// are UTF-8 without line breaks (sheet/markup.h's append_plain).
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "sheet/figure.h"

// As cairo.h has it, which not everybody here needs.
typedef struct _cairo cairo_t;  // NOLINT(bugprone-reserved-identifier,modernize-use-using)

namespace fallwright::pdf {

// How a text is set: Fine by Pango with kerning, for text that is read; Quick glyph by glyph, for figures in
// tables and on drawings, which have no kerning. Characters that the font has not are set by Pango anyway.
enum class Setting : std::uint8_t { Fine, Quick };

class Type {
  public:
    Type();
    ~Type();
    Type(const Type&) = delete;
    Type& operator=(const Type&) = delete;

    // False where the machine has no font at all.
    bool usable() const;

    double width(std::string_view text, double size, bool bold);

    // The lines of a text in a column; a word that is wider than it is broken. At least one line.
    std::vector<std::string_view> lines(std::string_view text, double size, bool bold, double column);

    // With the left end of its baseline at a place, in the colour that is set.
    void show(cairo_t* on, sheet::At at, std::string_view text, double size, bool bold, Setting setting);

  private:
    struct Glyph {
        unsigned long index = 0;
        double advance = 0;  // at a size of 1
        bool there = false;
    };
    struct Face;

    // Null where the font has not this character, or its script needs shaping.
    const Glyph* glyph(char32_t c, bool bold);
    std::size_t fitting(std::string_view word, double size, bool bold, double column);
    double shaped_width(std::string_view text, double size, bool bold);
    bool show_quick(cairo_t* on, sheet::At at, std::string_view text, double size, bool bold);

    std::array<std::unique_ptr<Face>, 2> faces_;
    std::unordered_map<char32_t, Glyph> glyphs_[2];
};

}  // namespace fallwright::pdf
