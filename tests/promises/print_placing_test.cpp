// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// `read PRINT --negative NEG` refuses a negative exposed from a little way aside, and says where nothing
// would tell another exposure. Asked of the program on a drawn scan.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>

#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/scanned_print.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;

// The scene seen from a step aside: what is near moves more than what is far, by up to so many pixels.
DrawnNegative from_aside(const DrawnNegative& negative, double pixels) {
    DrawnNegative other = negative;
    for (int y = 0; y < other.height; ++y)
        for (int x = 0; x < other.width; ++x) {
            const double u = (x + 0.5) / other.width, v = (y + 0.5) / other.height;
            const double off = pixels * std::sin(9 * u + 2 * v) * std::cos(7 * v);
            other.density[std::size_t(y) * std::size_t(other.width) + std::size_t(x)] =
                negative.at(u + off / other.width, v);
        }
    return other;
}

class PrintPlacing : public ::testing::Test {
  protected:
    Program::Answer read(const DrawnNegative& shown, const DrawnNegative& held, const PrintScan& scan) {
        held.scanned().tiffsave((program_ / "neg.tif").c_str());
        scan.linear(shown).write_to_file((program_ / "print.tif").c_str());
        return program_.run(
            "read print.tif --negative neg.tif --whole --clear 1 --callier 1 --flare 0 --json -o rows.csv");
    }
    Program program_;
};

PrintScan print_on_scan(const DrawnPrint& print, double blur) {
    PrintScan scan;
    scan.prints = {print}, scan.blur = blur;
    return scan;
}

TEST_F(PrintPlacing, RefusesTheSameSceneFromALittleWayAside) {
    const DrawnNegative negative(7);
    DrawnPrint print;
    print.degrees = 1;
    const auto answer = read(negative, from_aside(negative, 1.6), print_on_scan(print, 1));
    EXPECT_EQ(answer.code, 65);
    EXPECT_THAT(answer.err, HasSubstr("another exposure of the same scene"));
    EXPECT_FALSE(std::filesystem::exists(program_ / "rows.csv"));
}

TEST_F(PrintPlacing, SaysWhereGrainCannotTellTheNegativeFromAnotherExposure) {
    // Codes of 8 bit, cut to the frame: what is faint may be the codes' alone.
    const DrawnNegative negative(7);
    PrintScan scan = print_on_scan(DrawnPrint{}, 1);
    (negative.scanned() / 256).cast(VIPS_FORMAT_UCHAR).tiffsave((program_ / "neg.tif").c_str());
    scan.linear(negative).write_to_file((program_ / "print.tif").c_str());
    const auto answer = program_.run(
        "read print.tif --negative neg.tif --negative-encoding linear --whole --clear 1 --callier 1 "
        "--flare 0 -o rows.csv");
    EXPECT_EQ(answer.code, 0) << answer.err;
    EXPECT_THAT(answer.out + answer.err,
                HasSubstr("film grain cannot tell this negative from another exposure"));
}

TEST(CutPrints, ReadWithoutHalvesAreToldOfThem) {
    const Program program;
    ASSERT_EQ(program.run("demo . --megapixels 1").code, 0);
    const auto answer = program.run("read print.jpg --negative negative.tif -o rows.csv");
    EXPECT_EQ(answer.code, 65);
    EXPECT_THAT(answer.err, HasSubstr("--halves for a print that was cut in two"));
}

}  // namespace
}  // namespace fogproof::tests
