// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The test strip as a picture, asked of the program: what is drawn are the pixels of prints.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <regex>

#include "support/found_pixels.hpp"
#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using nlohmann::json;

const std::string kTexturedFrame = " --whole --clear 1 ";

// Tones that run one way, and texture by which a piece of it is known again.
void save_textured(const Program& program, int width, int height, bool upright) {
    raster<std::uint16_t>(
        width, height, 1,
        [=](int x, int y, int) {
            const double run = upright ? double(y) / height : double(x) / width;
            const double texture = std::sin(0.9 * x + 0.37 * y) * std::cos(0.61 * y - 0.2 * x * x / width);
            return std::round(65535 * std::pow(10.0, -(0.1 + 1.5 * run + 0.08 * texture)));
        },
        VIPS_INTERPRETATION_GREY16)
        .write_to_file((program / "textured.tif").c_str());
}

struct Place {
    bool upright;
    double from, to;
};

Place place_in(const std::string& words) {
    std::smatch found;
    EXPECT_TRUE(std::regex_search(words, found,
                                  std::regex("the whole (width|height), between (\\d+) and "
                                             "(\\d+) %")))
        << words;
    return {found[1] == "height", std::stod(found[2]) / 100, std::stod(found[3]) / 100};
}

class PredictedTestStrip : public testing::Test {
  protected:
    [[nodiscard]] json start(const std::string& options) const {
        const auto answer = prints.program.run(
            "start textured.tif --pack pack.toml --json --force --profile grey --bits 16 " + kTexturedFrame +
            options);
        EXPECT_EQ(answer.code, 0) << answer.err;
        return json::parse(answer.out);
    }
    // How often the middle of a band's piece stands in the picture, of the print at one exposure.
    [[nodiscard]] int count_of(const json& answer, const json& exposure, int band,
                               const std::string& options) const {
        const auto print = prints.program.run(
            "print textured.tif --pack pack.toml --force --profile grey --bits 16 --size 1000 "
            "--recipe best.toml -o print.png --exposure " +
            exposure.dump() + "s" + kTexturedFrame + options);
        EXPECT_EQ(print.code, 0) << print.err;
        const Samples whole((prints.program / "print.png").string()),
            strip((prints.program / "strip.png").string());
        const Place place = place_in(answer["test_strip"]["where"]);
        const double count = double(answer["test_strip"]["exposures_s"].size());
        const double along = (band + 0.25) / count, length = 0.5 / count;
        const double across = place.from + 0.2 * (place.to - place.from),
                     wide = 0.6 * (place.to - place.from);
        const auto of = [](double share, int pixels) { return int(share * pixels); };
        return place.upright ? strip.count(whole, of(across, whole.width()), of(along, whole.height()),
                                           of(wide, whole.width()), of(length, whole.height()))
                             : strip.count(whole, of(along, whole.width()), of(across, whole.height()),
                                           of(length, whole.width()), of(wide, whole.height()));
    }
    void expect_bands_of_prints(const json& answer, const std::string& state) const {
        const json exposures = answer["test_strip"]["exposures_s"];
        const int count = int(exposures.size()), told = count / 2;
        for (int i = 0; i < count; ++i) {
            // The told band stands in the strip and once more where all of it is exposed as told.
            EXPECT_EQ(count_of(answer, exposures[i], i, state), i == told ? 2 : 1)
                << "band " << i + 1 << state;
            if (i != told) {
                EXPECT_EQ(count_of(answer, exposures[told], i, state), 1)
                    << "band " << i + 1 << " as told" << state;
            }
        }
    }
    PatchPrints prints;
};

TEST_F(PredictedTestStrip, BandsHaveThePixelsOfPrintsBeforeAndAfterTheBleach) {
    save_textured(prints.program, 320, 240, false);
    const json answer = start("--strip strip.png --recipe-out best.toml");
    ASSERT_FALSE(place_in(answer["test_strip"]["where"]).upright);
    ASSERT_GT(double(answer["best"]["bleach_s"]), 0);
    expect_bands_of_prints(answer, "");
    expect_bands_of_prints(answer, " --bleach 0s");
}

TEST_F(PredictedTestStrip, LiesAsItsPlaceDoesAndShowsNoBleachWhereThereIsNone) {
    // Larger than the strip is drawn, so that light is averaged.
    save_textured(prints.program, 1050, 1400, true);
    const json answer = start("--no-bleach --strip strip.png --recipe-out best.toml");
    ASSERT_TRUE(place_in(answer["test_strip"]["where"]).upright);
    expect_bands_of_prints(answer, "");
    EXPECT_EQ(count_of(answer, answer["test_strip"]["exposures_s"][0], 0, " --bleach 20s"), 0);
}

TEST_F(PredictedTestStrip, IsDrawnOnAPackWithoutAnAnchorToo) {
    save_textured(prints.program, 320, 240, false);
    prints.program.write("pack.toml", "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.35\n");
    const json answer = start("--strip strip.png --recipe-out best.toml");
    EXPECT_TRUE(answer["test_strip"]["exposures_s"][0].is_null());
    EXPECT_GT(Samples((prints.program / "strip.png").string()).width(), 320);
}

}  // namespace
}  // namespace fogproof::tests
