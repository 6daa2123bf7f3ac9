// What a report as PDF costs, in as many plain table pages by Cairo alone.
//
//   paper_cost BOOK     prints "pages N ratio R": pages of the full report, processor time of laying out and
//                       writing them over that of N pages with a table of text and lines
#include <cairo-pdf.h>

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <fstream>
#include <sstream>
#include <string>

#include "evaluation/evaluation.h"
#include "exchange/native/pdf/pdf.h"
#include "record/report.h"

namespace {

using namespace fallwright;

template <class Work>
double seconds_of(Work work) {
    const std::clock_t begin = std::clock();
    work();
    return static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
}

cairo_status_t append(void* closure, const unsigned char* data, unsigned length) {
    static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

// One page as anybody would draw it with Cairo's own calls: 55 rows of 8 figures, a line under each.
void plain_page(cairo_t* on, int page) {
    constexpr int rows = 55, columns = 8;
    constexpr double left = 51, top = 60, row_height = 13, column_width = 61, size = 8.5;
    cairo_select_font_face(on, "Liberation Sans", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(on, size);
    cairo_set_line_width(on, 0.3);
    for (int row = 0; row < rows; ++row) {
        const double y = top + row * row_height;
        for (int column = 0; column < columns; ++column) {
            cairo_move_to(on, left + column * column_width, y);
            cairo_show_text(
                on, (std::to_string(page + 49) + "." + std::to_string(100 + row * columns + column)).c_str());
        }
        cairo_move_to(on, left, y + 3);
        cairo_line_to(on, left + columns * column_width, y + 3);
        cairo_stroke(on);
    }
    cairo_show_page(on);
}

std::string plain_pages(int pages) {
    std::string bytes;
    cairo_surface_t* surface = cairo_pdf_surface_create_for_stream(append, &bytes, 595, 842);
    cairo_t* on = cairo_create(surface);
    for (int page = 0; page < pages; ++page) plain_page(on, page);
    cairo_destroy(on);
    cairo_surface_finish(surface);
    cairo_surface_destroy(surface);
    return bytes;
}

int pages_of(const std::string& bytes) {
    int count = 0;
    for (std::size_t at = bytes.find("/Type /Page %"); at != bytes.npos;
         at = bytes.find("/Type /Page %", at + 1))
        ++count;
    return count;
}

}  // namespace

int main(int count, char** arguments) {
    if (count != 2) return 2;
    std::stringstream text;
    text << std::ifstream(arguments[1]).rdbuf();
    Result<std::unique_ptr<Book>> read = read_book(text.str());
    if (!read) return 2;
    const Evaluation evaluation = evaluate(std::shared_ptr<const Book>(std::move(*read)), Seek::Suspects);
    const sheet::Document document = record::report_of(evaluation, {});
    const Result<std::string> first = pdf::pdf_of(document, {});
    if (!first) return 2;
    const int pages = pages_of(*first);
    plain_pages(pages);
    // Turn by turn, so that a busy machine is busy for both; the best of each.
    constexpr int tries = 15;
    double ours = 1e9, plain = 1e9;
    for (int i = 0; i < tries; ++i) {
        ours = std::min(ours, seconds_of([&] { pdf::pdf_of(document, {}); }));
        plain = std::min(plain, seconds_of([&] { plain_pages(pages); }));
    }
    std::printf("pages %d ratio %.3f\n", pages, ours / plain);
    return 0;
}
