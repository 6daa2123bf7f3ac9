// tripod_pulls: pulls of shifts that several readings of one tripod share, without a solve for each.
//
// A knock before a reading shifts all readings from there on: its column is that of the next knock and one
// reading more, so pull, c' P c and z are summed up from the last reading backwards, |z|^2 by the product of
// the sum so far with what comes to it. Runs of up to four readings come from the products of their own.
//
// Inside suspect only.
#pragma once

#include <array>
#include <vector>

#include "suspect/causes.h"

namespace fallwright {

class TripodPulls {
  public:
    TripodPulls(const Evidence& evidence, const Causes& causes);

    // Of the readings from this one (index of its row) to the tripod's last.
    Pull from(std::int32_t row);
    // Of shifts that are all of readings on the tripod of this one.
    Pull of(std::int32_t row, const Shifts& shifts);
    // Of `count` readings following one another, this one first.
    Pull run(std::int32_t row, std::size_t count);

  private:
    struct Step {
        bool checked = false;
        Pull from_here;
        std::array<double, 4> beside{};  // z of the reading times z of the next ones, itself first
    };
    void take_tripod(std::int32_t row);
    void sum_backwards(std::span<const std::uint32_t> rows);
    void multiply_neighbours(std::span<const std::uint32_t> rows);
    void add(std::span<const adjust::Part> parts, double factor, double& squares);
    void clear_sum();

    const Evidence& evidence_;
    const Causes& causes_;
    std::int32_t tripod_ = -1;
    std::vector<std::vector<adjust::Part>> parts_;  // of the tripod's readings, in time order
    std::vector<Step> steps_;
    std::vector<double> sum_;            // z so far, by source; 0 between calls
    std::vector<std::int32_t> touched_;  // where it is not 0
};

}  // namespace fallwright
