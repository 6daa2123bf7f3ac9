// worked: the rows from which a third party can work out one verdict by hand. Inside record only.
//
// For a station: each reading of it with the height of the light over the point, in the parts that make it;
// the level, what is wanted, the difference; the parts of the +-, cause by cause, whose squares add up to the
// whole (model/budget.h); the probability with its formula. For a fall: the two levels, their distance, the
// parts of the +- of the fall. Levels to 0.1 mm, so that sums by hand come out to the figures printed.
#pragma once

#include <vector>

#include "fall/falls.h"
#include "model/budget.h"
#include "record/writer.h"
#include "verdict/verdict.h"

namespace fallwright::record {

class Worked {
  public:
    // Looks once through the readings; the writer outlives it.
    explicit Worked(Writer& out);

    void station(const LineJudge& judge, const Design& design, const Station& station,
                 const StationVerdict& verdict);
    void fall(const LineJudge& judge, const FoundFall& fall, const FallVerdict& verdict);

  private:
    Rows sights(const Station& station);
    Rows sights(const std::vector<std::uint32_t>& all, std::size_t first, std::size_t last) const;
    void carried(const Station& station);
    void held_against(const LineJudge& judge, const Station& station, const StationVerdict& verdict,
                      Rows& rows);
    // scale: what one metre of the sum is in the figures shown.
    Rows parts(const std::vector<PointTerm>& sum, double scale, int places, const std::string& unit);
    void probability(double x, double sd, const Limits& limits, const Judgement& judged, double scale,
                     int places, const std::string& unit);

    Writer& out_;
    std::vector<std::vector<std::uint32_t>> sights_of_;  // rows of sights, per point
};

// "mark 1.500, 7 high", as it was booked, in the book's unit.
std::string booked_words(const Book& book, const Reading& reading);

}  // namespace fallwright::record
