// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Dilutions of the bleach that are hardly meant are asked about. That the pace of a bath goes about with its
// strength is common practice, no source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "fogproof/fit/pack_fit.hpp"
#include "support/own_strips.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::HasSubstr;
using testing::Not;

std::vector<std::string> warned_with_parts(unsigned seed, double told, double meant) {
    auto strips = own::usual_strips();
    strips.push_back({"other", 15, 40, 2, 20, 90, 40 * (1 + meant) / 51});
    const Pack truth = own::old_paper(Contrast::variable);
    auto patches = own::patches_of(strips, truth.contrast);
    for (Reading& patch : patches)
        if (patch.strip == "other") patch.bleach_parts = meant;
    auto readings = own::on_own_sheets(own::read(truth, patches, 0.01, seed), 0.01, seed + 1000);
    for (Reading& reading : readings)
        if (reading.strip == "other") reading.bleach_parts = told;
    return fitted_pack(Pack{}, readings, "strips").warnings;
}

TEST(FitWarnings, ADilutionTenTimesOffIsAskedAbout) {
    for (unsigned seed = 1; seed <= 3; ++seed) {
        EXPECT_THAT(warned_with_parts(seed, 5, 50),
                    Contains(AllOf(HasSubstr("check the dilutions 1+5 (strip \"other\"), 1+50"),
                                   HasSubstr("1.00 +/- 0.20 is usual"))))
            << seed;
        for (const double right : {25.0, 50.0, 100.0})
            EXPECT_THAT(warned_with_parts(seed, right, right), Not(Contains(HasSubstr("dilutions")))) << seed;
    }
}

}  // namespace
}  // namespace fogproof::tests
