// surveyed: a small book for tests, solved, with its surfaces. Inside ground only.
#pragma once

#include <memory>
#include <string>
#include <utility>

#include "base/print.h"
#include "ground/surfaces.h"
#include "staff/figures.h"

namespace fallwright::ground {

class Surveyed {
  public:
    // entries: lines of JSON after the book's own.
    explicit Surveyed(const std::string& entries)
        : book(std::move(
              *read_book("{\"kind\":\"book\",\"format\":\"fallwright\",\"version\":1,\"curvature\":false}\n" +
                         entries))),
          figures(read_figures(*book)),
          where(locate(*book, 30)),
          model(build_model(*book, figures, where)),
          surveys(survey_surfaces(*book, where, *model)) {}

    const SurveyedSurface& surface(std::size_t i = 0) const { return surveys.surfaces.at(i); }
    std::string name(NameId id) const { return id == no_name ? "" : book->name(id); }
    bool says(Code code) const {
        for (const Finding& each : surveys.findings) {
            if (each.code == code) return true;
        }
        return false;
    }

    std::unique_ptr<Book> book;
    Figures figures;
    Where where;
    std::unique_ptr<Model> model;
    Surveys surveys;
};

// A point with a given level and a place. sd 0: held.
inline std::string spot_lines(const std::string& name, const SpotLevel& spot, double sd = 0) {
    return R"({"kind":"benchmark","point":")" + name + R"(","level":)" + fixed(spot.level, 6) +
           (sd > 0 ? R"(,"sd":)" + fixed(sd, 6) : "") + "}\n" + R"({"kind":"place","point":")" + name +
           R"(","e":)" + fixed(spot.e, 4) + R"(,"n":)" + fixed(spot.n, 4) + "}\n";
}

// Spots p0, p1, ... and the surface G through them. more: further fields, each with a comma before it.
inline std::string surface_lines(const std::vector<SpotLevel>& spots, const std::string& more = "",
                                 double sd = 0) {
    std::string lines, names;
    for (std::size_t i = 0; i < spots.size(); ++i) {
        const std::string name = "p" + std::to_string(i);
        lines += spot_lines(name, spots[i], sd);
        names += (i == 0 ? "\"" : ",\"") + name + "\"";
    }
    return lines + R"({"kind":"surface","name":"G","points":[)" + names + "]" + more + "}\n";
}

}  // namespace fallwright::ground
