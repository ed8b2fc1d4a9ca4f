// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A picture whose tones a print shall have, asked of the program.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using nlohmann::json;
using testing::HasSubstr;
using testing::Not;

const std::string kFrame = " --whole --clear 1 ";

json start(const PatchPrints& prints, const std::string& options) {
    const auto answer = prints.program.run("start neg.tif --json --pack pack.toml" + kFrame + options);
    EXPECT_EQ(answer.code, 0) << options << "\n" << answer.err;
    return json::parse(answer.out);
}

// The picture is read under a guess like every other, and the guess is told.
TEST(MatchedPicture, IsReadUnderAGuessThatIsTold) {
    const PatchPrints prints;
    save_patches(prints.program, "other.tif", {0.05, 0.1, 0.3, 0.5, 0.6, 0.7, 0.9});
    const std::string asked = "neg.tif --pack pack.toml --match other.tif --no-bleach" + kFrame;
    for (const char* verb : {"start ", "plan "})
        EXPECT_THAT(prints.program.run(verb + asked).err,
                    HasSubstr("other.tif: 16-bit scan without a usable profile"))
            << verb;
    const json linear = start(prints, "--match other.tif --no-bleach"),
               coded = start(prints, "--match other.tif --no-bleach --match-encoding srgb");
    EXPECT_GT(double(coded["best"]["exposure_s"]), double(linear["best"]["exposure_s"]))
        << "codes of sRGB are darker tones";
    EXPECT_EQ(start(prints, "--match other.tif --no-bleach --match-encoding linear")["best"], linear["best"]);
    EXPECT_THAT(prints.program.run("plan " + asked + " --match-encoding srgb").err,
                Not(HasSubstr("other.tif: 16-bit scan without")));
    const auto alone = prints.program.run("start neg.tif --pack pack.toml --match-encoding srgb" + kFrame);
    EXPECT_EQ(alone.code, 64);
    EXPECT_THAT(alone.err, HasSubstr("--match-encoding: without --match"));
}

}  // namespace
}  // namespace fogproof::tests
