#include "preset/error_figures.h"

#include <array>
#include <string>
#include <utility>

#include "base/print.h"

namespace fallwright::preset {

namespace {

constexpr double hard_mark = 0.0003;
constexpr double built = 0.001;
constexpr double bed = 0.003;
constexpr double layer = 0.005;
constexpr double ground = 0.010;

constexpr std::array<std::pair<std::string_view, double>, 11> surfaces = {{{"laid", built},
                                                                           {"laid in", built},
                                                                           {"laid out", built},
                                                                           {"finished", built},
                                                                           {"invert", built},
                                                                           {"soffit", built},
                                                                           {"crown", built},
                                                                           {"peg", built},
                                                                           {"kerb", built},
                                                                           {"bed", bed},
                                                                           {"formation", layer}}};

constexpr Source practice{"", "", Provenance::CommonPractice};

void add(std::string& out, std::string_view name, double value, int places, std::string_view unit) {
    if (value == 0) return;
    if (!out.empty()) out += ", ";
    out += name;
    out += ' ';
    append_trimmed(out, value, places);
    out += ' ';
    out += unit;
}

std::string figures_text(const ErrorFigures& figures) {
    std::string out;
    add(out, "reading_sd", figures.reading_sd * 1e3, 2, "mm");
    add(out, "sd_per_m", figures.sd_per_m * 1e3, 4, "mm/m");
    add(out, "tilt_sd", figures.tilt_sd * 1e3, 4, "mm/m");
    add(out, "setting_tilt_sd", figures.setting_tilt_sd * 1e3, 4, "mm/m");
    add(out, "cone_sd", figures.cone_sd * 1e3, 4, "mm/m");
    add(out, "collimation_sd", figures.collimation_sd * 1e3, 4, "mm/m");
    add(out, "aim_sd", figures.aim_sd, 2, "degrees");
    add(out, "grade_sd", figures.grade_sd * 1e3, 4, "mm/m");
    return out;
}

std::string surfaces_text() {
    std::string out;
    add(out, "hard mark", hard_mark * 1e3, 2, "mm");
    for (const auto& [what, sd] : surfaces) add(out, what, sd * 1e3, 2, "mm");
    add(out, "layers", layer * 1e3, 2, "mm");
    add(out, "ground and any other", ground * 1e3, 2, "mm");
    return out;
}

}  // namespace

double assumed_foot_sd(std::string_view what, bool is_layer) {
    if (what.empty()) return hard_mark;
    for (const auto& [name, sd] : surfaces) {
        if (name == what) return sd;
    }
    return is_layer ? layer : ground;
}

void list_error_figures(std::vector<Listed>& all) {
    const std::string use = "where the instrument's entry gives no figure; assumed, untested";
    all.push_back({"assumed-rotating-laser", figures_text(assumed_rotating_laser), use, practice});
    all.push_back({"assumed-optical-level", figures_text(assumed_optical_level), use, practice});
    all.push_back({"assumed-foot", surfaces_text(), "the foot of the staff, by what it stands on", practice});
}

}  // namespace fallwright::preset
