// figure_answer: drawings of a book as SVG, for screens and for files. Options of the verb report.
//
// What a drawing shows and its name: record/figures_of.h. SVG is that of sheet/render.h: real text, no
// script, millimetres of paper.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "base/result.h"
#include "desk/options.h"
#include "evaluation/evaluation.h"
#include "sheet/figure.h"

namespace fallwright {

// The sheets of one drawing; never empty.
struct FigureAnswer {
    Unit unit = Unit::Metre;
    std::string name;  // of the drawing
    std::vector<sheet::Figure> figures;
};

// Options: figure (required), line or surface (absent: all of them), width and height of the sheet in mm.
Result<FigureAnswer> figure_answer(const std::shared_ptr<const Book>& book, desk::Options& options);
// The JSON of api/schema/v1/figures.schema.json.
std::string figures_json(const FigureAnswer& answer);

}  // namespace fallwright
