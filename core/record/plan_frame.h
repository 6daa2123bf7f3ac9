// plan_frame: a plan's sheet: its round scale, where a place lies on it, frame with grid, north arrow and
// scale bar. Inside record only.
//
// North is up. A line without a plan has a frame of its own: chainage is up, offset to the right, and there
// is no north.
#pragma once

#include "quantity/unit.h"
#include "record/drawing.h"

namespace fallwright {
struct Book;
}

namespace fallwright::record {

// Metres, east and north.
struct Extent {
    double west = 1, east = -1, south = 1, north = -1;

    bool any() const { return west <= east; }
    void take(double e, double n);
};

class PlanFrame {
  public:
    // top: where the frame begins on the sheet; room: of the frame, mm.
    PlanFrame(const Extent& extent, double top, double width, double height, Unit unit);

    double scale() const { return scale_; }
    const Box& box() const { return box_; }
    sheet::At at(double e, double n) const;

    // Frame and grid ticks; on_grid: false for a frame of a line's own.
    void draw(Drawing& drawing, const Book& book, bool on_grid) const;
    // Below the frame; where it ends.
    double draw_scale_bar(Drawing& drawing, const Book& book, double top) const;

  private:
    double scale_ = 100;
    double west_ = 0, north_ = 0;  // of the frame's upper left corner
    Box box_;
};

}  // namespace fallwright::record
