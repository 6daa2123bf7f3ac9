// outlook: a layout solved, as those who will work by it see it. Inside plan only.
#pragma once

#include "plan/plan.h"
#include "plan/workbook.h"

namespace fallwright {

// The two figures a search goes by; NaN where some station hangs nowhere.
struct Score {
    double worst = NAN, mean = NAN;
    std::size_t worst_station = 0;

    bool known() const { return !std::isnan(worst) && !std::isnan(mean); }
};

// The least slip that shows in a reading: 4.13 sd / sqrt(redundancy); NaN where none does.
double least_slip(double sd, double redundancy);

// How a planned reading is guarded; rows of readings stand first in the model's problem.
struct Guard {
    double sd = 0, redundancy = 0;
    double detectable = NAN;
};
// row: of Model::sights. Its residual would be that of a made-up figure and is not asked for.
Guard guard_of(const Model& model, std::size_t row);

class Assessor {
  public:
    // All outlive it. The stations are those of `layout`, for every layout that is judged later.
    Assessor(Workbook& work, const PlanWish& wish, const Layout& layout);

    Score score(const Layout& layout);
    // cures: also say what would show slips that nothing shows.
    Outlook outlook(const Layout& layout);

    const std::vector<StationOutlook>& stations() const { return stations_; }
    // The largest sd at the tightest tolerance with which half of it is left to the builder; NaN: no
    // tolerance.
    double wanted_sd() const;
    std::int64_t solved() const { return solved_; }
    // Of the layout judged last.
    const Solved& last() const { return last_; }

  private:
    Score score_of(const Model& model) const;
    StationOutlook station_of(const PlanWish& wish, const Reading& reading) const;
    void weigh();
    void fill_sights(const Layout& layout, Outlook& outlook) const;
    void fill_spreads(const Layout& layout, Outlook& outlook) const;
    double level_of(const Reading& reading) const;
    void fill_falls(Outlook& outlook) const;

    Workbook& work_;
    std::vector<StationOutlook> stations_;
    std::vector<double> weights_;  // per station
    std::int64_t solved_ = 0;
    Solved last_;
};

}  // namespace fallwright
