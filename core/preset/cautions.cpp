#include "preset/cautions.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <string>

#include "base/print.h"

namespace fallwright::preset {

namespace {

constexpr double foot = metres_per_foot;
constexpr double none = NAN;

constexpr Source hse{"HSE leaflet on excavations", "undated", Provenance::Published};
constexpr Source osha{"29 CFR 1926.651 and 1926.652", "undated", Provenance::Published};
constexpr Source norway{"Norway, Regulations concerning the Performance of Work, section 21-5", "undated",
                        Provenance::Published};
constexpr Source germany{"DIN 4124, as summarised on a secondary page", "undated", Provenance::Published};
constexpr Source poland{"Polish examination note (TWO.01), a secondary page", "undated",
                        Provenance::Published};
constexpr Source slopes{"29 CFR 1926 subpart P, appendix B, table B-1", "undated", Provenance::Published};
constexpr Source hsg47{"HSE HSG47, Avoiding danger from underground services; 29 CFR 1926.651(b)",
                       "3rd edition, 2014", Provenance::Published};
constexpr Source laser{"29 CFR 1926.54; classes of IEC 60825-1 as summarised by AUVA", "undated",
                       Provenance::Published};
constexpr Source confined{"Confined Spaces Regulations (Great Britain), as summarised for site workers",
                          "1997", Provenance::Published};
constexpr Source street{"Safety at Street Works and Road Works, code of practice (United Kingdom)",
                        "October 2013", Provenance::Published};
constexpr Source practice{"", "", Provenance::CommonPractice};

constexpr std::array<ExcavationLimits, 5> limits = {{
    {"great-britain", 1.2, "rule of thumb, no legal limit", none, none, none, none, none, Unit::Metre, hse},
    {"united-states", 5 * foot, "from there a protective system is required but in stable rock", 4 * foot,
     25 * foot, 2 * foot, 4 * foot, 20 * foot, Unit::Foot, osha},
    {"norway", none, "", 1.0, none, 1.0, none, none, Unit::Metre, norway},
    {"germany", 1.25, "largest depth with upright sides", none, none, none, none, none, Unit::Metre, germany},
    {"poland", none, "", none, none, 0.6, none, none, Unit::Metre, poland},
}};

constexpr std::array<CautionText, 7> texts = {{
    {CautionOf::Inspection, "inspection",
     "A competent person inspects the excavation at the start of each shift and after rain or anything else "
     "that "
     "may have moved it; soil weighs more than a tonne a cubic metre",
     hse},
    {CautionOf::Slopes, "slopes",
     "Sides cut back instead of supported lie no steeper than 1.5 to 1 (34 degrees) unless the soil is "
     "classified: type A 0.75 to 1 (53 degrees), type B 1 to 1 (45), type C 1.5 to 1 (34), only stable rock "
     "upright, all under 20 ft; flatter by half to one where anything moves",
     slopes},
    {CautionOf::Services, "services",
     "Plan the work, locate and identify the services, then dig safely: notify their owners first; plans are "
     "never "
     "enough, so detect, mark and prove by hand-dug trial holes, and treat what is found as live",
     hsg47},
    {CautionOf::LaserLight, "laser-light",
     "Never look into the beam, nor at it through a telescope or binoculars, and never aim it at people: "
     "class 2 (up "
     "to 1 mW) counts on the eye's own blink, class 3R reaches 5 mW, above that eyes are protected; an "
     "invisible beam "
     "makes nobody blink. A trained operator, notices posted, the beam off when it is not needed or left "
     "alone",
     laser},
    {CautionOf::ConfinedSpace, "confined-space",
     "Chambers, sewers and deep trenches may lack oxygen or hold toxic or flammable gas: read from the "
     "surface with a "
     "long staff rather than go in; entry needs a safe system of work, with the rescue arranged before, and "
     "the "
     "emergency services are not that rescue",
     confined},
    {CautionOf::Traffic, "traffic",
     "Staff holder and instrument stand inside the working space, never in the safety zone that is kept "
     "clear round "
     "it; sideways clearance at least 0.5 m up to 40 mph and 1.2 m from 50 mph (these two from memory: look "
     "them up)",
     street},
    {CautionOf::DrainageDesign, "drainage-design",
     "Sizes, falls and levels of drains are for a licensed or otherwise competent person under the code that "
     "holds "
     "there; levels do not pass a drain: tests of tightness and alignment are not covered",
     practice},
}};

void add(std::string& out, const char* what, double metres, Unit unit) {
    if (std::isnan(metres)) return;
    if (!out.empty()) out += ", ";
    out += what;
    out += ' ';
    out += trimmed(unit == Unit::Foot ? metres / foot : metres, 2);
    out += unit == Unit::Foot ? " ft" : " m";
}

std::string figures_text(const ExcavationLimits& each) {
    std::string out;
    add(out, "support", each.support, each.unit);
    if (!each.support_is.empty()) {
        out += " (";
        out += each.support_is;
        out += ')';
    }
    add(out, "way out from", each.way_out, each.unit);
    add(out, "within", each.way_out_within, each.unit);
    add(out, "spoil kept back", each.spoil, each.unit);
    add(out, "air tested from", each.air, each.unit);
    add(out, "engineer from", each.engineered, each.unit);
    return out;
}

}  // namespace

std::span<const ExcavationLimits> excavation_limits() {
    return limits;
}

const ExcavationLimits* find_excavation_limits(std::string_view name) {
    const auto* const found = std::find_if(limits.begin(), limits.end(),
                                           [&](const ExcavationLimits& each) { return each.name == name; });
    return found == limits.end() ? nullptr : found;
}

const ExcavationLimits& usual_excavation_limits(Unit unit) {
    return unit == Unit::Foot ? limits[1] : limits[0];
}

std::span<const CautionText> caution_texts() {
    return texts;
}

const CautionText& caution_text(CautionOf of) {
    const auto* const found =
        std::find_if(texts.begin(), texts.end(), [&](const CautionText& each) { return each.of == of; });
    assert(found != texts.end());
    return *found;
}

void list_cautions(std::vector<Listed>& all) {
    for (const ExcavationLimits& each : limits)
        all.push_back(
            {std::string(each.name), figures_text(each), "limits that rule cautions chooses", each.source});
    for (const CautionText& each : texts)
        all.push_back({"caution-" + std::string(each.code), std::string(each.text),
                       "said where it applies; cannot be switched off", each.source});
}

}  // namespace fallwright::preset
