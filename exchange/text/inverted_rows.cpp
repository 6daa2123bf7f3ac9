#include "exchange/text/inverted_rows.h"

#include "exchange/text/sheet_words.h"

namespace fallwright::text {

namespace {

bool speaks_of_inverted(const Record& record) {
    for (const std::string* text : {&record.remark, &record.point}) {
        for (const std::string_view word : words_of(*text)) {
            if (means_inverted(folded(word))) return true;
        }
    }
    return false;
}

}  // namespace

bool ask_inverted(const Record& record, Column column, std::optional<Decimal> plane, const BookedCheck& check,
                  const SheetForm& form, SheetFindings& findings) {
    const Amount& reading = record[column];
    if (reading.negative() || reading.digits == 0 || !speaks_of_inverted(record)) return false;
    const Column result = column == Column::Back ? Column::Collimation : Column::Level;
    const bool booked = plane && record[result];
    const Decimal upright =
        column == Column::Back ? plane.value_or(Decimal()) : plane.value_or(Decimal()) - reading.length();
    const Decimal twice = reading.length() + reading.length();
    if (booked && check.agrees(record, result, upright)) return false;
    const bool fits = booked && column != Column::Back && check.agrees(record, result, upright + twice);
    findings.add(Code::ImportInverted, form.columns.spot(record.row, column),
                 fits ? "the booked level is that of an inverted staff, the reading is booked upright"
                      : "the row speaks of an inverted staff, the reading is booked upright");
    return fits;
}

}  // namespace fallwright::text
