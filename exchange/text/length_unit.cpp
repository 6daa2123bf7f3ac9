#include "exchange/text/length_unit.h"

#include <string>

#include "exchange/text/sheet_words.h"

namespace fallwright::text {

std::optional<LengthUnit> length_unit(std::string_view word) {
    const std::string key = folded(word);
    if (one_of(key, "m metre metres meter meters metri metros mtr mtrs")) return LengthUnit::Metre;
    if (one_of(key, "mm millimetre millimetres millimeter millimeters")) return LengthUnit::Millimetre;
    if (one_of(key, "cm centimetre centimetres centimeter centimeters")) return LengthUnit::Centimetre;
    if (one_of(key, "dm decimetre decimetres")) return LengthUnit::Decimetre;
    if (one_of(key, "km kilometre kilometres kilometer")) return LengthUnit::Kilometre;
    if (one_of(key, "ft foot feet")) return LengthUnit::Foot;
    if (one_of(key, "in inch inches")) return LengthUnit::Inch;
    return std::nullopt;
}

bool refused_unit(std::string_view word) {
    return one_of(folded(word),
                  "yd yds yard yards link links chain chains rod rods mi mile miles usft ftus "
                  "ussurveyfeet surveyfeet");
}

bool imperial(LengthUnit unit) {
    return unit == LengthUnit::Foot || unit == LengthUnit::Inch;
}

UnitScale scale_of(LengthUnit unit) {
    switch (unit) {
        case LengthUnit::None:
        case LengthUnit::Metre:
            return {1, 0, 10000000};
        case LengthUnit::Decimetre:
            return {1, 1, 1000000};
        case LengthUnit::Centimetre:
            return {1, 2, 100000};
        case LengthUnit::Millimetre:
            return {1, 3, 10000};
        case LengthUnit::Kilometre:
            return {1000, 0, 10000000000};
        case LengthUnit::Foot:
            return {3048, 4, 3048000};
        case LengthUnit::Inch:
            return {254, 4, 254000};
    }
    return {1, 0, 10000000};
}

}  // namespace fallwright::text
