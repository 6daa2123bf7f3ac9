// trench_section: the cross section of a trench, and volumes of a piece in which its depth runs straight.
// Inside drain only.
#pragma once

#include <array>

#include "drain/trench.h"

namespace fallwright::drain {

// Areas of one cross section, m2.
struct SectionAreas {
    double dug = 0, bedding = 0, surround = 0, pipe = 0;
};

class TrenchSection {
  public:
    TrenchSection(const TrenchRule& rule, const Pipe& pipe);

    double outside() const { return outside_; }
    double width(double depth) const { return rule_->least_width(*pipe_, depth); }
    // At a depth, as wide as a trench of another depth: a piece is as wide all along as in its middle.
    SectionAreas areas(double depth, double width) const;

    // Adds what a piece gives. weights: how the volume dug grows with the depth at either end, m2.
    void add_piece(double length, double depth1, double depth2, Dug& dug,
                   std::array<double, 2>& weights) const;

  private:
    void add_part(double length, double depth1, double depth2, Dug& dug) const;

    const TrenchRule* rule_;
    const Pipe* pipe_;
    double outside_ = 0, bedding_ = 0;
    std::array<double, 7> bends_{};  // depths at which some area bends or the width steps, rising
};

}  // namespace fallwright::drain
