// dialled: a small book for tests, solved, with what the stage dial says of it. Inside dial only.
#pragma once

#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "dial/dial.h"
#include "model/predict.h"
#include "staff/figures.h"

namespace fallwright {

class Dialled {
  public:
    // entries: lines of JSON after the book's own.
    explicit Dialled(const std::string& entries)
        : book(std::move(
              *read_book("{\"kind\":\"book\",\"format\":\"fallwright\",\"version\":1,\"curvature\":false}\n" +
                         entries))),
          designs(design_lines(*book)),
          figures(read_figures(*book)),
          where(locate(*book, 30)),
          model(build_model(*book, figures, where)) {}

    Dials line(std::size_t setup = 0) const { return dial_line(basis(), 0, setup); }
    Dials points(const std::vector<std::string>& names, double crossfall = 0, std::size_t setup = 0) const {
        std::vector<NameId> ids;
        ids.reserve(names.size());
        for (const std::string& name : names) ids.push_back(book->names.find(name));
        return dial_points(basis(), ids, crossfall, setup);
    }
    DialBasis basis() const { return {*book, designs, where, *model}; }
    // What a staff of the book's set-up reads at a point, on a plane of these grades.
    double reads(const Axes& grades, const std::string& name, std::size_t setup = 0) const {
        const NameId id = book->names.find(name);
        const Spot& at = where.setups[setup];
        const Spot& spot = where.points[id];
        const Axes way = in_axes({spot.e - at.e, spot.n - at.n}, where.headings[setup]);
        const PointTerm term = {model->points.at(id), 1};
        return Predictor(*book, where, *model)
            .read_on({grades.main, grades.cross}, setup, {way.main, way.cross, 0, true, false},
                     {0, {&term, 1}}, -1)
            .staff;
    }
    static bool says(const Dials& dials, Code code) {
        for (const Finding& each : dials.findings) {
            if (each.code == code) return true;
        }
        return false;
    }

    std::unique_ptr<Book> book;
    Designs designs;
    Figures figures;
    Where where;
    std::unique_ptr<Model> model;
};

}  // namespace fallwright
