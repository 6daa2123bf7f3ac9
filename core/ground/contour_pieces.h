// Inside ground only. Traced lines become what is drawn: points one upon the other become one, and where
// lines go along a crest of spots of their own level, once on each side, they are taken apart there and the
// crest becomes a line of its own.
#pragma once

#include <vector>

#include "ground/contour_trace.h"

namespace fallwright::ground {

struct LinePiece {
    std::vector<Crossed> points;  // at least two
    bool closed = false;
};

// What is left of a traced line without its crests. Good until the next call.
class Pieces {
  public:
    const std::vector<LinePiece>& of(const Traced& traced);

  private:
    void thin_out(const Traced& traced);
    void step(const Crossed& from, const Crossed& to);
    void end(std::size_t keep);

    std::vector<Crossed> thin_;
    std::vector<std::vector<Crossed>>
        open_;  // the last ones may be gone on with when a crest leads back to them
    std::vector<LinePiece> found_;
};

// Parts of crests joined to lines: from ends and branches first, then those that close.
std::vector<LinePiece> join_crests(const std::vector<CrestPart>& parts);

}  // namespace fallwright::ground
