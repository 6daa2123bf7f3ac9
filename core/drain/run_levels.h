// run_levels: what is wanted, what is there and what was laid at a chainage of a run. Inside drain only.
#pragma once

#include <vector>

#include "drain/run.h"
#include "fall/ground_along.h"
#include "fall/over_design.h"

namespace fallwright::drain {

class RunLevels {
  public:
    RunLevels(const SetoutBasis& basis, std::size_t line);

    const Book& book() const { return basis_.book; }
    const Model& model() const { return basis_.model; }
    const Design& design() const { return design_; }
    const LineEntry& line() const { return design_.line(); }
    const LevelOf& level_of() const { return level_of_; }
    bool with_chainage() const { return with_chainage_; }

    // By rising chainage, each once: where the run has stations.
    std::vector<double> chainages() const;
    // Whether the invert changes there at once, or two kinds of pipes meet: then it has two stations.
    bool parts_at(double ch) const;
    // On which side a pipe that arrives lies, the way the water runs.
    Side side(bool arriving) const { return arriving == with_chainage_ ? Side::Before : Side::After; }
    // "laid", or at a step "laid in" and "laid out".
    std::string_view what(double ch, bool arriving) const;

    const Pipe* pipe(double ch, Side side) const { return design_.pipes().at(ch, side); }
    DesignLevel invert(double ch, Side side) const { return design_.level(invert_, ch, 0, side); }
    LevelAlong ground(double ch) const { return ground_.at(ch, 0); }
    const GroundAlong& grounds() const { return ground_; }
    // Its level and sd.
    std::pair<double, double> found(std::int32_t point) const;

    // The reading of what was laid there; nullptr where there is none. arriving: of the pipe that ends there
    // the way the water runs. Where a chamber has one invert, one reading serves as both.
    const Station* laid(double ch, bool arriving) const;

    // All but the judgements.
    RunStation station(double ch, bool arriving) const;

  private:
    void fill_ground(RunStation& station, const DesignLevel& invert, const Pipe* pipe, Side side) const;
    void fill_laid(RunStation& station, const Pipe* pipe, bool arriving) const;

    const SetoutBasis& basis_;
    const Design& design_;
    LevelOf level_of_;
    bool with_chainage_;
    GroundAlong ground_;
    DesignSurface invert_, soffit_, crown_, bottom_;
    std::vector<const Station*> laid_;  // by chainage
};

}  // namespace fallwright::drain
