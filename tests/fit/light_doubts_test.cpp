// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Seconds mistyped by a place, on a pack whose speed was known: no density contradicts them, since filter and
// restrainer can be as slow as it takes. Common practice, no source: no restrainer costs three stops.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "fogproof/fit/pack_fit.hpp"
#include "support/own_strips.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

// One print and its bleached half, as a first evening has them.
std::string said_of_light(unsigned seed, double seconds_typed_over_true) {
    auto strips = own::slips();
    strips.push_back({"print", 15, 40, 3, 20});
    strips.push_back({"print-bleached", 15, 40, 3, 20, 90, 40});
    const Pack truth = own::old_paper(Contrast::variable);
    auto readings = own::on_own_sheets(own::read(truth, own::patches_of(strips, truth.contrast), 0.01, seed),
                                       0.01, seed + 1000);
    for (Reading& reading : readings)
        if (reading.exposure_s > 0) *reading.exposure_s *= seconds_typed_over_true;
    Pack before;
    before.darkroom.anchored = true;
    before.speed_log_s = truth.speed_log_s;
    before.knowledge["speed.log_seconds"] = {Origin::given, 0.03};
    const PackFit fit = fitted_pack(before, readings, "strips");
    std::string said = fit.in_words();
    for (const auto& warning : fit.warnings) said += "\n" + warning;
    return said;
}

TEST(LightDoubts, SecondsTenTimesOffAreNamed) {
    for (unsigned seed = 1; seed <= 3; ++seed) {
        EXPECT_THAT(said_of_light(seed, 10),
                    AllOf(HasSubstr("strip \"print\" had 3."), HasSubstr("stops more light"),
                          HasSubstr("check its seconds, head setting")))
            << seed;
        // Of light that is missing the curve tells more: here the strips themselves contradict it.
        EXPECT_THAT(said_of_light(seed, 0.1), HasSubstr("with exposure 40 s instead of 4")) << seed;
    }
}

TEST(LightDoubts, RightSecondsAreLeftInPeace) {
    for (unsigned seed = 1; seed <= 5; ++seed)
        for (const double rightly : {1.0, 0.8, 1.25})
            EXPECT_THAT(said_of_light(seed, rightly), Not(HasSubstr("stops"))) << seed << " " << rightly;
}

}  // namespace
}  // namespace fogproof::tests
