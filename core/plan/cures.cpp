#include "plan/cures.h"

#include <cmath>
#include <utility>

namespace fallwright {

namespace {

struct Candidate {
    Cure cure;
    std::vector<std::pair<std::size_t, double>> cured;  // sights, and what would show in them
};

bool unguarded(const SightOutlook& sight) {
    return std::isnan(sight.detectable);
}

std::vector<Candidate> candidates(Grounds& grounds, Assessor& assessor, const Layout& layout,
                                  const Outlook& outlook) {
    std::vector<Candidate> all;
    each_check(grounds, layout, [&](const Move& move) {
        assessor.score(move.layout);
        Candidate one;
        const PlannedSight& added = move.layout.sights.back();
        one.cure.stand = added.stand;
        one.cure.point = added.as.point;
        one.cure.again = move.change == Change::ReadAgain;
        const Solved& solved = assessor.last();
        for (std::size_t i = 0; i < layout.sights.size(); ++i) {
            const std::int32_t row = solved.model->sights.row_of[solved.first + i];
            if (!unguarded(outlook.sights[i]) || row < 0) continue;
            const Guard guard = guard_of(*solved.model, static_cast<std::size_t>(row));
            if (guard.redundancy > 0) one.cured.emplace_back(i, guard.detectable);
        }
        if (!one.cured.empty()) all.push_back(std::move(one));
    });
    return all;
}

}  // namespace

void find_cures(Grounds& grounds, Assessor& assessor, const Layout& layout, Outlook& outlook) {
    std::vector<std::size_t> helped(layout.sights.size(), 0);
    for (std::size_t i = 0; i < layout.sights.size(); ++i) {
        SightOutlook& sight = outlook.sights[i];
        if (!unguarded(sight) || sight.sd == 0) continue;
        const double once_more = least_slip(sight.sd, 0.5);
        sight.cure = {layout.sights[i].stand, layout.sights[i].as.point, true, once_more};
        helped[i] = 1;
    }
    for (const Candidate& one : candidates(grounds, assessor, layout, outlook)) {
        for (const auto& [i, detectable] : one.cured) {
            if (one.cured.size() <= helped[i]) continue;
            helped[i] = one.cured.size();
            outlook.sights[i].cure = one.cure;
            outlook.sights[i].cure.detectable = detectable;
        }
    }
}

}  // namespace fallwright
