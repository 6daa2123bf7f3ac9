#include "verdict/deviation.h"

#include <cmath>

#include "fall/falls.h"

namespace fallwright {

std::vector<PointTerm> deviation_terms(const Book& book, const Design& design, const Model& model,
                                       const Station& station) {
    const DesignLevel wanted = design.level(book.names.text(station.what), station.ch, station.off);
    if (std::isnan(wanted.value(levels_found(model)))) return {};
    std::vector<PointTerm> sum = {{station.point, 1}};
    for (const Hang& hang : wanted.hangs) sum.push_back({model.points.at(hang.point), -hang.coefficient});
    return sum;
}

}  // namespace fallwright
