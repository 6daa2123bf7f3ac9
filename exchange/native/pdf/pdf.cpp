#include "exchange/native/pdf/pdf.h"

#include <cairo-pdf.h>

#include <memory>
#include <string_view>
#include <vector>

#include "exchange/native/pdf/paint.h"
#include "exchange/native/pdf/sheets.h"
#include "sheet/markup.h"

namespace fallwright::pdf {

namespace {

constexpr double points_per_mm = 72 / 25.4;

struct DestroySurface {
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
struct Destroy {
    void operator()(cairo_t* on) const { cairo_destroy(on); }
};
using Surface = std::unique_ptr<cairo_surface_t, DestroySurface>;
using Context = std::unique_ptr<cairo_t, Destroy>;

cairo_status_t append(void* closure, const unsigned char* data, unsigned length) {
    static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

std::string plain(std::string_view text) {
    std::string out;
    sheet::append_plain(out, text);
    return out;
}

void set_properties(cairo_surface_t* surface, const sheet::Document& document, const Properties& properties) {
    const auto set = [&](cairo_pdf_metadata_t which, std::string_view value) {
        if (!value.empty()) cairo_pdf_surface_set_metadata(surface, which, plain(value).c_str());
    };
    set(CAIRO_PDF_METADATA_TITLE, document.title);
    set(CAIRO_PDF_METADATA_SUBJECT, document.subject);
    set(CAIRO_PDF_METADATA_AUTHOR, properties.author);
    set(CAIRO_PDF_METADATA_CREATOR, properties.program);
    // Without a date of ours Cairo would take that of its clock; what is no date takes it away.
    // (Cairo 1.16 leaves out the D: before a date it is given; readers take it without.)
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE,
                                   plain(properties.made_at).c_str());
}

void add_outline(cairo_surface_t* surface, const std::vector<Bookmark>& bookmarks, double larger) {
    // The last entry of each depth, that deeper ones hang under.
    constexpr int depths = 4;
    int parents[depths] = {CAIRO_PDF_OUTLINE_ROOT};
    for (const Bookmark& mark : bookmarks) {
        const int depth = mark.depth < 1 ? 1 : mark.depth >= depths ? depths - 1 : mark.depth;
        // A position is told in points from the sheet's upper left corner.
        const std::string where = "page=" + std::to_string(mark.sheet + 1) + " pos=[" +
                                  std::to_string(static_cast<int>(mark.at.x * points_per_mm / larger)) + " " +
                                  std::to_string(static_cast<int>(mark.at.y * points_per_mm / larger)) + "]";
        const int entry =
            cairo_pdf_surface_add_outline(surface, parents[depth - 1], std::string(mark.text).c_str(),
                                          where.c_str(), CAIRO_PDF_OUTLINE_FLAG_OPEN);
        for (int deeper = depth; deeper < depths; ++deeper) parents[deeper] = entry;
    }
}

// "page i of n" on the right, what the document says on the left, shortened where it would meet it.
void paint_foot(cairo_t* on, sheet::PaperSize paper, bool turned, std::string_view foot,
                const std::string& page, Type& type) {
    constexpr double size = 2.5, under = 5.5, apart = 6;
    const double width = turned ? paper.height : paper.width, height = turned ? paper.width : paper.height;
    const double right = width - paper.margin, y = height - paper.margin + under;
    set_ink(on, sheet::Ink::Faint);
    cairo_set_line_width(on, 0.13);
    cairo_set_dash(on, nullptr, 0, 0);
    cairo_move_to(on, paper.margin, y - 3.2);
    cairo_line_to(on, right, y - 3.2);
    cairo_stroke(on);
    set_ink(on, sheet::Ink::Line);
    const double number = type.width(page, size, false);
    type.show(on, {right - number, y}, page, size, false, Setting::Fine);
    const std::vector<std::string_view> lines =
        type.lines(foot, size, false, width - 2 * paper.margin - number - apart);
    const bool whole = lines.size() == 1;
    type.show(on, {paper.margin, y},
              whole ? std::string(lines.front()) : std::string(lines.front()) + " \xe2\x80\xa6", size, false,
              Setting::Fine);
}

}  // namespace

Result<std::string> pdf_of(const sheet::Document& document, const Properties& properties) {
    Type type;
    if (!type.usable())
        return finding(Code::BadFile, {}, "no font is installed that the text could be set in");
    const Laid laid = lay_out(document, type);
    const sheet::PaperSize paper = sheet::size_of(document.paper);
    const double short_side = paper.width * points_per_mm, long_side = paper.height * points_per_mm;
    std::string bytes;
    Surface surface(cairo_pdf_surface_create_for_stream(append, &bytes, short_side, long_side));
    set_properties(surface.get(), document, properties);
    add_outline(surface.get(), laid.bookmarks, laid.larger);
    Context context(cairo_create(surface.get()));
    const std::string foot = plain(document.foot), of = " of " + std::to_string(laid.sheets.size());
    for (std::size_t k = 0; k < laid.sheets.size(); ++k) {
        const bool turned = laid.sheets[k].turned;
        cairo_pdf_surface_set_size(surface.get(), turned ? long_side : short_side,
                                   turned ? short_side : long_side);
        cairo_save(context.get());
        cairo_scale(context.get(), points_per_mm / laid.larger, points_per_mm / laid.larger);
        paint(context.get(), laid.sheets[k], type);
        cairo_restore(context.get());
        cairo_save(context.get());
        cairo_scale(context.get(), points_per_mm, points_per_mm);
        paint_foot(context.get(), paper, turned, foot, "page " + std::to_string(k + 1) + of, type);
        cairo_restore(context.get());
        cairo_show_page(context.get());
    }
    const cairo_status_t drawn = cairo_status(context.get());
    context.reset();
    cairo_surface_finish(surface.get());
    const cairo_status_t finished = cairo_surface_status(surface.get());
    if (drawn != CAIRO_STATUS_SUCCESS || finished != CAIRO_STATUS_SUCCESS) {
        const cairo_status_t status = drawn != CAIRO_STATUS_SUCCESS ? drawn : finished;
        return finding(Code::BadFile, {},
                       std::string("the PDF cannot be made: ") + cairo_status_to_string(status));
    }
    return bytes;
}

}  // namespace fallwright::pdf
