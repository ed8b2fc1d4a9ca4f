// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Of two halves of a print, the bleached one is told by its tones, however little it was bleached; where they
// do not tell, the user does.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>
#include <utility>

#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/scanned_print.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

constexpr char kReadHalves[] =
    "read print.tif --negative neg.tif --halves --bleach 40 --whole --clear 1 --callier 1 --flare 0 "
    "--white 40,30,70,50=0.09 --json -o rows.csv ";

class BleachedHalf : public ::testing::Test {
  protected:
    /// Shadows and lights with nothing between; the shadows of one half reach farther.
    static DrawnNegative of_two_grounds(bool right_reaches_farther) {
        DrawnNegative negative(7);
        for (int y = 0; y < negative.height; ++y)
            for (int x = 0; x < negative.width; ++x) {
                double& here =
                    negative.density[std::size_t(y) * std::size_t(negative.width) + std::size_t(x)];
                const double reach = (x >= negative.width / 2) == right_reaches_farther ? 0.9 : 0.15;
                here = here < 0.65 ? 0.1 + (here - 0.1) * reach : 1 + (here - 0.65) * 0.25;
            }
        return negative;
    }

    /// Each half lighter by so much than it was developed.
    void lay(const DrawnNegative& negative, double left_by, double right_by) {
        negative.scanned().tiffsave((program_ / "neg.tif").c_str());
        DrawnPrint left, right;
        left.last = right.first = 0.5;
        left.degrees = 1.5, right.degrees = -1;
        left.x = 440, left.y = 320, right.x = 500, right.y = 340;
        for (const auto& [half, by] : {std::pair{&left, left_by}, {&right, right_by}}) {
            half->length = 560, half->border_density -= by;
            half->curve = [less = by](double over_paper) { return fogged_curve(over_paper) - less; };
        }
        PrintScan scan;
        scan.prints = {left, right};
        scan.patches = {{{30, 20, 90, 70}, 0.09}};
        scan.linear(negative).write_to_file((program_ / "print.tif").c_str());
    }

    Program::Answer read(const std::string& more = "") {
        std::filesystem::remove(program_ / "rows.csv");
        return program_.run(kReadHalves + more);
    }
    /// Whether the half that is called bleached is the right one.
    static bool is_right(const Program::Answer& answer) {
        EXPECT_EQ(answer.code, 0) << answer.err;
        if (answer.code != 0) return false;
        const auto pieces = nlohmann::json::parse(answer.out)["prints"][0]["pieces"];
        return double(pieces[1]["corners"][1][0]) > double(pieces[0]["corners"][1][0]);
    }

    Program program_;
};

TEST_F(BleachedHalf, IsTheLighterOneOfTwoThatDifferLittle) {
    for (const bool right : {true, false}) {
        SCOPED_TRACE(right);
        lay(of_two_grounds(right), right ? 0 : 0.03, right ? 0.03 : 0);
        EXPECT_EQ(is_right(read()), right);
    }
}

TEST_F(BleachedHalf, IsToldByTheUserWhereTheTonesDoNotTell) {
    lay(DrawnNegative(7), 0, 0);
    const auto refused = read();
    EXPECT_EQ(refused.code, 65) << refused.out;
    EXPECT_THAT(refused.err, AllOf(HasSubstr("print.tif: which half was bleached cannot be told"),
                                   HasSubstr("--bleached-half left, right, upper or lower")));
    EXPECT_FALSE(std::filesystem::exists(program_ / "rows.csv"));
    EXPECT_FALSE(is_right(read("--bleached-half left")));
    program_.write("labels.csv", "piece,kind,halves,bleach_s,negative\n,print,right,40,neg.tif\n");
    EXPECT_TRUE(is_right(read("--labels labels.csv")));
    const auto other = read("--bleached-half upper");
    EXPECT_EQ(other.code, 65);
    EXPECT_THAT(other.err, HasSubstr("left or right, as these halves lie"));
}

TEST_F(BleachedHalf, ThatIsToldButDenserIsDoubted) {
    lay(DrawnNegative(7), 0, 0.1);
    const auto doubted = read("--bleached-half left");
    EXPECT_FALSE(is_right(doubted));
    EXPECT_THAT(doubted.err, HasSubstr("the half that is told as bleached is the denser one, by 0.10 D"));
    const auto taken = read("--bleached-half right");
    EXPECT_TRUE(is_right(taken));
    EXPECT_THAT(taken.err, Not(HasSubstr("told as bleached")));
}

}  // namespace
}  // namespace fogproof::tests
