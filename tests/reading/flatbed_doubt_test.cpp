// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Readings that are off together, as those of one flatbed are, leave white and black as doubtful as the
// instrument is. How far flatbeds are off is judgement, no source.
#include <gtest/gtest.h>

#include "reading/density_scale.hpp"
#include "reading/flatbed_doubt.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

TEST(FlatbedDoubt, BlacksAreTheMoreDoubtfulWithoutADarkPatch) {
    std::vector<Reading> rows(1);
    rows[0].density = 1.57;
    const std::vector<Reference> white_and_black{{0.8, 0.09, 0, "white"}, {0.03, 1.5, 0, "black"}};
    tell_flatbed_doubt(rows, density_scale(white_and_black, "scan").doubt);
    const double with = rows[0].dark_error.value();
    tell_flatbed_doubt(rows, density_scale(std::span(white_and_black).first(1), "scan").doubt);
    EXPECT_GT(rows[0].dark_error.value(), 2 * with);
    EXPECT_EQ(rows[0].instrument, "flatbed");
}

// Strips of one paper read by a better instrument narrow what the flatbed left open.
TEST(FlatbedDoubt, TravelsThroughTheFileToThePack) {
    const Program program;
    const std::string head = "strip,exposure_s,develop_s,density",
                      told = ",common_error,dark_error,instrument";
    program.write("plain.csv", head + "\nfixed,0,0,0.1\nblank,0,90,0.45\n");
    program.write("flatbed.csv",
                  head + told + "\nfixed,0,0,0.1,0.05,,flatbed\nblank,0,90,0.45,0.05,,flatbed\n");
    const auto white = [&](const std::string& readings) {
        const auto fit = program.run("pack fit " + readings + " --json -o pack.toml --force");
        EXPECT_EQ(fit.code, 0) << fit.err;
        const auto at = fit.out.find("\"sd\": ", fit.out.find("\"name\": \"paper.white\""));
        return std::stod(fit.out.substr(at + 6));
    };
    EXPECT_LT(white("plain.csv"), 0.02);
    EXPECT_GT(white("flatbed.csv"), 0.04);
}

}  // namespace
}  // namespace fogproof::tests
