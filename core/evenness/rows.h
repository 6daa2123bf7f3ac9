// rows: the readings of a line's surfaces, along it and across it, in order. Inside evenness only.
#pragma once

#include <vector>

#include "evenness/evenness.h"
#include "evenness/straightedge.h"

namespace fallwright {

// Readings of one surface in one row; positions: chainages along, offsets across.
struct RowOfReadings {
    NameId what = no_name;
    bool along = true;
    double at = 0;
    std::vector<const Station*> stations;
    RowLine line;    // their positions and levels
    RowLine design;  // the same of the design, NaN where there is none
};

// Rows of three readings and more with a level, as in evenness_of(); two at one position: the first stands.
std::vector<RowOfReadings> rows_of(const EvennessBasis& basis);

// Variance of a sum over readings of a row; coefficients by reading.
double variance_in(const Model& model, const RowOfReadings& row, const std::vector<double>& coefficients);
// Of reading i above the straight from a to b.
double variance_of_rest(const Model& model, const RowOfReadings& row, std::size_t a, std::size_t i,
                        std::size_t b);

// All stations of a surface at one chainage, from left to right; every line's surfaces but ground and peg.
struct StationsAt {
    NameId what = no_name;
    double ch = 0;
    std::vector<const Station*> stations;
};
// By rising chainage, surfaces in order of first appearance. Those without a level are left out.
std::vector<StationsAt> stations_by_chainage(const EvennessBasis& basis);

}  // namespace fallwright
