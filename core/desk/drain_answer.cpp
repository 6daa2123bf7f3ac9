#include "desk/drain_answer.h"

#include <cmath>
#include <utility>

namespace fallwright {

namespace {

constexpr double widest_bore = 20, narrowest_bore = 1e-6;
constexpr double most_manning = 1;
constexpr double thickest_water = 1e-3;  // of syrup rather
constexpr double most_flow = 1e6;
constexpr double bare_millimetres = 10;
constexpr double bare_rough_millimetres = 0.01, smoothest_millimetres = 0.001;
constexpr double most_bare_feet = 3;

using drain::Friction;

// What was typed, in metres and seconds.
struct Typed {
    drain::PipeQuestion asked;
    double velocity = NAN;
    bool has_fall = false;
    const preset::CleansingRule* held_to = nullptr;
};

class Reader {
  public:
    explicit Reader(desk::Options& options) : options_(options), unit_(options.unit()) {}

    Unit unit() const { return unit_; }

    Typed read() {
        read_bore();
        read_friction();
        read_fall();
        read_flow();
        read_depth();
        read_closets();
        if (const auto velocity = options_.velocity("velocity")) typed_.velocity = velocity->metres();
        check_together();
        return typed_;
    }

  private:
    void refuse(const char* about, std::string message, std::string cure) {
        options_.refuse(finding(Code::BadRequest, {about}, std::move(message), std::move(cure)));
    }

    // Millimetres typed as a bare figure, where the unit is metres.
    double of_pipe(const char* name, double metres, double least_millimetres, double least_kept = 0) {
        if (unit_ != Unit::Metre || !options_.bare(name)) return metres;
        const bool small = metres < least_kept || (metres < least_millimetres && !bore_bare_mm_);
        return small ? metres : metres / 1000;
    }

    void read_bore() {
        const std::optional<Length> bore = options_.length("bore");
        if (!bore) {
            if (!options_.has("bore"))
                refuse("bore", "the bore is missing", "give the inside diameter: 150 mm, 6 in");
            return;
        }
        if (unit_ == Unit::Foot && options_.bare("bore") && bore->feet() >= most_bare_feet)
            refuse("bore", "a bore without a unit may be inches or feet", "write 8 in, or 4 ft");
        bore_bare_mm_ = unit_ == Unit::Metre && options_.bare("bore") && bore->metres() >= bare_millimetres;
        typed_.asked.bore = bore_bare_mm_ ? bore->metres() / 1000 : bore->metres();
        if (!(typed_.asked.bore >= narrowest_bore && typed_.asked.bore <= widest_bore))
            refuse("bore", "no drain has such a bore",
                   "give the inside diameter, above 0 and up to 20 m: 150 mm, 6 in");
    }

    void read_friction() {
        const std::optional<Length> rough = options_.length("roughness");
        const std::optional<double> n = options_.number("manning");
        const std::optional<double> viscosity = options_.number("viscosity");
        if (!options_.has("roughness") && !options_.has("manning"))
            refuse("roughness", "neither a roughness nor an n is given",
                   "give roughness (0.6 mm is usual for a drain in use) or manning (0.013)");
        if (rough && n) refuse("manning", "roughness and manning are given together", "keep one of the two");
        if (viscosity && !(*viscosity > 0 && *viscosity <= thickest_water))
            refuse("viscosity", "no water has such a viscosity",
                   "give it in m2/s: 1.007e-6 at 20 degrees, 1.31e-6 at 10");
        Friction& friction = typed_.asked.friction;
        friction.viscosity = viscosity.value_or(drain::viscosity_of_water);
        if (rough) {
            friction.roughness =
                of_pipe("roughness", rough->metres(), bare_rough_millimetres, smoothest_millimetres);
            if (!(friction.roughness >= 0 && friction.roughness < typed_.asked.bore / 2) && !options_.fault())
                refuse("roughness", "the roughness must be 0 or more, and far less than the bore",
                       "write it with its unit: 0.6 mm");
        }
        if (!n) return;
        friction.law = Friction::Law::Manning;
        friction.manning = *n;
        if (!(*n > 0 && *n <= most_manning))
            refuse("manning", "no pipe has such an n",
                   "give Manning's n, above 0 and up to 1: 0.013 is usual");
    }

    void read_fall() {
        const std::optional<Gradient> fall = options_.fall("fall");
        typed_.has_fall = fall.has_value();
        if (fall) typed_.asked.fall = fall->ratio();
        if (fall && std::fabs(fall->ratio()) > drain::steepest)
            refuse("fall", "the fall is steeper than 1 in 1",
                   "a bare figure is fall per length; for 1.25 % write the %");
    }

