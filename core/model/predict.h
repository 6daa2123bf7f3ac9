// predict: what a staff will read, before it is read, and how sure that is.
//
//   r = c + g_main u + g_cross v + what is known and found of every effect + (1-k) d^2/2R - level
// with the row of a reading as the model has it (model.h), upright staff. The level is a sum of levels found
// and a constant, so that what level and plane share (a benchmark, a tilt) costs once or cancels as it does
// on site. Effects that no reading carries keep their prior; what a check says of them together with others
// is then left out.
//
// Metres, ratios, one standard deviation. NaN where something is undetermined, or where nothing is read in
// the set-up or on its tripod, so that the plane hangs nowhere.
#pragma once

#include <span>

#include "model/model.h"

namespace fallwright {

// The level a staff will stand on: constant + sum of coefficient x level.
struct ForeseenLevel {
    double constant = 0;
    std::span<const PointTerm> sum;
};

// sd is that of the prediction; the reading itself adds its own noise (reading_noise), and how the staff's
// foot finds the surface.
struct Prediction {
    double staff = 0, sd = 0;  // metres
};

// The same in its parts: staff by the model's solution, the columns it leans on, and the variance of what no
// reading carries. For those who ask what another solution, or a suspicion, would make of it.
struct Foreseen {
    double staff = 0, variance = 0;
    std::vector<adjust::Term> terms;
};

class Predictor {
  public:
    // All outlive it.
    Predictor(const Book& book, const Where& where, const Model& model);

    // On the plane the set-up has in the book. staff: index in Book::staffs, -1 for none.
    Prediction read(std::size_t setup, const SightPlace& place, const ForeseenLevel& level,
                    std::int32_t staff) const;
    // NaN where nothing tells the plane or, on a slope, the place; terms may still be undetermined.
    Foreseen foresee(std::size_t setup, const SightPlace& place, const ForeseenLevel& level,
                     std::int32_t staff) const;
    // On a plane of these grades, dialled since on the same head: c stays to the set-up's head_sd, every tilt
    // stays, the settings of the grades are drawn anew.
    Prediction read_on(const std::array<double, 2>& grades, std::size_t setup, const SightPlace& place,
                       const ForeseenLevel& level, std::int32_t staff) const;
    // Noise of a reading of r metres there (contract section 2): its own, the staff's lean on a slope.
    double reading_noise(const std::array<double, 2>& grades, std::size_t setup, double r, double d) const;

  private:
    // Each adds its value, its columns, and the variance of what no reading carries.
    struct Sum;
    void add_plane(std::size_t setup, Sum& sum) const;
    void add_effect(const Effect& effect, const Prior& prior, adjust::Column column, const SetupTerms& terms,
                    const SightTerms& sight, Sum& sum) const;
    void add_effects(std::size_t setup, const SetupTerms& terms, bool set_anew, const SightTerms& sight,
                     Sum& sum) const;
    void add_staff(std::int32_t staff, double r, Sum& sum) const;
    Foreseen foresee_on(std::size_t setup, const SetupTerms& terms, bool set_anew, const SightPlace& place,
                        const ForeseenLevel& level, std::int32_t staff) const;
    Prediction predict(std::size_t setup, const SetupTerms& terms, bool set_anew, const SightPlace& place,
                       const ForeseenLevel& level, std::int32_t staff) const;

    const Book& book_;
    const Where& where_;
    const Model& model_;
    Curvature curvature_;
};

}  // namespace fallwright
