#include "setout/rails.h"

#include <algorithm>
#include <cmath>

#include "base/print.h"
#include "fall/ground_along.h"
#include "setout/stations.h"
#include "setout/words.h"

namespace fallwright {

namespace {

// Rails to sight over stand about a metre above the ground, never more than a person's eye: common practice,
// no source.
constexpr double usual_height = 1.0;
constexpr double highest = 1.7;
constexpr double least_change = 0.1;  // travellers are made in decimetres

void check_heights(const Book& book, const SetoutWish& wish, double traveller, Rails& all) {
    double low = NAN, high = NAN;
    for (const Rail& rail : all.rails) {
        low = std::fmin(low, rail.above_ground);
        high = std::fmax(high, rail.above_ground);
    }
    if (!(low < 0) && !(high > highest)) return;
    const double off = usual_height - (low + high) / 2;
    const double better = traveller + std::round(off / least_change) * least_change;
    const bool one_serves = better > 0 && low + better - traveller > 0 && high + better - traveller < highest;
    const std::string cure = one_serves ? "a traveller of " + length_words(book, better) + " puts them " +
                                              length_words(book, low + better - traveller) + " to " +
                                              length_words(book, high + better - traveller) + " above it"
                                        : "step the rails: one traveller does not serve the whole run";
    all.findings.push_back(finding(Code::SetoutRails, {book.name(book.lines[wish.line].name)},
                                   "with a traveller of " + length_words(book, traveller) +
                                       " the rails stand between " + length_words(book, low) + " and " +
                                       length_words(book, high) + " above the ground",
                                   cure));
}

}  // namespace

Rails sight_rails(const SetoutBasis& basis, const SetoutWish& wish, double traveller) {
    const Design& design = basis.designs.lines[wish.line];
    const LevelOf level_of = levels_found(basis.model);
    const GroundAlong ground(basis.book, basis.found[wish.line], basis.model);
    const std::vector<PegRow> pegs = peg_card(basis, wish.line);
    Rails all;
    for (const double ch : stations_of(design, wish.every, level_of).chainages) {
        for (const std::string& what :
             surfaces_at(design, {staff_surface(basis.book.lines[wish.line])}, ch)) {
            Rail rail;
            rail.ch = ch;
            rail.what = what;
            rail.level = design.level(what, ch).value(level_of) + traveller;
            if (std::isnan(rail.level)) continue;
            rail.above_ground = rail.level - ground.at(ch, 0).level;
            for (const PegRow& peg : pegs) {
                if (std::fabs(peg.ch - ch) < least_chainage && peg.what == what)
                    rail.above_pegs.push_back({peg.point, rail.level - peg.level});
            }
            all.rails.push_back(std::move(rail));
        }
    }
    check_heights(basis.book, wish, traveller, all);
    return all;
}

}  // namespace fallwright
