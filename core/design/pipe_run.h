// pipe_run: which pipe lies at a chainage.
//
// Pipes are stretches of chainage, from < to. Where two meet, the side decides: laid in belongs to the
// upstream pipe, all else to the downstream one. A pipe whose ends are not in order is left out, and so is
// one that overlaps a pipe written before it: there would be two bores at one place. Holes between pipes are
// allowed; nothing that counts from a pipe has a design in them.
#pragma once

#include <vector>

#include "book/line_entry.h"
#include "design/profile.h"

namespace fallwright {

class PipeRun {
  public:
    PipeRun() = default;
    // Points into `pipes`.
    explicit PipeRun(const std::vector<Pipe>& pipes);

    // Ends within least_chainage count as reached; nullptr where there is none.
    const Pipe* at(double ch, Side side) const;

    // In use, by rising chainage.
    const std::vector<const Pipe*>& pipes() const { return pipes_; }
    // Left out, as written.
    const std::vector<const Pipe*>& reversed() const { return reversed_; }
    const std::vector<const Pipe*>& overlapping() const { return overlapping_; }

  private:
    std::vector<const Pipe*> pipes_, reversed_, overlapping_;
};

}  // namespace fallwright
