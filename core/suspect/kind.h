// kind: what may have gone wrong, the word for each, and how likely it is beforehand.
//
// A kind's prior p is the weight that a book holds one blunder of it, for the whole book, shared equally by
// all places of the book where it could have happened; "nothing wrong" has the weight 0.9. Weights are
// normalised over what the book can hold, so a book of readings without any receiver gives no weight to
// receivers.
//
// Rule "suspect-priors" of the book changes them: values {kind: p}, and `none` for "nothing wrong". 0 leaves
// a kind out.
//
// Source of the figures: common practice, no source; they are the lead's judgement of how often people slip,
// stated so that they can be argued with (docs/methods/error-or-blunder.md).
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string_view>

#include "book/book.h"

namespace fallwright {

// In the order of the results' words. About a reading: misread to wrong-setup, wrong-distance, other-beam;
// about a set-up: staff-section, grade-left-in to settling; about a benchmark, a change point, an instrument:
// as they are called.
enum class SuspectKind : std::uint8_t {
    Misread,
    DigitsSwapped,
    OffsetReversed,
    OffsetOmitted,
    StaffInverted,
    StaffSection,
    WrongPoint,
    WrongSetup,
    WrongBenchmark,
    MovedChangePoint,
    GradeLeftIn,
    GradeReversed,
    AxesSwapped,
    AimOff,
    Knocked,
    Settling,
    InstrumentOut,
    WrongDistance,
    OtherBeam
};
constexpr std::size_t suspect_kinds = 19;

// "misread", "digits-swapped", ...: the words of results and of the rule.
std::string_view kind_word(SuspectKind kind);
std::optional<SuspectKind> kind_from(std::string_view word);

// Weights, not yet normalised.
struct SuspectPriors {
    std::array<double, suspect_kinds> weight{};  // by kind
    double none = 0;

    double of(SuspectKind kind) const { return weight[static_cast<std::size_t>(kind)]; }
};

// The stated ones, changed by the book's rule.
SuspectPriors priors_of(const Book& book);

}  // namespace fallwright
