// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Seconds count from what lay in the carrier when they were measured. The witness is optics: film of density
// B passes 10^-B of the light (ISO 5-2, by definition of density), whichever lies in the carrier and
// whenever.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "support/folded.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using Json = nlohmann::json;

constexpr double kBase = 0.25;                 // of the film, over an empty carrier
constexpr double kThin = 0.10, kDense = 1.10;  // above base + fog
constexpr double kTwoDecimals = 0.015;         // densities of a fit of readings written with three decimals

// A graded paper without fog or flare, whose seconds count from whatever [anchor] says.
std::string paper(const std::string& anchor) {
    return "fogproof_pack = 1\n[paper]\ncontrast = \"graded\"\niso_range = 100\nwhite = 0.08\n[fog]\nblank = "
           "0.08\n[speed]\nlog_seconds = 0.6\n[enlarger]\nflare = 0\n[anchor]\nknown = true\n" +
           anchor;
}

class ZeroOfSeconds : public ::testing::Test {
  protected:
    Program program;

    void SetUp() override {
        write_film("film.tif", kBase);
        program.write("untold.toml", paper(""));
        program.write("clear.toml", paper("carrier = \"clear film\"\n"));
        program.write("empty.toml", paper("carrier = \"empty\"\n"));
        program.write("leader.toml", paper("carrier = 0.25\n"));
    }
    // Clear film all around two tones, bare light at full scale.
    void write_film(const std::string& name, double base) const {
        raster<std::uint16_t>(
            240, 160, 1,
            [base](int x, int y, int) {
                const bool inside = x >= 20 && x < 220 && y >= 20 && y < 140;
                const double step = (kDense - kThin) * (x - 20) / 199;
                return std::lround(65535 * std::pow(10.0, -(base + (inside ? kThin + step : 0))));
            },
            VIPS_INTERPRETATION_GREY16)
            .write_to_file((program / name).c_str());
    }
    static std::string how(const std::string& film) {
        return film + " --frame 20,20,200,120 --clear 4,4,12,152 ";
    }
    [[nodiscard]] Json answer(const std::string& words) const {
        const auto said = program.run(words);
        EXPECT_EQ(said.code, 0) << words << "\n" << said.err;
        return Json::parse(said.out);
    }
    // Lightest and darkest density of one print.
    [[nodiscard]] std::pair<double, double> print(const std::string& film, const std::string& options) const {
        const auto said =
            program.run("grid " + how(film) + "-o g.png --force --cell 80 --across restrainer=0 " +
                        "--down bleach=0s " + options);
        EXPECT_EQ(said.code, 0) << said.err;
        const Json cell = Json::parse(content_of(program / "g.png.json")).at("cells").at(0);
        return {cell.at("density_lightest"), cell.at("density_darkest")};
    }
    // The paper's own curve: density after so many of the seconds that its file counts.
    [[nodiscard]] double curve(double seconds) const {
        static const Json recipe =
            answer("pack show untold.toml --json --at restrainer=0").at("recipes").at(0);
        const double place = (std::log10(seconds) + 3) / 0.05;
        const auto below = std::size_t(place);
        return std::lerp(recipe.at("density").at(below).get<double>(),
                         recipe.at("density").at(below + 1).get<double>(), place - double(below));
    }
    [[nodiscard]] double start_s(const std::string& film, const std::string& options) const {
        return answer("start " + how(film) + "--json --no-bleach " + options).at("best").at("exposure_s");
    }
};

constexpr double kOfCurve = 0.006;  // straight lines between points of the curve, quantiles of the picture

TEST_F(ZeroOfSeconds, AnEmptyCarrierAtTheAnchorAddsTheFilmsBase) {
    const double seconds = 20;
    const auto [light, dark] = print("film.tif", "--pack empty.toml --exposure 20s");
    EXPECT_NEAR(light, curve(seconds * std::pow(10.0, -kBase - kDense)), kOfCurve);
    EXPECT_NEAR(dark, curve(seconds * std::pow(10.0, -kBase - kThin)), kOfCurve);
    EXPECT_GT(curve(seconds * std::pow(10.0, -kThin)) - dark, 20 * kOfCurve) << "0.8 stop is plainly seen";
}