    void read_flow() {
        if (const auto flow = options_.discharge("flow")) typed_.asked.flow = flow->cubic_metres();
        if (typed_.asked.flow < 0 || typed_.asked.flow > most_flow)
            refuse("flow", "no drain carries such a flow", "give the flow, 0 or more: 2.5 l/s, 40 gpm");
        const std::optional<double> dwellings = options_.number("dwellings");
        if (!dwellings) return;
        if (options_.has("flow"))
            refuse("dwellings", "flow and dwellings are given together", "keep one of the two");
        typed_.asked.flow = preset::foul_flow(*dwellings);
        if (std::isnan(typed_.asked.flow))
            refuse("dwellings", "the table of peak flows goes from 1 to 30 dwellings",
                   "give the flow itself");
    }

    void read_depth() {
        if (!options_.has("depth")) return;
        const std::optional<double> share = options_.share("depth");
        const std::optional<Length> depth = share ? Length::metres(0) : options_.length("depth");
        if (!depth) return;
        typed_.asked.depth =
            share ? *share * typed_.asked.bore : of_pipe("depth", depth->metres(), bare_millimetres);
        if (!(typed_.asked.depth >= 0 && typed_.asked.depth <= typed_.asked.bore))
            refuse("depth", "the depth of water lies between 0 and the bore",
                   "give it from the invert up: 75 mm, 50 %");
    }

    void read_closets() {
        if (const auto closets = options_.number("closets")) {
            if (!(*closets >= 0 && *closets <= 100000 && *closets == std::floor(*closets)))
                refuse("closets", "closets is a count of WCs", "give a whole number");
            else
                typed_.asked.closets = static_cast<int>(*closets);
        }
        const std::optional<std::string> rule = options_.text("rule");
        if (!rule) return;
        typed_.held_to = preset::find_cleansing(*rule);
        if (typed_.held_to == nullptr)
            refuse("rule", "there is no rule of self-cleansing named " + *rule,
                   "see docs/methods/presets.md for the names");
    }

    void check_together() {
        if (options_.fault()) return;
        const bool flow = !std::isnan(typed_.asked.flow), depth = !std::isnan(typed_.asked.depth);
        if (typed_.has_fall && options_.has("velocity"))
            refuse("velocity", "a velocity asks for the fall, which is given", "keep one of the two");
        if (typed_.has_fall && flow && depth)
            refuse("depth", "flow and depth are given together", "keep one of the two");
        if (!typed_.has_fall && !flow && !options_.has("velocity"))
            refuse("fall", "the fall is missing",
                   "give the fall, 1 in 80, or a velocity or flow to find it for");
        if (!typed_.has_fall && options_.has("velocity") && flow && depth)
            refuse("depth", "velocity, flow and depth are given together", "keep two of the three");
    }

    desk::Options& options_;
    Unit unit_;
    Typed typed_;
    bool bore_bare_mm_ = false;
};

// At a flow: the velocity of its lower depth grows with the fall.
double fall_for_velocity(const drain::PipeQuestion& asked, double velocity) {
    if (std::isnan(asked.flow)) {
        const double depth = std::isnan(asked.depth) ? asked.bore : asked.depth;
        return drain::fall_of_velocity(asked.friction, drain::wetted(asked.bore, depth).radius, velocity);
    }
    preset::CleansingRule wanted;
    wanted.by = preset::CleansingBy::Velocity;
    wanted.figure = velocity;
    return drain::hold_against(wanted, {asked.bore, 0, asked.friction, asked.flow, -1}, Unit::Metre)
        .wants_fall;
}

// False where no fall up to 1 in 1 gives it.
bool find_fall(Typed& typed, FallFrom& from) {
    if (typed.has_fall) return true;
    drain::PipeQuestion& asked = typed.asked;
    from = std::isnan(typed.velocity) ? FallFrom::Flow : FallFrom::Velocity;
    if (from == FallFrom::Velocity) {
        asked.fall = fall_for_velocity(asked, typed.velocity);
    } else {
        const double depth = std::isnan(asked.depth) ? asked.bore : asked.depth;
        asked.fall = drain::fall_of_flow(asked.friction, asked.bore, depth, asked.flow);
        // The depth says which of the two states of that flow is meant.
        if (!std::isnan(asked.depth)) asked.flow = NAN;
    }
    return !std::isnan(asked.fall);
}

}  // namespace

Result<DrainAnswer> drain_of(desk::Options& options) {
    Reader reader(options);
    Typed typed = reader.read();
    if (options.fault()) return *options.fault();
    DrainAnswer answer;
    answer.unit = reader.unit();
    answer.held_to = typed.held_to;
    if (!find_fall(typed, answer.fall_from))
        return finding(Code::BadRequest, {"fall"}, "no fall up to 1 in 1 gives that",
                       "ask for less, or take a larger bore");
    answer.pipe = drain::answer_pipe(typed.asked, answer.unit);
    answer.cautions.push_back(drainage_caution());
    return answer;
}

}  // namespace fallwright
