// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A band of the real test strip told to `start`: what it does to the exposure, and what is kept of it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "fogproof/pack/file.hpp"
#include "fogproof/pack/readings.hpp"
#include "support/own_strips.hpp"
#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using nlohmann::json;
using testing::HasSubstr;

class SeenBand : public testing::Test {
  protected:
    SeenBand() {
        // Narrow patches: whichever band is looked at shows all tones.
        constexpr int kNarrow = 4;
        raster<std::uint16_t>(
            kPatch * int(PatchPrints::kLight.size()), 2 * kPatch, 1,
            [&](int x, int, int) {
                return std::round(65535 *
                                  PatchPrints::kLight[std::size_t(x / kNarrow) % PatchPrints::kLight.size()]);
            },
            VIPS_INTERPRETATION_GREY16)
            .write_to_file((prints.program / "neg.tif").c_str());
    }
    [[nodiscard]] json start(const std::string& options, const std::string& pack = "pack.toml") const {
        const auto answer =
            prints.program.run("start neg.tif --json --whole --clear 1 --pack " + pack + " " + options);
        EXPECT_EQ(answer.code, 0) << options << "\n" << answer.err;
        return json::parse(answer.out);
    }
    PatchPrints prints;
};

double stops_between(const json& one, const json& other) {
    return std::log2(double(one) / double(other));
}

TEST_F(SeenBand, MovesTheExposureToWhatTheChoiceSays) {
    const json before = start("");
    const json& bands = before["test_strip"]["exposures_s"];
    const double width = before["test_strip"]["step_stops"];
    ASSERT_GE(bands.size(), 5);
    double last = 0;
    for (std::size_t i = 0; i < bands.size(); ++i) {
        const json after = start("--seen " + std::to_string(i + 1));
        const json& exposure = after["best"]["exposure_s"];
        EXPECT_LT(std::abs(stops_between(exposure, bands[i])), width) << "band " << i + 1;
        EXPECT_GT(double(exposure), last) << "band " << i + 1;
        last = exposure;
        // What the strip told is known better than it was.
        EXPECT_LT(stops_between(after["best"]["exposure_s_high"], exposure),
                  stops_between(before["best"]["exposure_s_high"], before["best"]["exposure_s"]));
        EXPECT_NEAR(double(after["seen"]["paper_faster_stops"]),
                    stops_between(before["best"]["exposure_s"], bands[i]), 1e-6);
    }
    // The told band says that nothing is to be moved.
    const json as_told = start("--seen " + std::to_string(bands.size() / 2 + 1));
    EXPECT_LT(std::abs(stops_between(as_told["best"]["exposure_s"], before["best"]["exposure_s"])),
              width / 4);
}

TEST_F(SeenBand, CountsSecondsOfTheEnlargerAsItStandsNow) {
    const std::string larger = "--magnification 9 ";
    const json before = start(larger), after = start(larger + "--seen 2");
    EXPECT_LT(std::abs(stops_between(after["best"]["exposure_s"], before["test_strip"]["exposures_s"][1])),
              double(before["test_strip"]["step_stops"]));
}

TEST_F(SeenBand, KeepsAllButTheExposureOfTheStrip) {
    const json before = start(""), after = start("--seen 2");
    for (const char* kept : {"grade", "restrainer_ml_l", "develop_s", "bleach_s"})
        EXPECT_NEAR(double(after["best"][kept]), double(before["best"][kept]), 1e-6) << kept;
    const auto text = prints.program.run("start neg.tif --whole --clear 1 --pack pack.toml --seen 2").out;
    EXPECT_THAT(text, HasSubstr("Seen: band 2"));
    EXPECT_THAT(text, HasSubstr("stop faster than the pack says"));
}

TEST_F(SeenBand, ReadingThatIsKeptTeachesThePackTheSame) {
    const json before = start("");
    const json seen = start("--seen 2 --readings-out seen.csv");
    const auto fit = prints.program.run("pack fit seen.csv --pack pack.toml -o learnt.toml");
    ASSERT_EQ(fit.code, 0) << fit.err;
    const json& recipe = before["best"];
    const std::string as_before = "--grade " + recipe["grade"].dump() + " --restrainer " +
                                  recipe["restrainer_ml_l"].dump() + " --develop " +
                                  recipe["develop_s"].dump() + " --bleach " + recipe["bleach_s"].dump() + "s";
    const json after = start(as_before, "learnt.toml");
    EXPECT_NEAR(stops_between(after["best"]["exposure_s"], seen["best"]["exposure_s"]), 0, 0.01);
    // A second strip's reading goes below the first.
    const json again = start("--seen 3 --readings-out both.csv", "learnt.toml");
    const json more = start("--seen 4 --readings-out both.csv", "learnt.toml");
    EXPECT_EQ(read_readings_file(prints.program / "both.csv").size(), 2);
}

