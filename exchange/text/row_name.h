// How the point of a row is named, where it lies on a line, and what is remarked.
//
// The name stands in the sheet's column of points (SheetColumns::point_column), else it is the chainage, else
// the remark. Without a line in the options a chainage beside a name goes into the remark, and an offset to a
// chainage that is the name as in the book: "40 L3.5". With a line the chainage is read as a place on it.
#pragma once

#include <string>
#include <string_view>

#include "exchange/text/sheet_record.h"

namespace fallwright::text {

// A record with row, point, remark, chainage and offset.
Record name_row(const CsvRow& row, const SheetForm& form, SheetFindings& findings);

}  // namespace fallwright::text
