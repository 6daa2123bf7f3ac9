#include "desk/figure_answer.h"

#include <utility>

#include "base/json_out.h"
#include "base/print.h"
#include "desk/asked.h"
#include "desk/write_json.h"
#include "record/figures_of.h"
#include "sheet/render.h"

namespace fallwright {

namespace {

// A sheet narrower than that holds no boxes, one larger is no paper.
constexpr double least_side = 100, largest_side = 2000;
constexpr int millimetre_places = 3;

double side(desk::Options& options, const char* name, double usual) {
    const double mm = options.number(name).value_or(usual);
    if (!(mm >= least_side && mm <= largest_side))
        options.refuse(desk::bad_request({name}, std::string(name) + " of a sheet is 100 mm to 2000 mm",
                                         "give it in millimetres, like 174"));
    return mm;
}

}  // namespace

Result<FigureAnswer> figure_answer(const std::shared_ptr<const Book>& book, desk::Options& options) {
    FigureAnswer answer;
    answer.unit = book->unit;
    answer.name = options.text("figure").value_or("");
    const std::string line = options.text("line").value_or(""),
                      surface = options.text("surface").value_or("");
    const record::Room usual;
    const record::Room room = {side(options, "width", usual.width), side(options, "height", usual.height)};
    if (options.fault()) return *options.fault();
    Result<std::vector<sheet::Figure>> figures =
        record::figures_of(evaluate(book), answer.name, answer.name == "surface" ? surface : line, room);
    if (!figures) return figures.finding();
    answer.figures = std::move(*figures);
    return answer;
}

std::string figures_json(const FigureAnswer& answer) {
    JsonOut out;
    out.begin_object().integer("version", format_version).text("unit", unit_word(answer.unit));
    out.text("figure", answer.name).key("figures").begin_array();
    for (std::size_t i = 0; i < answer.figures.size(); ++i) {
        const sheet::Figure& figure = answer.figures[i];
        out.begin_object().text("title", figure.title).text("said", figure.said);
        out.number("width", figure.width, millimetre_places)
            .number("height", figure.height, millimetre_places);
        // Ids of their own, so that all of them may stand in one page.
        out.text("svg", sheet::svg_of(figure, answer.name + "-" + std::to_string(i + 1))).end_object();
    }
    out.end_array().end_object();
    return out.take();
}

}  // namespace fallwright
