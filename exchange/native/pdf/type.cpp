#include "exchange/native/pdf/type.h"

#include <pango/pangocairo.h>

#include <algorithm>
#include <string>

#include "sheet/markup.h"
#include "sheet/type.h"

namespace fallwright::pdf {

namespace {

template <class T>
struct Unref {
    void operator()(T* object) const { g_object_unref(object); }
};
template <class T>
using Held = std::unique_ptr<T, Unref<T>>;

struct FreeDescription {
    void operator()(PangoFontDescription* description) const { pango_font_description_free(description); }
};
struct DestroyOptions {
    void operator()(cairo_font_options_t* options) const { cairo_font_options_destroy(options); }
};
struct DestroyScaled {
    void operator()(cairo_scaled_font_t* font) const { cairo_scaled_font_destroy(font); }
};

// Glyphs are placed where the outlines say; hints are for screens.
std::unique_ptr<cairo_font_options_t, DestroyOptions> paper_options() {
    std::unique_ptr<cairo_font_options_t, DestroyOptions> options(cairo_font_options_create());
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
    return options;
}

// Scripts whose letters stand one after the other as they are: Latin, Greek, Cyrillic, punctuation, arrows
// and mathematical signs.
bool stands_alone(char32_t c) {
    return (c >= 0x20 && c < 0x300) || (c >= 0x370 && c < 0x483) || (c >= 0x2010 && c < 0x2028) ||
           (c >= 0x2030 && c < 0x2060) || (c >= 0x20a0 && c < 0x20c0) || (c >= 0x2190 && c < 0x2300);
}

}  // namespace

// One weight of the family.
struct Type::Face {
    Held<PangoContext> context;
    Held<PangoLayout> layout;
    std::unique_ptr<PangoFontDescription, FreeDescription> description;
    Held<PangoFont> font;
    cairo_font_face_t* cairo_face = nullptr;  // of `font`
    std::unique_ptr<cairo_scaled_font_t, DestroyScaled> measure;

