// drain_answer: what one pipe does with the water, without a book.
//
// The stage drain computes all of it (drain/pipe.h); here a request is read, and the answer written.
//
// Options: bore; fall (positive the way the water runs); roughness or manning; viscosity (m2/s); flow or
// dwellings; depth, also as a share of the bore ("75 %"); velocity: with it, or with a flow alone, the fall
// is found instead of given; closets; rule: the rule of self-cleansing the job is held to; unit.
//
// Figures without a unit. Results are in the unit; bores are not written so. In metres a bare bore or depth
// of 10 and more counts as millimetres, and so does a bare roughness of 0.01 and more; smaller ones follow
// the bore, but a roughness below 0.001, smoother than glass in millimetres, is metres. In feet a bare bore
// of 3 and more is refused: it may be inches. A bare flow is cubic metres or cubic feet a second.
#pragma once

#include <string>

#include "base/json_out.h"
#include "base/result.h"
#include "caution/caution.h"
#include "desk/options.h"
#include "drain/pipe.h"

namespace fallwright {

// Where the fall comes from.
enum class FallFrom : std::uint8_t { Given, Velocity, Flow };

struct DrainAnswer {
    Unit unit = Unit::Metre;
    FallFrom fall_from = FallFrom::Given;
    drain::PipeAnswer pipe;
    const preset::CleansingRule* held_to = nullptr;
    std::vector<Caution> cautions;
};

Result<DrainAnswer> drain_of(desk::Options& options);
// The JSON of api/schema/v1/drain.schema.json.
std::string drain_json(const DrainAnswer& answer);

// Pieces of it that a run of pipes in a book has too: verdicts of rules, as an array.
void write_rules(JsonOut& out, const std::vector<drain::CleansingVerdict>& rules,
                 const drain::CleansingCase& pipe, Unit unit);

}  // namespace fallwright
