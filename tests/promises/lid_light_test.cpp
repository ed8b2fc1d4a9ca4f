// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The lid shows how the scanner's light falls off; a print's white border, which may be nearly as white, does
// not.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <string>

#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/scanned_print.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;
using testing::Not;

// A paper that holds its whites: its border is as white as its lightest tone.
constexpr double kPaperWhite = 0.09;
double clean_curve(double over_paper) {
    return fogged_curve(over_paper) - 0.22 + kPaperWhite;
}

// Of tones whose place, noise and known patch leave less than half of it.
constexpr double kOfEvenLight = 0.006;

class LidLight : public ::testing::Test {
  protected:
    LidLight() { negative_.scanned().tiffsave((program_ / "neg.tif").c_str()); }

    /// Mean of what the tones read too dense, of a print whose border is so much denser than the lid, under
    /// light that loses so much from left to right, D.
    double off_in_all_tones(double border_apart, double light_lost) {
        DrawnPrint print;
        print.degrees = 2, print.border = 0.1, print.border_density = kPaperWhite, print.curve = clean_curve;
        print.x = 500, print.y = 400;
        PrintScan scan;
        scan.lid = kPaperWhite - border_apart;
        scan.prints = {print};
        scan.patches = {{{30, 20, 90, 70}, 0.4}};
        const vips::VImage across = vips::VImage::xyz(scan.width, scan.height)[0] / double(scan.width),
                           light = scan.light(negative_) * (across * -light_lost).exp10();
        in_linear_codes(light).write_to_file((program_ / "print.tif").c_str());
        std::filesystem::remove(program_ / "rows.csv");
        const auto answer = program_.run(
            "read print.tif --negative neg.tif --whole --clear 1 --callier 1 --flare 0 "
            "--white 40,30,70,50=0.4 --json -o rows.csv");
        EXPECT_EQ(answer.code, 0) << answer.err;
        said_ = answer.err;
        if (answer.code != 0) return 9;
        double sum = 0;
        const auto tones = nlohmann::json::parse(answer.out)["prints"][0]["pieces"][0]["tones"];
        for (const auto& tone : tones) sum += double(tone["density"]) - clean_curve(tone["wedge_density"]);
        return sum / double(tones.size());
    }

    DrawnNegative negative_{7};
    Program program_;
    std::string said_;
};

TEST_F(LidLight, IsNotToldByABorderThatIsNearlyAsWhite) {
    for (const double apart : {0.03, -0.02}) {
        EXPECT_NEAR(off_in_all_tones(apart, 0), 0, kOfEvenLight) << apart;
        EXPECT_THAT(said_, Not(HasSubstr("the light differs"))) << apart;
    }
}

TEST_F(LidLight, IsEvenedOutAroundSuchABorder) {
    EXPECT_NEAR(off_in_all_tones(0.03, 0.04), 0, kOfEvenLight);
    EXPECT_THAT(said_, HasSubstr("the light differs by 0.04"));
}

}  // namespace
}  // namespace fogproof::tests
