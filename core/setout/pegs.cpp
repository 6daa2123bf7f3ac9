#include "setout/pegs.h"

#include <cmath>

#include "base/print.h"
#include "base/stable_order.h"
#include "setout/stations.h"

namespace fallwright {

double whole_tenths(double cut, double unit) {
    constexpr double tenths = 10;
    // Rounded as it is printed, so that 0.3 is three tenths.
    return std::floor(rounded_to(cut / unit * tenths, length_places)) / tenths * unit;
}

std::vector<PegRow> peg_card(const SetoutBasis& basis, std::size_t line) {
    const Design& design = basis.designs.lines[line];
    const NameId peg = basis.book.names.find("peg");
    const LevelOf level_of = levels_found(basis.model);
    std::vector<PegRow> card;
    for (const Station& station : basis.found[line].stations) {
        if (station.what != peg) continue;
        for (const std::string& what :
             surfaces_at(design, {staff_surface(basis.book.lines[line])}, station.ch)) {
            const DesignLevel wanted = design.level(what, station.ch);
            PegRow row = {basis.model.points.name(static_cast<std::size_t>(station.point)),
                          station.ch,
                          station.off,
                          what,
                          basis.model.levels[static_cast<std::size_t>(station.point)].level,
                          wanted.value(level_of)};
            row.cut = row.level - row.design;
            if (std::isnan(row.cut)) continue;
            std::vector<PointTerm> sum = {{station.point, 1}};
            for (const Hang& hang : wanted.hangs)
                sum.push_back({basis.model.points.at(hang.point), -hang.coefficient});
            row.sd = std::sqrt(basis.model.variance_of(sum));
            row.whole = whole_tenths(row.cut, basis.book.metres_per_unit());
            row.line_down = row.cut - row.whole;
            card.push_back(std::move(row));
        }
    }
    sort_stably(card,
                [](const PegRow& a, const PegRow& b) { return a.ch != b.ch ? a.ch < b.ch : a.off < b.off; });
    return card;
}

}  // namespace fallwright
