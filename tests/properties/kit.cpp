#include "properties/kit.h"

namespace fallwright::properties {

namespace {

class KitMaker {
  public:
    KitMaker(Draw& draw, const Wishes& wishes) : draw_(draw), wishes_(wishes) {}

    std::vector<Json> run() {
        lines_.push_back(laser());
        lines_.push_back(optical());
        lines_.push_back(staff());
        lines_.push_back({{"kind", "receiver"}, {"name", "R1"}, {"window", 0.1}});
        for (const char* what : {"ground", "laid", "kerb", "stone"}) {
            if (wishes_.all_sds || draw_.one_in(4))
                lines_.push_back(
                    {{"kind", "what"}, {"name", what}, {"foot_sd", draw_.step(0, 0.004, 0.001)}});
        }
        return std::move(lines_);
    }

  private:
    bool given() { return wishes_.all_sds || draw_.one_in(2); }
    bool known() { return !wishes_.plain && draw_.one_in(3); }

    Json laser() {
        Json line = {{"kind", "instrument"}, {"name", "L1"}, {"type", "rotating-laser"}};
        if (given()) line["reading_sd"] = draw_.step(0.0005, 0.002, 0.0005);
        if (given()) line["sd_per_m"] = draw_.step(0, 3e-5, 1e-5);
        if (given()) line["tilt_sd"] = draw_.step(0, 5e-5, 1e-5);
        if (given()) line["setting_tilt_sd"] = draw_.step(0, 3e-5, 1e-5);
        if (given()) line["cone_sd"] = draw_.step(0, 4e-5, 2e-5);
        if (given()) line["aim_sd"] = draw_.step(0, 1, 0.25);
        if (given()) line["grade_sd"] = draw_.step(0, 6e-5, 3e-5);
        if (draw_.one_in(3)) line["grade_gain_sd"] = 0.001;
        if (draw_.one_in(3)) line["grade_step"] = 1e-4;
        if (known())
            line["tilt"] = Json::array({draw_.step(-5e-5, 5e-5, 1e-5), draw_.step(-5e-5, 5e-5, 1e-5)});
        if (known()) line["cone"] = draw_.step(-5e-5, 5e-5, 1e-5);
        return line;
    }

    Json optical() {
        Json line = {{"kind", "instrument"}, {"name", "N1"}, {"type", "optical-level"}};
        if (given()) line["reading_sd"] = draw_.step(0.0004, 0.0012, 0.0004);
        if (given()) line["sd_per_m"] = draw_.step(0, 2e-5, 1e-5);
        if (given()) line["collimation_sd"] = draw_.step(0, 1e-4, 5e-5);
        if (known()) line["collimation"] = draw_.step(-1e-4, 1e-4, 2e-5);
        return line;
    }

    Json staff() {
        Json line = {{"kind", "staff"}, {"name", "E1"}, {"length", 5}};
        if (wishes_.plain) return line;
        if (draw_.one_in(2)) line["zero"] = draw_.step(-0.002, 0.002, 0.001);
        if (draw_.one_in(2)) line["zero_sd"] = 0.001;
        if (draw_.one_in(2)) line["scale"] = draw_.step(-1e-4, 1e-4, 5e-5);
        if (draw_.one_in(2)) line["scale_sd"] = 1e-5;
        if (draw_.one_in(2)) line["joints"] = Json::array({{{"at", 2.5}, {"step_sd", 0.0005}}});
        return line;
    }

    Draw& draw_;
    const Wishes& wishes_;
    std::vector<Json> lines_;
};

}  // namespace

std::vector<Json> random_kit(Draw& draw, const Wishes& wishes) {
    return KitMaker(draw, wishes).run();
}

}  // namespace fallwright::properties