    explicit Face(bool bold) {
        PangoFontMap* map = pango_cairo_font_map_get_default();
        context.reset(pango_font_map_create_context(map));
        pango_cairo_context_set_font_options(context.get(), paper_options().get());
        pango_context_set_round_glyph_positions(context.get(), FALSE);
        description.reset(pango_font_description_new());
        pango_font_description_set_family(description.get(), std::string(sheet::type_family).c_str());
        pango_font_description_set_weight(description.get(), bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
        pango_font_description_set_absolute_size(description.get(), 10 * PANGO_SCALE);
        layout.reset(pango_layout_new(context.get()));
        pango_layout_set_single_paragraph_mode(layout.get(), TRUE);
        font.reset(pango_font_map_load_font(map, context.get(), description.get()));
        if (font) open();
    }

    void open() {
        cairo_scaled_font_t* scaled = pango_cairo_font_get_scaled_font(PANGO_CAIRO_FONT(font.get()));
        if (scaled == nullptr) return;
        cairo_face = cairo_scaled_font_get_font_face(scaled);
        cairo_matrix_t size, none;
        cairo_matrix_init_scale(&size, measured_at, measured_at);
        cairo_matrix_init_identity(&none);
        measure.reset(cairo_scaled_font_create(cairo_face, &size, &none, paper_options().get()));
    }

    static constexpr double measured_at = 1000;

    // Lays a text out by Pango; its size in the layout's own unit.
    void set(std::string_view text, double size) {
        pango_font_description_set_absolute_size(description.get(), size * PANGO_SCALE);
        pango_layout_set_font_description(layout.get(), description.get());
        pango_layout_set_text(layout.get(), text.data(), static_cast<int>(text.size()));
    }
};

Type::Type() : faces_{std::make_unique<Face>(false), std::make_unique<Face>(true)} {}
Type::~Type() = default;

bool Type::usable() const {
    return faces_[0]->measure != nullptr && faces_[1]->measure != nullptr;
}

const Type::Glyph* Type::glyph(char32_t c, bool bold) {
    const auto [at, fresh] = glyphs_[bold ? 1 : 0].try_emplace(c);
    Glyph& glyph = at->second;
    if (fresh && stands_alone(c)) {
        std::string text;
        sheet::append_character(text, c);
        cairo_glyph_t* found = nullptr;
        int count = 0;
        const Face& face = *faces_[bold ? 1 : 0];
        cairo_scaled_font_text_to_glyphs(face.measure.get(), 0, 0, text.data(), static_cast<int>(text.size()),
                                         &found, &count, nullptr, nullptr, nullptr);
        if (count == 1 && found[0].index != 0) {
            cairo_text_extents_t extents;
            cairo_scaled_font_glyph_extents(face.measure.get(), found, 1, &extents);
            glyph = {found[0].index, extents.x_advance / Face::measured_at, true};
        }
        cairo_glyph_free(found);
    }
    return glyph.there ? &glyph : nullptr;
}

double Type::shaped_width(std::string_view text, double size, bool bold) {
    // Measured large: Pango's units are whole numbers.
    constexpr double large = 100;
    Face& face = *faces_[bold ? 1 : 0];
    face.set(text, large);
    PangoRectangle logical;
    pango_layout_get_extents(face.layout.get(), nullptr, &logical);
    return logical.width * size / (large * PANGO_SCALE);
}

double Type::width(std::string_view text, double size, bool bold) {
    double sum = 0;
    for (std::size_t at = 0; at < text.size();) {
        const Glyph* next = glyph(sheet::next_character(text, at), bold);
        if (next == nullptr) return shaped_width(text, size, bold);
        sum += next->advance;
    }
    return sum * size;
}

std::size_t Type::fitting(std::string_view word, double size, bool bold, double column) {
    std::size_t end = 0;
    sheet::next_character(word, end);
    for (std::size_t next = end; next < word.size(); end = next) {
        sheet::next_character(word, next);
        if (width(word.substr(0, next), size, bold) > column) break;
    }
    return end;
}

std::vector<std::string_view> Type::lines(std::string_view text, double size, bool bold, double column) {
    std::vector<std::string_view> out;
    column += 0.01;  // mm: a column that was made as wide as its text holds it
    const double blank = width(" ", size, bold);
    std::size_t begin = 0, end = 0;  // of the line so far
    double used = 0;
    for (std::size_t at = 0; at < text.size();) {
        if (text[at] == ' ') {
            ++at;
            continue;
        }
        const std::size_t stop = std::min(text.find(' ', at), text.size());
        const double wide = width(text.substr(at, stop - at), size, bold);
        const double gap = blank * static_cast<double>(at - end);
        if (end > begin && used + gap + wide > column) {
            out.push_back(text.substr(begin, end - begin));
            end = begin = at;
        }
        if (end == begin) {
            begin = at;
            used = wide;
            if (wide > column) {
                const std::size_t part = fitting(text.substr(at, stop - at), size, bold, column);
                if (at + part < stop) {
                    out.push_back(text.substr(at, part));
                    begin = end = at = at + part;
                    continue;
                }
            }
        } else {
            used += gap + wide;
        }
        end = at = stop;
    }
    if (end > begin || out.empty()) out.push_back(text.substr(begin, end - begin));
    return out;
}

bool Type::show_quick(cairo_t* on, sheet::At at, std::string_view text, double size, bool bold) {
    std::vector<cairo_glyph_t> glyphs;
    std::vector<cairo_text_cluster_t> clusters;
    double x = at.x;
    for (std::size_t k = 0; k < text.size();) {
        const std::size_t begin = k;
        const Glyph* next = glyph(sheet::next_character(text, k), bold);
        if (next == nullptr) return false;
        glyphs.push_back({next->index, x, at.y});
        clusters.push_back({static_cast<int>(k - begin), 1});
        x += next->advance * size;
    }
    cairo_set_font_face(on, faces_[bold ? 1 : 0]->cairo_face);
    cairo_set_font_size(on, size);
    cairo_show_text_glyphs(on, text.data(), static_cast<int>(text.size()), glyphs.data(),
                           static_cast<int>(glyphs.size()), clusters.data(),
                           static_cast<int>(clusters.size()), {});
    return true;
}

void Type::show(cairo_t* on, sheet::At at, std::string_view text, double size, bool bold, Setting setting) {
    if (text.empty()) return;
    if (setting == Setting::Quick && show_quick(on, at, text, size, bold)) return;
    Face& face = *faces_[bold ? 1 : 0];
    pango_cairo_update_context(on, face.context.get());
    pango_layout_context_changed(face.layout.get());
    face.set(text, size);
    cairo_move_to(on, at.x, at.y);
    pango_cairo_show_layout_line(on, pango_layout_get_line_readonly(face.layout.get(), 0));
}

}  // namespace fallwright::pdf
