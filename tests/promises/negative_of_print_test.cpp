// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The negative that a print is read against: found where its labels say, read as for prints.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

#include "fogproof/pack/readings.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/scanned_print.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;

class NegativeOfPrint : public ::testing::Test {
  protected:
    NegativeOfPrint() {
        const DrawnNegative negative(7);
        negative.scanned().tiffsave((program_ / "neg.tif").c_str());
        PrintScan scan;
        scan.prints = {DrawnPrint{}};
        scan.patches = {{{30, 20, 90, 70}, 0.09}};
        scan.linear(negative).write_to_file((program_ / "print.tif").c_str());
    }
    // Density of the densest tone over the paper.
    [[nodiscard]] double densest(const std::string& options) const {
        std::filesystem::remove(program_ / "rows.csv");
        const auto answer = program_.run("read print.tif --negative neg.tif -o rows.csv" + kFilm + options);
        EXPECT_EQ(answer.code, 0) << answer.err;
        double most = 0;
        for (const Reading& row : parse_readings(content_of(program_ / "rows.csv"), "rows.csv"))
            most = std::max(most, row.wedge_density.value_or(0));
        return most;
    }
    const std::string kFilm = " --whole --clear 1 --callier 1 --flare 0 --white 40,30,70,50=0.09 ";
    const Program program_;
};

// Prints are read against the densities that they are exposed by, the scanner's black included.
TEST_F(NegativeOfPrint, CountsFromTheScannersBlack) {
    EXPECT_GT(densest("--black 0.02"), densest("") + 0.05);
    const auto alone = program_.run("read print.tif --black 0.02 -o none.csv");
    EXPECT_EQ(alone.code, 64);
    EXPECT_THAT(alone.err, HasSubstr("--black: describes a negative"));
}

// A folder may be a link: what lies above it is not what its letters say.
TEST_F(NegativeOfPrint, IsFoundFromLabelsInALinkedFolder) {
    std::filesystem::create_directories(program_ / "deep/er");
    std::filesystem::create_directory_symlink("deep/er", program_ / "link");
    program_.write("deep/er/labels.csv", "piece,kind,strip,negative,exposure_s\n,print,p,../../neg.tif,20\n");
    const auto answer = program_.run("read print.tif --labels link/labels.csv -o linked.csv" + kFilm);
    EXPECT_EQ(answer.code, 0) << answer.err;
}

}  // namespace
}  // namespace fogproof::tests
