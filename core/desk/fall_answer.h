// fall_answer: "How much does it fall?" from readings typed, or from a line of a book.
//
// Typed readings become a small book (one levelled-up laser, assumed error figures) that the model evaluates
// like any other, so that the uncertainty is the same kind of figure. over spaces more than two readings
// evenly; the distance's own sd joins as (gradient x sd / distance). near says how far the near point lies
// ahead of the laser.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "book/book.h"
#include "desk/options.h"

namespace fallwright {

// One point along the fall.
struct FallReading {
    double at = 0, staff = 0, off_fit = 0;  // metres; NaN where there is none
};

// One way in which readings, distance and what is shown would agree (fall/cross_check.h).
struct FallExplanation {
    std::string kind, sentence;
    double wanted = 0;  // what it would have to be: metres, for shown a ratio
    double size = 0;    // how far it is off; for a pivoting head how far the plane passes off the near point
};

struct FallAnswer {
    Unit unit = Unit::Metre;
    std::string line, what;  // empty for readings typed
    std::vector<FallReading> readings;
    double difference = 0, difference_sd = 0;
    double over = 0, over_sd = 0;  // NaN where no distance is given
    double gradient = 0, gradient_sd = 0;
    double rms = 0;  // NaN for two readings
    int worst = -1;  // index in readings, -1 for two
    struct Check {
        bool agrees = true;
        double disagreement = 0, sd = 0;
        std::vector<FallExplanation> explanations;
    };
    std::optional<Check> check;
    double one_pass_mark = 0;  // metres; NaN without near
    Findings findings;
};

Result<FallAnswer> fall_of_readings(desk::Options& options);
Result<FallAnswer> fall_of_line(const std::shared_ptr<const Book>& book, desk::Options& options);

// The JSON of api/schema/v1/fall.schema.json.
std::string fall_json(const FallAnswer& answer);

}  // namespace fallwright
