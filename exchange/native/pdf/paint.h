// paint: figures and sheets onto a cairo context whose unit is the millimetre. Inside pdf only.
#pragma once

#include "exchange/native/pdf/sheets.h"

namespace fallwright::pdf {

// With its upper left corner at the origin. Nothing is drawn beyond its width and height.
void paint(cairo_t* on, const sheet::Figure& figure, Type& type);

// Everything but the foot.
void paint(cairo_t* on, const Sheet& sheet, Type& type);

void set_ink(cairo_t* on, sheet::Ink ink, double share = 1);

}  // namespace fallwright::pdf
