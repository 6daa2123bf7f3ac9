#include "preset/self_cleansing.h"

#include <algorithm>
#include <array>
#include <string>

#include "base/print.h"

namespace fallwright::preset {

namespace {

using By = CleansingBy;

constexpr double litre = 0.001;
constexpr double inch = 0.0254;
constexpr double endless = std::numeric_limits<double>::infinity();
constexpr double quarter_inch_per_foot = 0.25 / 12, eighth = 0.125 / 12, sixteenth = 0.0625 / 12;

constexpr CleansingRow metric(double bore_mm, double wants, Provenance provenance = Provenance::Published) {
    return {bore_mm / 1000, bore_mm / 1000, wants, NAN, 0, endless, 0, provenance};
}

constexpr CleansingRow inches(double size, double percent, Provenance provenance = Provenance::Published) {
    return {size * inch, size * inch, percent / 100, NAN, 0, endless, 0, provenance};
}

constexpr CleansingRow small_flow(double bore_mm, double one_in) {
    return {bore_mm / 1000, bore_mm / 1000, 1 / one_in, NAN, 0, litre, 0, Provenance::Published};
}

constexpr CleansingRow larger_flow(double bore_mm, double one_in, int closets) {
    return {bore_mm / 1000, bore_mm / 1000, 1 / one_in, NAN, litre, endless, closets, Provenance::Published};
}

constexpr CleansingRow sizes(double from, double to, double wants) {
    return {from, to, wants, NAN, 0, endless, 0, Provenance::Published};
}

constexpr CleansingRow between(double bore_mm, double flattest, double steepest) {
    return {bore_mm / 1000,        bore_mm / 1000, 1 / flattest, 1 / steepest, 0, endless, 0,
            Provenance::FromMemory};
}

constexpr std::array<CleansingRow, 5> england = {{small_flow(75, 40), small_flow(100, 40),
                                                  larger_flow(75, 80, 0), larger_flow(100, 80, 1),
                                                  larger_flow(150, 150, 5)}};

constexpr std::array<CleansingRow, 3> us_drain = {{sizes(0, 2.5 * inch, quarter_inch_per_foot),
                                                   sizes(3 * inch, 6 * inch, eighth),
                                                   sizes(8 * inch, endless, sixteenth)}};
constexpr std::array<CleansingRow, 1> us_quarter = {{sizes(0, endless, quarter_inch_per_foot)}};
constexpr std::array<CleansingRow, 1> us_eighth = {{sizes(3 * inch, endless, eighth)}};

constexpr std::array<CleansingRow, 15> us_sewer = {
    {inches(8, 0.4), inches(10, 0.28, Provenance::FromMemory), inches(12, 0.22), inches(14, 0.17),
     inches(15, 0.15), inches(16, 0.14), inches(18, 0.12), inches(21, 0.1), inches(24, 0.08),
     inches(27, 0.067, Provenance::FromMemory), inches(30, 0.058, Provenance::FromMemory),
     inches(33, 0.052, Provenance::FromMemory), inches(36, 0.046, Provenance::FromMemory),
     inches(39, 0.041, Provenance::FromMemory), inches(42, 0.037, Provenance::FromMemory)}};

constexpr std::array<CleansingRow, 4> australia = {
    {metric(65, 0.025), metric(80, 0.0165, Provenance::FromMemory), metric(100, 0.0165),
     metric(150, 0.01, Provenance::FromMemory)}};

constexpr std::array<CleansingRow, 6> india = {{between(100, 57, 5.6), between(150, 100, 9.7),
                                                between(200, 145, 14), between(230, 175, 17),
                                                between(250, 195, 19), between(300, 250, 24.5)}};

constexpr std::array<CleansingRow, 3> latham = {
    {sizes(0.15, 0.25, 1.0), sizes(0.3, 0.6, 0.7), sizes(0.6, endless, 0.6)}};

constexpr Source en752{"table attributed to BS EN 752-4, national guidance (Approved Document H, table 6)",
                       "1998", Provenance::Published};
constexpr Source en16933{"BS EN 752 and EN 16933-2, gradient of 1 in DN", "2017", Provenance::FromMemory};
constexpr Source handbook{"R. Chudley and R. Greeno, Building Construction Handbook, drainage", "8th edition",
                          Provenance::Published};
constexpr Source ipc{"International Plumbing Code, table 704.1, as adopted by Chicago, table 18-29-704.1",
                     "undated", Provenance::Published};
constexpr Source upc{"plumbing code after the pattern of section 708, as quoted and locally amended",
                     "undated", Provenance::Published};
constexpr Source purcell{"Purcell (Oklahoma) Code, section 12-488, after the Ten States standards", "undated",
                         Provenance::Published};
constexpr Source as3500{"AS/NZS 3500.2, table 3.2, as quoted by a training unit", "2003",
                        Provenance::Published};
constexpr Source is1742{"National Building Code of India and IS 1742", "1983", Provenance::FromMemory};
constexpr Source tribhuvan{"S. R. Paudel, Design and construction of sewers, after Baldwin Latham", "2018",
                           Provenance::Published};
constexpr Source water_uk{"design guidance of the water companies for adopted sewers", "undated",
                          Provenance::FromMemory};
constexpr Source wef{"ASCE MOP 60 and WEF FD-5, as quoted; method of L. B. Merritt", "2007",
                     Provenance::Published};
constexpr Source leeds{"D. Mara, A. Sleigh and K. Tayler, PC-based Simplified Sewer Design, section 2.5",
                       "2001", Provenance::FromMemory};

constexpr CleansingRule table(std::string_view name, std::string_view title,
                              std::span<const CleansingRow> rows, std::string_view use, const Source& source,
                              Unit unit = Unit::Metre) {
    CleansingRule rule{name, title};
    rule.rows = rows;
    rule.use = use;
    rule.source = source;
    rule.unit = unit;
    return rule;
}

constexpr CleansingRule figure(std::string_view name, std::string_view title, By by, double value,
                               std::string_view use, const Source& source) {
    CleansingRule rule{name, title};
    rule.by = by;
    rule.figure = value;
    rule.use = use;
    rule.source = source;
    return rule;
}

constexpr CleansingRule of_bore(CleansingRule rule, double from, double to) {
    rule.bore_from = from;
    rule.bore_to = to;
    return rule;
}

constexpr CleansingRule at(CleansingRule rule, CleansingAt where, Unit unit = Unit::Metre) {
    rule.at = where;
    rule.unit = unit;
    return rule;
}

constexpr CleansingRule velocities(CleansingRule rule) {
    rule.by = By::Velocity;
    return rule;
}

constexpr CleansingRule from_flow(CleansingRule rule, double least) {
    rule.least_flow = least;
    return rule;
}

constexpr std::array<CleansingRule, 15> rules = {{
    table("england-foul", "the English table of foul drains", england,
          "foul drains of buildings, by peak flow and WCs", en752),
    of_bore(figure("one-in-bore", "1 in the bore", By::FallOfBore, 1, "small drains and sewers up to 300 mm",
                   en16933),
            0.1, 0.3),
    of_bore(figure("maguire", "Maguire's rule", By::FallOfBore, 2.5,
                   "an old rule of thumb, steeper than codes of today", handbook),
            0.1, 0.225),
    table("us-building-drain", "the US table of building drains", us_drain,
          "horizontal drainage pipes of buildings; copies that print 2 % mean 1/4 in per ft", ipc,
          Unit::Foot),
    table("us-quarter-inch", "1/4 in per ft", us_quarter, "building drains of any size", upc, Unit::Foot),
    table(
        "us-eighth-inch", "1/8 in per ft where 1/4 cannot be had", us_eighth,
        "building drains of 3 in and more where 1/4 in per ft is impractical; the model text says 4 in (from "
        "memory)",
        upc, Unit::Foot),
    table("us-sewer", "the US table of sewers", us_sewer, "sewers of 8 in and more; n 0.013, 2 ft/s full",
          purcell, Unit::Foot),
    at(figure("us-two-feet-a-second", "2 ft/s flowing full", By::Velocity, 2 * metres_per_foot,
              "sewers, mean velocity full bore", purcell),
       CleansingAt::FullBore, Unit::Foot),
    table("australia-drain", "the Australian table of drains", australia, "sanitary drains", as3500),
    table("india-sewer", "the Indian table of sewers", india, "half full at 0.75 m/s, and not above 2.4 m/s",
          is1742),
    velocities(table("latham-velocity", "Latham's velocities", latham, "sewers, by their size", tribhuvan)),
    figure("velocity-0-7", "0.7 m/s", By::Velocity, 0.7, "foul drains, at the peak flow", en752),
    at(figure("velocity-0-75-third", "0.75 m/s at a third of the flow", By::Velocity, 0.75, "adopted sewers",
              water_uk),
       CleansingAt::ThirdOfFlow),
    figure("drag-0-87", "the drag on a grain of 1 mm", By::Drag, 0.0181 * 47.88026,
           "sewers, at the largest hour of the week of least flow", wef),
    from_flow(figure("simplified-1-pa", "simplified sewerage", By::FallOfFlow, 5.64e-3,
                     "simplified sewers: 1 N/m2 at 0.2 of the bore; from 1.5 l/s", leeds),
              1.5 * litre),
}};

constexpr std::array<double, 10> metric_bores = {0.1, 0.15, 0.225, 0.3, 0.375, 0.45, 0.525, 0.6, 0.75, 0.9};
constexpr std::array<double, 11> inch_bores = {4 * inch,  6 * inch,  8 * inch,  10 * inch,
                                               12 * inch, 15 * inch, 18 * inch, 21 * inch,
                                               24 * inch, 30 * inch, 36 * inch};

// Approved Document H, table 5.
constexpr std::array<std::array<double, 2>, 7> dwellings_and_litres = {
    {{1, 2.5}, {5, 3.5}, {10, 4.1}, {15, 4.6}, {20, 5.1}, {25, 5.4}, {30, 5.8}}};
constexpr Source document_h{"Approved Document H, table 5, flows as quoted by LABC", "2015",
                            Provenance::Published};

std::string size_text(double metres, Unit unit) {
    return unit == Unit::Foot ? trimmed(metres / inch, 2) + " in" : trimmed(metres * 1000, 0) + " mm";
}

std::string bore_text(const CleansingRow& row, Unit unit) {
    if (std::isinf(row.bore_to))
        return row.bore_from > 0 ? "from " + size_text(row.bore_from, unit) : "any bore";
    if (row.bore_from == row.bore_to) return size_text(row.bore_to, unit);
    if (row.bore_from == 0) return "to " + size_text(row.bore_to, unit);
    return size_text(row.bore_from, unit) + " to " + size_text(row.bore_to, unit);
}

std::string row_text(const CleansingRow& row, By by, Unit unit) {
    std::string text = bore_text(row, unit) + " ";
    if (by == By::Velocity) {
        text += trimmed(row.wants, 2) + " m/s";
    } else if (unit == Unit::Foot) {
        text += trimmed(row.wants * 100, 3) + " %";
    } else {
        text += "1 in " + trimmed(1 / row.wants, 1);
    }
    if (!std::isnan(row.steepest)) text += " to 1 in " + trimmed(1 / row.steepest, 1);
    if (std::isfinite(row.flow_to)) text += " to " + trimmed(row.flow_to / litre, 1) + " l/s";
    if (row.flow_from > 0) text += " above " + trimmed(row.flow_from / litre, 1) + " l/s";
    if (row.closets > 0) text += " with " + std::to_string(row.closets) + (row.closets == 1 ? " WC" : " WCs");
    return text;
}

std::string figures_text(const CleansingRule& rule) {
    switch (rule.by) {
        case By::FallOfBore:
            return rule.figure == 1 ? "1 in bore in mm" : "1 in bore in mm / " + trimmed(rule.figure, 2);
        case By::Drag:
            return trimmed(rule.figure, 3) + " N/m2";
        case By::FallOfFlow:
            return trimmed(rule.figure, 5) + " x (flow in l/s)^(-6/13)";
        default:
            break;
    }
    if (rule.rows.empty()) return trimmed(rule.figure, 4) + " m/s";
    std::string text;
    for (const CleansingRow& row : rule.rows) {
        if (!text.empty()) text += ", ";
        text += row_text(row, rule.by, rule.unit);
        if (row.provenance == Provenance::FromMemory && rule.source.provenance != Provenance::FromMemory)
            text += " (from memory)";
    }
    return text;
}

}  // namespace

std::span<const CleansingRule> cleansing_rules() {
    return rules;
}

const CleansingRule* find_cleansing(std::string_view name) {
    const auto* const found = std::find_if(rules.begin(), rules.end(),
                                           [&](const CleansingRule& rule) { return rule.name == name; });
    return found == rules.end() ? nullptr : found;
}

std::span<const double> usual_bores(Unit unit) {
    if (unit == Unit::Foot) return inch_bores;
    return metric_bores;
}

double foul_flow(double dwellings) {
    if (!(dwellings >= dwellings_and_litres.front()[0] && dwellings <= dwellings_and_litres.back()[0]))
        return NAN;
    std::size_t next = 1;
    while (dwellings > dwellings_and_litres[next][0]) ++next;
    const auto& [from, low] = dwellings_and_litres[next - 1];
    const auto& [to, high] = dwellings_and_litres[next];
    return (low + (high - low) * (dwellings - from) / (to - from)) * litre;
}

void list_self_cleansing(std::vector<Listed>& all) {
    for (const CleansingRule& rule : rules)
        all.push_back({std::string(rule.name), figures_text(rule), std::string(rule.use), rule.source});
    std::string flows;
    for (const auto& [dwellings, litres] : dwellings_and_litres) {
        if (!flows.empty()) flows += ", ";
        flows += trimmed(dwellings, 0) + ": " + trimmed(litres, 1);
    }
    all.push_back({"england-foul-flow", "dwellings and l/s: " + flows,
                   "peak foul flow of dwellings with 1 WC, 1 bath, 2 basins, 1 sink, 1 washing machine each",
                   document_h});
}

}  // namespace fallwright::preset