TEST_F(ZeroOfSeconds, FilmOfKnownDensityAtTheAnchorCountsTheDifference) {
    write_film("dense.tif", 0.45);
    const auto [light, dark] = print("dense.tif", "--pack leader.toml --exposure 20s");
    EXPECT_NEAR(dark, curve(20 * std::pow(10.0, -0.2 - kThin)), kOfCurve);
    EXPECT_NEAR(light, curve(20 * std::pow(10.0, -0.2 - kDense)), kOfCurve);
}

TEST_F(ZeroOfSeconds, StartAsksForTheStopsThatTheFilmKeepsBack) {
    const double clear = start_s("film.tif", "--pack clear.toml"),
                 empty = start_s("film.tif", "--pack empty.toml");
    constexpr double kSearch = 0.01;  // of a time; where a search stops
    EXPECT_NEAR(empty / clear, std::pow(10.0, kBase), kSearch);
    EXPECT_NEAR(start_s("film.tif", "--pack untold.toml --carrier empty") / empty, 1, kSearch);
    EXPECT_NEAR(start_s("film.tif", "--pack empty.toml --base-fog 0.4") / clear, std::pow(10.0, 0.4),
                kSearch);
    EXPECT_NEAR(start_s("film.tif", "--pack empty.toml --carrier 0.25") / clear, 1, kSearch);
}

TEST_F(ZeroOfSeconds, BlackTimeSaysWhatItWasSeenThrough) {
    program.write("unanchored.toml", "fogproof_pack = 1\n[enlarger]\nflare = 0\n");
    // One recipe: longer times are in more doubt, and another recipe might be the better bet for them.
    const std::string words =
        "--pack unanchored.toml --black-time 8s@2 --grade 2 --restrainer 0 --develop 90 --no-bleach ";
    const double clear = start_s("film.tif", words), empty = start_s("film.tif", words + "--carrier empty");
    EXPECT_NEAR(empty / clear, std::pow(10.0, kBase), 0.01);
}

TEST_F(ZeroOfSeconds, AWedgeUnderAnEmptyCarrierIsFittedSo) {
    // A wedge read off the paper's own curve under an open gate, then a negative of known base on the pack
    // that the fit describes.
    std::string told = "strip,wedge_density,exposure_s,density,carrier_density\n",
                untold = "strip,wedge_density,exposure_s,density\n";
    for (int step = 0; step < 21; ++step) {
        const double wedge = 0.05 + 0.15 * step;
        const std::string row = "w," + std::to_string(wedge) + ",40," +
                                std::to_string(std::round(1000 * curve(40 * std::pow(10.0, -wedge))) / 1000);
        told += row + ",0\n";
        untold += row + "\n";
    }
    program.write("told.csv", told);
    program.write("untold.csv", untold);
    program.write("prior.toml",
                  "fogproof_pack = 1\n[paper]\ncontrast = \"graded\"\niso_range = 110\nwhite = 0.08\n[fog]\n"
                  "blank = 0.08\n[enlarger]\nflare = 0\n");
    const std::string fit = "pack fit --pack prior.toml ";
    ASSERT_EQ(program.run(fit + "told.csv -o told.toml").code, 0);
    ASSERT_EQ(program.run(fit + "untold.csv --carrier empty -o option.toml").code, 0);
    const double truth = curve(20 * std::pow(10.0, -kBase - kThin));
    for (const char* pack : {"told.toml", "option.toml"}) {
        EXPECT_THAT(content_of(program / pack), HasSubstr("carrier = \"empty\"")) << pack;
        EXPECT_NEAR(print("film.tif", "--exposure 20s --pack " + std::string(pack)).second, truth,
                    kTwoDecimals)
            << pack;
    }
    // Readings that say nothing keep their old meaning, with a note.
    const auto old = program.run(fit + "untold.csv -o old.toml");
    EXPECT_THAT(old.err, HasSubstr("nothing says what lay in the carrier"));
    EXPECT_NEAR(print("film.tif", "--exposure 20s --pack old.toml").second,
                curve(20 * std::pow(10.0, -kThin)), kTwoDecimals);
    // Further readings through film count from the same zero.
    program.write("film.csv", "strip,exposure_s,density,carrier_density\nf,20," + std::to_string(truth) +
                                  ",0.35\nf,40," +
                                  std::to_string(curve(40 * std::pow(10.0, -kBase - kThin))) + ",0.35\n");
    ASSERT_EQ(program.run("pack fit film.csv --pack told.toml -o both.toml").code, 0);
    EXPECT_NEAR(print("film.tif", "--exposure 20s --pack both.toml").second, truth, kTwoDecimals);
}

