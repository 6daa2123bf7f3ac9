// draw_figures BOOK FOLDER [NAME [SUBJECT [WIDTH HEIGHT]]]: the drawings of a book as SVG files.
//
// Without NAME all kinds there are; files are named BOOK-NAME-NUMBER.svg. For looking at drawings while they
// are worked on, and for check_figures.py.
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <sstream>

#include "record/figures_of.h"
#include "sheet/render.h"

namespace {

namespace fw = fallwright;

std::string stem(const std::filesystem::path& book) {
    const std::string name = book.filename().string();
    return name.substr(0, name.find('.'));
}

void write(const std::vector<fw::sheet::Figure>& figures, const std::filesystem::path& folder,
           const std::string& name) {
    for (std::size_t i = 0; i < figures.size(); ++i) {
        const std::filesystem::path path = folder / (name + "-" + std::to_string(i + 1) + ".svg");
        std::ofstream(path) << fw::sheet::svg_of(figures[i]);
        std::cout << path.string() << "\n";
    }
}

}  // namespace

int main(int count, char** words) {
    if (count < 3) {
        std::cerr << "draw_figures BOOK FOLDER [NAME [SUBJECT [WIDTH HEIGHT]]]\n";
        return 2;
    }
    std::ostringstream text;
    text << std::ifstream(words[1]).rdbuf();
    fw::Result<std::unique_ptr<fw::Book>> book = fw::read_book(text.str());
    if (!book) {
        std::cerr << fw::one_line(book.finding()) << "\n";
        return 2;
    }
    const fw::Evaluation evaluation = fw::evaluate(std::shared_ptr<const fw::Book>(std::move(*book)));
    const std::string wanted = count > 3 ? words[3] : "", subject = count > 4 ? words[4] : "";
    fw::record::Room room;
    if (count > 6) room = {std::atof(words[5]), std::atof(words[6])};
    for (const fw::record::FigureKind& kind : fw::record::figure_kinds()) {
        if (!wanted.empty() && kind.name != wanted) continue;
        const auto figures = fw::record::figures_of(evaluation, kind.name, subject, room);
        if (figures) {
            write(*figures, words[2], stem(words[1]) + "-" + std::string(kind.name));
        } else if (!wanted.empty()) {
            std::cerr << fw::one_line(figures.finding()) << "\n";
            return 1;
        }
    }
    return 0;
}