// The strip was exposed under the negative: its reading tells the Callier factor in its density (Callier
// 1909, from memory), so that a fit may doubt it.
TEST_F(SeenBand, ReadingTellsTheCallierFactorOfTheEnlarger) {
    static_cast<void>(start("--callier 1.2 --seen 2 --readings-out seen.csv"));
    const auto rows = read_readings_file(prints.program / "seen.csv");
    ASSERT_EQ(rows.size(), 1);
    EXPECT_EQ(rows.front().callier, 1.2);
}

// A pack whose strips were exposed and read on another day: its seconds are known to a tenth of a stop or so.
class SeenBandOnAReadPack : public SeenBand {
  protected:
    SeenBandOnAReadPack() {
        // An unknown head would leave open how dense the negative is to the paper.
        prints.program.write("diffuser.toml",
                             content_of(prints.program / "pack.toml") + "[enlarger]\nhead = \"diffuser\"\n");
        const Pack truth = parse_pack(content_of(prints.program / "diffuser.toml"), "diffuser.toml");
        auto strips = own::usual_strips();
        for (const own::Strip& strip : {own::Strip{"plain", 21, 40, 2, 0}, own::Strip{"hard", 21, 40, 4, 20},
                                        own::Strip{"again", 21, 40, 2, 20, 90, 60}})
            strips.push_back(strip);
        const auto rows = own::read(truth, own::patches_of(strips, truth.contrast), 0.01, 3);
        append_readings(prints.program / "strips.csv", std::array{OriginalRows{"strips", rows}});
        const auto fit = prints.program.run("pack fit strips.csv --pack diffuser.toml -o read.toml");
        EXPECT_EQ(fit.code, 0) << fit.err;
    }
    // As its strips were developed.
    [[nodiscard]] json start_as_read(const std::string& options,
                                     const std::string& pack = "read.toml") const {
        return start(kAsRead + options, pack);
    }
    [[nodiscard]] std::string words_of(const std::string& band) const {
        return prints.program
            .run("start neg.tif --whole --clear 1 --pack read.toml " + kAsRead + "--seen " + band)
            .out;
    }
    const std::string kAsRead = "--grade 2 --restrainer 20 --develop 90 --no-bleach ";
};

// Another lamp or another height of the enlarger darkens or lightens every print of the day. What a pack
// knows of its paper says nothing of that, and the strip in hand decides.
TEST_F(SeenBandOnAReadPack, TheExposureFollowsTheBandAllTheWay) {
    const json before = start_as_read("");
    const json& bands = before["test_strip"]["exposures_s"];
    const double width = before["test_strip"]["step_stops"];
    const double factor = double(before["best"]["exposure_s_high"]) / double(before["best"]["exposure_s"]);
    ASSERT_LT(std::log2(factor), 0.3) << "the pack knows its seconds";
    ASSERT_EQ(bands.size(), 7) << "bands enough for another light";
    double last = 0;
    for (const std::size_t i : {0u, 1u, 3u, 5u, 6u}) {
        const json after = start_as_read("--seen " + std::to_string(i + 1));
        const json& best = after["best"];
        EXPECT_LT(std::abs(stops_between(best["exposure_s"], bands[i])), width / 3) << "band " << i + 1;
        EXPECT_GT(double(best["exposure_s"]), last) << "band " << i + 1;
        last = best["exposure_s"];
        EXPECT_LT(double(best["exposure_s_low"]), double(bands[i]));
        EXPECT_GT(double(best["exposure_s_high"]), double(bands[i]));
        EXPECT_TRUE(after["seen"]["as_todays_light"]);
        for (const char* kept : {"grade", "restrainer_ml_l", "develop_s", "bleach_s"})
            EXPECT_NEAR(double(best[kept]), double(before["best"][kept]), 1e-6) << kept;
        // The paper is no other: what is expected of its prints stays, but for what the strip leaves open.
        EXPECT_NEAR(double(best["lightness_error_as_described"]),
                    double(before["best"]["lightness_error_as_described"]), 0.01);
    }
}

