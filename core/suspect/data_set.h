// data_set: the worked data set of blunders, as a book. Inside suspect only.
//
// Source: measurement model of this project, data set 1: 12 points, 2 set-ups, 16 readings, 2 benchmarks, a
// design expected to be met within 25 mm; figures derived there and confirmed by two independent computing
// routes. It knows no error of a staff's foot, no tilt that turns with the body, no curvature.
#pragma once

#include <array>
#include <string>

#include "suspect/suspected_book.h"

namespace fallwright {

using DataReadings = std::array<double, 16>;

inline constexpr DataReadings clean_readings = {0.85, 1.641, 1.712, 1.746, 1.802, 1.84,  1.82, 0.85,
                                                1.39, 1.412, 1.529, 1.556, 1.64,  1.715, 1.72, 1.391};

inline std::string data_entries(const DataReadings& readings, double second_benchmark) {
    struct DataSight {
        const char* setup;
        const char* point;  // or a chainage of line R
        int minute;
    };
    constexpr std::array<DataSight, 16> sights = {{{"1", "BM1", 0},
                                                   {"1", "0", 3},
                                                   {"1", "10", 5},
                                                   {"1", "20", 7},
                                                   {"1", "30", 9},
                                                   {"1", "40", 11},
                                                   {"1", "CP1", 14},
                                                   {"1", "BM1", 20},
                                                   {"2", "CP1", 35},
                                                   {"2", "40", 37},
                                                   {"2", "60", 39},
                                                   {"2", "70", 41},
                                                   {"2", "80", 43},
                                                   {"2", "100", 46},
                                                   {"2", "BM2", 50},
                                                   {"2", "CP1", 54}}};
    std::string text =
        R"({"kind":"instrument","name":"L","type":"rotating-laser","reading_sd":0.0012,"tilt_sd":0,"setting_tilt_sd":2.4e-5,"cone_sd":2e-5}
{"kind":"what","name":"mark","foot_sd":0}
{"kind":"what","name":"finished","foot_sd":0}
{"kind":"line","name":"R","use":"road","plan":[[0,0],[130,0]],"profile":[{"ch":0,"level":99.2},{"ch":130,"gradient":-0.005}]}
{"kind":"place","point":"BM1","e":-10,"n":8}
{"kind":"place","point":"CP1","e":50,"n":-3}
{"kind":"place","point":"BM2","e":125,"n":10}
{"kind":"setup","name":"1","instrument":"L","place":{"e":20,"n":-6},"plane":{"bearing":90}}
{"kind":"setup","name":"2","instrument":"L","place":{"e":90,"n":5},"plane":{"bearing":90}}
{"kind":"benchmark","point":"BM1","level":100,"sd":0.001}
)";
    text += "{\"kind\":\"benchmark\",\"point\":\"BM2\",\"level\":" + std::to_string(second_benchmark) +
            ",\"sd\":0.001}\n";
    for (std::size_t i = 0; i < sights.size(); ++i) {
        const std::string point = sights[i].point;
        const bool on_line = point[0] >= '0' && point[0] <= '9';
        const std::string minute = (sights[i].minute < 10 ? "0" : "") + std::to_string(sights[i].minute);
        text += "{\"kind\":\"reading\",\"id\":\"r" + std::to_string(i + 1) +
                "\",\"at\":\"2026-05-04T08:" + minute + ":00Z\",\"setup\":\"" + sights[i].setup + "\"," +
                (on_line ? "\"line\":\"R\",\"ch\":" + point + ",\"what\":\"finished\""
                         : "\"point\":\"" + point + "\",\"what\":\"mark\"") +
                ",\"staff\":" + std::to_string(readings[i]) + "}\n";
    }
    return text;
}

inline SuspectedBook data_book(const DataReadings& readings, double second_benchmark = 98.7) {
    return SuspectedBook(data_entries(readings, second_benchmark));
}

inline DataReadings with_reading(std::size_t number, double value) {
    DataReadings changed = clean_readings;
    changed[number - 1] = value;
    return changed;
}

}  // namespace fallwright
