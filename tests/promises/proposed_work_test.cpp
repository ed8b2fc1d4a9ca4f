// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// start --local: the burn or dodge that would gain most, its mask and its recipe, asked of the program.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <string>

#include "fogproof/pack/file.hpp"
#include "support/examples.hpp"
#include "support/film_scan.hpp"
#include "support/known_pack.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

constexpr int kShotWide = 240, kShotHigh = 160;

// Land of soft tones under a sky that is far denser than the rest, with clouds in it; or without the sky.
struct Landscapes {
    Program program;

    Landscapes() {
        const auto scan = [&](const std::string& name, double sky) {
            const auto code = [sky](int x, int y, int) {
                const double down = double(y) / kShotHigh;
                const double land = 0.3 + 0.25 * std::sin(0.13 * x) * std::cos(0.21 * y);
                const double clouds = sky + 0.12 * std::sin(0.05 * x + 0.09 * y);
                const double share = 1 / (1 + std::exp((down - 0.25) / 0.02));
                return 65535 * std::pow(10.0, -(0.02 + std::lerp(land, clouds, share)));
            };
            raster<std::uint16_t>(kShotWide, kShotHigh, 1, code, VIPS_INTERPRETATION_GREY16)
                .write_to_file((program / name).c_str());
        };
        scan("sky.tif", 1.6);
        scan("plain.tif", 0.35);
        program.write("pack.toml", written(exactly_known(examples::fogged_pack(0.35))));
    }
    [[nodiscard]] nlohmann::json start(const std::string& scan, const std::string& options) const {
        const auto answer =
            program.run("start " + scan + " --whole --pack pack.toml --grade 3 --quiet --json " + options);
        EXPECT_EQ(answer.code, 0) << options << "\n" << answer.err;
        return nlohmann::json::parse(answer.out, nullptr, false);
    }
};

double expected(const nlohmann::json& told) {
    return told["best"]["lightness_error"].get<double>();
}

TEST(ProposedWork, LowersTheExpectedDistanceByWhatItSays) {
    const Landscapes shots;
    const auto plain = shots.start("sky.tif", ""),
               found = shots.start("sky.tif", "--local --recipe-out burnt.toml");
    const auto& work = found["proposed"];
    ASSERT_TRUE(work.is_object()) << found.dump(1);
    EXPECT_EQ(work["work"], "burn");
    EXPECT_EQ(work["where"], "at the top");
    EXPECT_GT(work["gain"].get<double>(), 0.1);
    EXPECT_NEAR(work["lightness_error_without"].get<double>(), expected(plain), 1e-6);
    // The told recipe, taken again from its file with all else sought anew.
    const auto again = shots.start("sky.tif", "--local-work burnt.toml");
    constexpr double kSame = 1e-6;  // the mask is kept in 16 bits, as it is worked with
    EXPECT_NEAR(expected(plain) - expected(again), work["gain"].get<double>(), kSame);
    EXPECT_NEAR(expected(found), expected(again), kSame);
    EXPECT_NEAR(again["best"]["exposure_s"].get<double>(), found["best"]["exposure_s"].get<double>(), kSame);
}

TEST(ProposedWork, IsARecipeWhosePrintIsCloserToTheFreshOne) {
    const Landscapes shots;
    const auto found = shots.start("sky.tif", "--local --recipe-out burnt.toml"),
               plain = shots.start("sky.tif", "--recipe-out plain.toml");
    const auto error = [&](const std::string& recipe) {
        const auto answer = shots.program.run(
            "print sky.tif --whole --pack pack.toml --quiet --json --force "
            "-o print.tif --recipe " +
            recipe);
        EXPECT_EQ(answer.code, 0) << answer.err;
        return nlohmann::json::parse(answer.out)["prints"][0]["lightness_error"].get<double>();
    };
    // On the paper exactly as it is described; what is expected over all papers gains less surely so much.
    const double told = plain["best"]["lightness_error_as_described"].get<double>() -
                        found["best"]["lightness_error_as_described"].get<double>();
    EXPECT_GT(told, 0.1);
    EXPECT_NEAR(error("plain.toml") - error("burnt.toml"), told, 0.05);
}

TEST(ProposedWork, HasASoftMaskBesideItsRecipe) {
    const Landscapes shots;
    const auto answer = shots.program.run(
        "start sky.tif --whole --pack pack.toml --grade 3 --quiet --local --recipe-out burnt.toml");
    ASSERT_EQ(answer.code, 0) << answer.err;
    EXPECT_THAT(answer.out, AllOf(HasSubstr("proposed"), HasSubstr("burn at the top"),
                                  HasSubstr("burnt-burn.png"), HasSubstr("closer")));
    EXPECT_THAT(content_of(shots.program / "burnt.toml"), HasSubstr("where = \"burnt-burn.png\""));
    const auto mask = vips::VImage::new_from_file((shots.program / "burnt-burn.png").c_str());
    EXPECT_EQ(mask.bands(), 1);
    EXPECT_EQ(mask.format(), VIPS_FORMAT_USHORT);
    EXPECT_GT(mask.max(), 65000);
    const auto half = [&](int top) {
        return mask.extract_area(0, top, mask.width(), mask.height() / 2).avg();
    };
    EXPECT_GT(half(0), half(mask.height() / 2));
    EXPECT_EQ(mask.getpoint(mask.width() / 2, mask.height() - 2)[0], 0);
    const auto used =
        shots.program.run("print sky.tif --whole --pack pack.toml -o print.tif --recipe burnt.toml");
    EXPECT_EQ(used.code, 0) << used.err;
    EXPECT_THAT(used.err, Not(HasSubstr("rim")));
}

TEST(ProposedWork, NothingIsProposedWhereNothingGains) {
    const Landscapes shots;
    // A pack of which hardly anything is known, so that nobody can tell where a burn would be wanted.
    shots.program.write("pack.toml", written(examples::fogged_pack(0.35)));
    const auto found = shots.start("plain.tif", "--local --recipe-out plain.toml");
    EXPECT_TRUE(found["proposed"].is_null()) << found["proposed"];
    EXPECT_EQ(found["best"], shots.start("plain.tif", "")["best"]);
    EXPECT_THAT(content_of(shots.program / "plain.toml"), Not(HasSubstr("[[local]]")));
    EXPECT_FALSE(std::filesystem::exists(shots.program / "plain-burn.png"));
    const auto words =
        shots.program.run("start plain.tif --whole --pack pack.toml --grade 3 --quiet --local");
    EXPECT_THAT(words.out, HasSubstr("no burn or dodge"));
}

TEST(ProposedWork, NeverWritesOverAMaskUnasked) {
    const Landscapes shots;
    shots.program.write("burnt-burn.png", "mine");
    const std::string asked =
        "start sky.tif --whole --pack pack.toml --grade 3 --quiet --local --recipe-out burnt.toml";
    const auto refused = shots.program.run(asked);
    EXPECT_NE(refused.code, 0);
    EXPECT_THAT(refused.err, HasSubstr("burnt-burn.png"));
    EXPECT_FALSE(std::filesystem::exists(shots.program / "burnt.toml"));
    EXPECT_EQ(content_of(shots.program / "burnt-burn.png"), "mine");
    EXPECT_EQ(shots.program.run(asked + " --force").code, 0);
}

}  // namespace
}  // namespace fogproof::tests
