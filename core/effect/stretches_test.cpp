#include "effect/stretches.h"

#include <gtest/gtest.h>

#include <memory>
#include <utility>

#include "effect/checked.h"

namespace fallwright {

TEST(Stretches, AreCountedByTimeAndByLineWhereTimesAreEqual) {
    const std::unique_ptr<Book> book = std::move(*read_book(
        R"({"kind":"book","format":"fallwright","version":1}
{"kind":"instrument","name":"L","type":"optical-level"}
{"kind":"instrument","name":"M","type":"optical-level"}
{"kind":"remark","text":"before"}
{"kind":"adjusted","instrument":"L","at":"2026-05-04T12:00:00Z"}
{"kind":"remark","text":"after","at":"2026-05-04T12:00:00Z"}
{"kind":"remark","text":"written late","at":"2026-05-04T09:00:00Z"}
{"kind":"adjusted","instrument":"L","at":"2026-05-05T12:00:00Z"}
)"));
    const Stretches stretches(*book);
    const auto at = [&](std::size_t remark) { return stretches.of(0, book->remarks[remark].entry); };
    EXPECT_EQ(at(0), 0);
    EXPECT_EQ(at(1), 1);
    EXPECT_EQ(at(2), 0);
    EXPECT_EQ(stretches.of(1, book->remarks[1].entry), 0);
}

// The check's value takes the place of the entry's; effects that no check sees keep theirs.
TEST(Checked, APriorOfACheckTakesThePlaceOfTheEntrys) {
    InstrumentErrors errors;
    errors.cone_sd = 2e-5;
    errors.tilt_sd = 2e-5;
    errors.grade_gain_sd = 1e-3;
    SetupTerms setup;
    setup.errors = &errors;
    setup.g = {0.01, 0};
    CheckedErrors checked;
    checked.value[2] = 4e-5;
    checked.covariance[2][2] = 1e-10;
    const auto prior = [&](const CheckedErrors* by, std::size_t which) {
        return checked_prior(by, which, *instrument_effects()[which], setup);
    };
    EXPECT_EQ(prior(nullptr, 2).sd, 2e-5);
    EXPECT_EQ(prior(&checked, 2).value, 4e-5);
    EXPECT_DOUBLE_EQ(prior(&checked, 2).sd, 1e-5);
    EXPECT_FALSE(prior(&checked, 0).present);
    EXPECT_EQ(prior(&checked, 4).sd, 1e-3);
}

}  // namespace fallwright
