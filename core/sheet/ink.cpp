#include "sheet/ink.h"

namespace fallwright::sheet {

const char* ink_colour(Ink ink) {
    switch (ink) {
        case Ink::Line:
            return "#1b1b1f";
        case Ink::Faint:
            return "#8a8a92";
        case Ink::Dig:
            return "#9a5b00";
        case Ink::Fill:
            return "#5b3a9e";
        case Ink::Ground:
            return "#6b4f35";
        case Ink::Design:
            return "#1b1b1f";
        case Ink::Water:
            return "#2f6f8f";
        case Ink::Paper:
            return "#ffffff";
    }
    return "#000000";
}

std::vector<Hatch> hatches_of(Pattern pattern) {
    constexpr double spacing = 1.6, wide = 1.2;
    switch (pattern) {
        case Pattern::HatchUp:
            return {{spacing, 45, false}};
        case Pattern::HatchDown:
            return {{spacing, -45, false}};
        case Pattern::CrossHatch:
            return {{spacing, 45, false}, {spacing, -45, false}};
        case Pattern::Dots:
            return {{wide, 0, true}};
        case Pattern::None:
        case Pattern::Solid:
        case Pattern::Tint:
            break;
    }
    return {};
}

}  // namespace fallwright::sheet