// The other commands know nothing of today unless they are told. They are given the light, or the seconds
// that the same print takes in the light of the readings.
TEST_F(SeenBandOnAReadPack, OtherCommandsPrintTheSameOnceTheyAreToldTheLight) {
    const auto distance = [&](const std::string& options) {
        const auto print = prints.program.run(
            "print neg.tif --whole --clear 1 --pack read.toml --json --force "
            "-o same.tif " +
            options);
        EXPECT_EQ(print.code, 0) << print.err;
        return double(json::parse(print.out)["prints"][0]["lightness_error"]);
    };
    for (const char* band : {"2", "6"}) {
        const std::string recipe = "tonight" + std::string(band) + ".toml";
        const json after = start_as_read("--recipe-out " + recipe + " --seen " + band);
        const double stops = after["seen"]["light_stops"],
                     told = after["best"]["lightness_error_as_described"];
        EXPECT_GT(std::abs(stops), 0.2);
        EXPECT_NEAR(distance("--recipe " + recipe + " --light " + std::to_string(stops)), told, 0.03);
        EXPECT_GT(std::abs(distance("--recipe " + recipe) - told), 0.3);
        std::string as_told = (stops > 0 ? "+" : "") + std::to_string(std::round(100 * stops) / 100);
        as_told.erase(as_told.find_last_not_of('0') + 1);
        EXPECT_THAT(words_of(band), HasSubstr("give them --light " + as_told +
                                              ", the likeliest by this band and the pack together."));
    }
}

TEST_F(SeenBandOnAReadPack, TellsTheSecondsOfTheSamePrintInTheLightOfTheReadings) {
    for (const char* band : {"2", "6"}) {
        const json after = start_as_read("--seen " + std::string(band));
        const double seconds = after["seen"]["exposure_s_in_light_of_readings"];
        EXPECT_GT(std::abs(stops_between(seconds, after["best"]["exposure_s"])), 0.2);
        const auto print = prints.program.run("print neg.tif --whole --clear 1 --pack read.toml --grade 2 " +
                                              std::string("--restrainer 20 --develop 90 --json --force ") +
                                              "-o same.tif --exposure " + std::to_string(seconds) + "s");
        ASSERT_EQ(print.code, 0) << print.err;
        EXPECT_NEAR(double(json::parse(print.out)["prints"][0]["lightness_error"]),
                    double(after["best"]["lightness_error_as_described"]), 0.03);
    }
    EXPECT_FALSE(start_as_read("").contains("seen"));
}

TEST_F(SeenBandOnAReadPack, BandAtAnEndAsksForAnotherStrip) {
    EXPECT_THAT(words_of("1"), HasSubstr("the shortest band, so the right time may be shorter still"));
    EXPECT_THAT(words_of("7"), HasSubstr("the longest band, so the right time may be longer still"));
    const std::string inner = words_of("3");
    EXPECT_THAT(inner, HasSubstr("only today's light is taken to differ"));
    EXPECT_THAT(inner, testing::Not(HasSubstr("still: expose")));
}

// Kept as a reading it says little of the paper: the light of its day may have differed.
TEST_F(SeenBandOnAReadPack, ReadingThatIsKeptLeavesThePackNearWhatItWas) {
    const json before = start_as_read("");
    const json seen = start_as_read("--seen 2 --readings-out seen.csv");
    const auto fit = prints.program.run("pack fit seen.csv --pack read.toml -o learnt.toml");
    ASSERT_EQ(fit.code, 0) << fit.err;
    const json after = start_as_read("", "learnt.toml");
    const double of_band = stops_between(seen["best"]["exposure_s"], before["best"]["exposure_s"]);
    EXPECT_LT(std::abs(stops_between(after["best"]["exposure_s"], before["best"]["exposure_s"])),
              std::abs(of_band) / 3);
}

// Black beside black tells nothing: nobody can have seen which band is as dark.
TEST_F(SeenBand, OfAPlaceWithoutMiddleTonesIsRefused) {
    save_patches(prints.program, "neg.tif", {1, 1, 1, 0.5, 0.2, 0.05, 0.02});
    const auto answer = prints.program.run(
        "start neg.tif --whole --clear 1 --pack pack.toml --seen 1 --readings-out seen.csv");
    EXPECT_EQ(answer.code, 64) << answer.out;
    EXPECT_THAT(answer.err, HasSubstr("the place of band 1 is nearly black or white throughout"));
    EXPECT_FALSE(std::filesystem::exists(prints.program / "seen.csv"));
}

}  // namespace
}  // namespace fogproof::tests
