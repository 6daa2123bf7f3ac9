// even_book: a small book for tests, evaluated as far as evenness needs. Inside evenness only.
#pragma once

#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "base/print.h"
#include "evenness/evenness.h"
#include "staff/figures.h"
#include "where/where.h"

namespace fallwright {

class EvenBook {
  public:
    // fields: of the line R1 after its name; entries: lines of JSON after it. Readings of sd `noise`, nothing
    // shared but the plane.
    EvenBook(const std::string& fields, const std::string& entries, const std::string& readings,
             double noise = 1e-6, const std::string& unit = "m")
        : book_(std::move(*read_book(
              R"({"kind":"book","format":"fallwright","version":1,"curvature":false,"unit":")" + unit +
              R"("}
{"kind":"what","name":"finished","foot_sd":0}
{"kind":"what","name":"kerb","foot_sd":0}
{"kind":"line","name":"R1",)" +
              fields + "}\n" + entries +
              R"({"kind":"instrument","name":"L","type":"rotating-laser","tilt_sd":0,"setting_tilt_sd":0,"cone_sd":0,"reading_sd":)" +
              number(noise) + R"(}
{"kind":"benchmark","point":"A","level":100}
{"kind":"setup","name":"S","instrument":"L"}
{"kind":"reading","point":"A","staff":2}
)" + readings))),
          designs_(design_lines(*book_)),
          figures_(read_figures(*book_)),
          where_(locate(*book_, 30)),
          model_(build_model(*book_, figures_, where_)),
          found_(find_falls(*book_, *model_)) {}

    // A reading from the light at 102 down to a level.
    static std::string at(double ch, double level, double off = 0, const std::string& what = "finished") {
        return R"({"kind":"reading","line":"R1","ch":)" + number(ch) + R"(,"off":)" + number(off) +
               R"(,"what":")" + what + R"(","staff":)" + number(102 - level) + "}\n";
    }
    static std::string number(double v) { return trimmed(v, 8); }

    const Book& book() const { return *book_; }
    EvennessBasis basis() const { return {*book_, designs_.lines[0], found_[0], *model_}; }
    std::vector<EvenRow> rows() const { return evenness_of(basis()); }
    EvenRow row(std::size_t i = 0) const { return rows().at(i); }
    std::vector<Section> sections() const {
        const LineJudge judge(*book_, designs_.lines[0], found_[0], *model_);
        return sections_of(basis(), judge);
    }

  private:
    std::unique_ptr<Book> book_;
    Designs designs_;
    Figures figures_;
    Where where_;
    std::unique_ptr<Model> model_;
    std::vector<LineFalls> found_;
};

}  // namespace fallwright