TEST_F(ZeroOfSeconds, AFlashIsLightThroughAnOpenGate) {
    // One second without the negative is 10^B seconds through clear film.
    const double seconds = 6, flash = 1;
    const auto [light, dark] = print("film.tif", "--pack clear.toml --exposure 6s --flash 1s");
    EXPECT_NEAR(light, curve(seconds * std::pow(10.0, -kDense) + flash * std::pow(10.0, kBase)), kOfCurve);
    const auto open = print("film.tif", "--pack empty.toml --exposure 6s --flash 1s");
    EXPECT_NEAR(open.first, curve(seconds * std::pow(10.0, -kBase - kDense) + flash), kOfCurve);
    const auto longest = [&](const std::string& options) {
        return answer("start " + how("film.tif") + "--json --no-bleach " + options)
            .at("flash")
            .at("longest_s")
            .get<double>();
    };
    EXPECT_NEAR(longest("--pack empty.toml") / longest("--pack clear.toml"), std::pow(10.0, kBase), 0.001);
}

TEST_F(ZeroOfSeconds, OldFilesKeepTheirMeaningWithANote) {
    write_film("dense.tif", 0.45);
    EXPECT_NEAR(start_s("film.tif", "--pack untold.toml") / start_s("dense.tif", "--pack untold.toml"), 1,
                0.01);
    EXPECT_NEAR(start_s("film.tif", "--pack untold.toml") / start_s("film.tif", "--pack clear.toml"), 1,
                1e-9);
    EXPECT_THAT(program.run("start " + how("film.tif") + "--pack untold.toml").err,
                HasSubstr("If the carrier was empty, every exposure needs 0.8 stop more."));
    EXPECT_THAT(program.run("start " + how("film.tif") + "--pack clear.toml").err, Not(HasSubstr("carrier")));
}

TEST_F(ZeroOfSeconds, PagesAndNumbersStateIt) {
    EXPECT_THAT(program.run("pack show empty.toml").out, HasSubstr("with an empty carrier"));
    EXPECT_THAT(program.run("pack show untold.toml").out, HasSubstr("the pack does not say"));
    const std::string sentence =
        "Seconds were measured with an empty carrier; this negative has a base + fog of 0.25";
    EXPECT_THAT(program.run("start " + how("film.tif") + "--pack empty.toml").out, HasSubstr(sentence));
    EXPECT_THAT(program.run("plan " + how("film.tif") + "--pack empty.toml").out,
                HasSubstr("Seconds were measured with an empty carrier"));
    static_cast<void>(print("film.tif", "--pack empty.toml --exposure 6s"));
    EXPECT_THAT(content_of(program / "g.png.json"), HasSubstr(sentence));
    EXPECT_THAT(answer("start " + how("film.tif") + "--json --pack empty.toml").at("zero_of_seconds"),
                HasSubstr(sentence));
}

TEST_F(ZeroOfSeconds, TodaysLightIsToldBesideIt) {
    const std::string brighter =
        "Today's light is taken to be 0.33 stop brighter than that of the pack's readings.";
    const std::string options = how("film.tif") + "--pack empty.toml --light +1/3";
    EXPECT_THAT(program.run("start " + options).out, HasSubstr(brighter));
    EXPECT_THAT(folded(program.run("plan " + options).out), HasSubstr(brighter));
    EXPECT_THAT(answer("start " + options + " --json").at("zero_of_seconds"), HasSubstr(brighter));
    static_cast<void>(print("film.tif", "--pack empty.toml --light +1/3"));
    EXPECT_THAT(content_of(program / "g.png.json"), HasSubstr(brighter));
    EXPECT_THAT(program.run("start " + how("film.tif") + "--pack empty.toml --light -1/2").out,
                HasSubstr("0.5 stop dimmer"));
}

TEST_F(ZeroOfSeconds, ReadingsOfDifferentZerosAreRefused) {
    program.write("mixed.csv",
                  "strip,exposure_s,density,carrier_density\na,4,0.6,0\na,8,0.9,0\nb,4,0.5,\nb,8,0.8,\n");
    const auto said = program.run("pack fit mixed.csv -o out.toml");
    EXPECT_EQ(said.code, 65);
    EXPECT_THAT(said.err, HasSubstr("2 exposed ones do not"));
    EXPECT_THAT(said.err, HasSubstr("[anchor]"));
}

}  // namespace
}  // namespace fogproof::tests
