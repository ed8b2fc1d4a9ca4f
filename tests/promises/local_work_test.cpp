// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Burning, dodging and local bleach, asked of the program: a work under a mask that is white everywhere is
// the print treated so as a whole, whoever reads the scan.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <random>
#include <string>

#include "fogproof/pack/file.hpp"
#include "support/examples.hpp"
#include "support/local_prints.hpp"
#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;
using testing::Not;

constexpr int kLocalCode = 1;  // of 16 bits; what rounds one way here may round the other way there
constexpr char kUnworked[] = "--grade 2 ";

std::string local(const std::string& work, const std::string& where, const std::string& amount) {
    return "[[local]]\nwork = \"" + work + "\"\nwhere = " + where + "\n" + amount + "\n";
}

struct Same {
    const char *work, *amount, *as_a_whole;
};
const std::vector<Same> kSame{
    {"burn", "stops = 1", "--exposure 24s"},
    {"burn", "time_s = 6", "--exposure 18s"},
    {"dodge", "stops = 1", "--exposure 6s"},
    {"dodge", "time_s = 3", "--exposure 9s"},
    {"bleach", "time_s = 40", "--exposure 12s --bleach 40s"},
    {"bleach", "clearing_percent = 80", "--exposure 12s --bleach 80%"},
};

TEST(LocalWorkPromise, UnderAWhiteMaskItIsTheWholePrintTreatedSoByBothRoutes) {
    const LocalPrints prints;
    for (const Same& same : kSame)
        for (const char* scan : {"negative.tif", "negative.png"})
            for (const char* picture : {"print.tif", "print.png"}) {
                if (std::string(scan).ends_with("tif") && std::string(picture).ends_with("png")) continue;
                prints.recipe(local(same.work, "\"white.png\"", same.amount));
                const auto by_mask = prints.samples("--recipe recipe.toml", scan, picture);
                EXPECT_LE(farthest(by_mask,
                                   prints.samples(kUnworked + std::string(same.as_a_whole), scan, picture)),
                          kLocalCode)
                    << same.work << " " << same.amount << " " << scan << " " << picture;
            }
}

TEST(LocalWorkPromise, UnderAWhiteMaskItIsTheWholePrintOnAnyPack) {
    LocalPrints prints;
    std::mt19937 random(7);
    for (int each = 0; each < 4; ++each) {
        Pack pack = examples::random_pack(random);
        pack.darkroom.enlarger.reciprocity = each % 2 == 0 ? 1 : 0.9;
        prints.program.write("pack.toml", written(pack));
        prints.has_grades = pack.contrast == Contrast::variable;
        const std::string plain = prints.has_grades ? kUnworked : "";
        for (const Same& same : kSame) {
            prints.recipe(local(same.work, "\"white.png\"", same.amount));
            // On a sheet without fog there is nothing to be a percentage of.
            if (std::string(same.amount).starts_with("clearing") &&
                pack.blank_density < pack.sheet.white_density + 0.05)
                continue;
            EXPECT_LE(
                farthest(prints.samples("--recipe recipe.toml"), prints.samples(plain + same.as_a_whole)),
                kLocalCode)
                << same.work << " " << same.amount;
        }
    }
}

TEST(LocalWorkPromise, OfAHalfMaskEachHalfIsItsOwnPrint) {
    const LocalPrints prints;
    constexpr int kMiddle = LocalPrints::kWide / 2;
    const auto plain = prints.samples(kUnworked + std::string("--exposure 12s"));
    for (const Same& same : kSame)
        for (const char* scan : {"negative.tif", "negative.png"}) {
            prints.recipe(local(same.work, "\"left.png\"", same.amount));
            const auto half = prints.samples("--recipe recipe.toml", scan);
            EXPECT_LE(farthest(half, prints.samples(kUnworked + std::string(same.as_a_whole)), 0, kMiddle),
                      kLocalCode)
                << same.work << " " << same.amount << " " << scan;
            EXPECT_LE(farthest(half, plain, kMiddle), kLocalCode)
                << same.work << " " << same.amount << " " << scan;
        }
}

TEST(LocalWorkPromise, ABurnThroughAnotherFilterIsASplitExposureOfThatPlace) {
    const LocalPrints prints;
    prints.recipe(local("burn", "\"left.png\"", "time_s = 8\ngrade = 0"));
    const auto burnt = prints.samples("--recipe recipe.toml");
    EXPECT_LE(farthest(burnt, prints.samples("--split 12s@2 8s@0"), 0, LocalPrints::kWide / 2), kLocalCode);
    EXPECT_LE(farthest(burnt, prints.samples("--exposure 12s --grade 2"), LocalPrints::kWide / 2),
              kLocalCode);
    // In stops of the main exposure: one stop through another filter is as long as the exposure itself.
    prints.recipe(local("burn", "\"left.png\"", "stops = 1\ngrade = 0"));
    EXPECT_LE(farthest(prints.samples("--recipe recipe.toml"), prints.samples("--split 12s@2 12s@0"), 0,
                       LocalPrints::kWide / 2),
              kLocalCode);
}

TEST(LocalWorkPromise, LightAddsAndDosesAddWhereWorksMeet) {
    const LocalPrints prints;
    // 12 s and twice 6 s more; 20 s of the bath and 20 s by brush, each with its own soaking in.
    prints.recipe(local("burn", "\"white.png\"", "time_s = 6") +
                  local("burn", "\"white.png\"", "time_s = 6"));
    EXPECT_LE(farthest(prints.samples("--recipe recipe.toml"), prints.samples("--exposure 24s --grade 2")),
              kLocalCode);
    prints.recipe(local("burn", "\"white.png\"", "time_s = 6") +
                  local("dodge", "\"white.png\"", "time_s = 4"));
    EXPECT_LE(farthest(prints.samples("--recipe recipe.toml"), prints.samples("--exposure 14s --grade 2")),
              kLocalCode);
    prints.recipe("[bleach]\ntime_s = 20\n" + local("bleach", "\"white.png\"", "time_s = 20"));
    const auto both = prints.samples("--recipe recipe.toml");
    EXPECT_LE(farthest(both, prints.samples("--exposure 12s --grade 2 --bleach 35s")), kLocalCode)
        << "the pack soaks for 5 s";
}

TEST(LocalWorkPromise, AGreyOfTheMaskIsThatShareOfTheStops) {
    const LocalPrints prints;
    prints.mask("grey.png", [](double, double) { return 0.5; });
    prints.recipe(local("burn", "\"grey.png\"", "stops = 2"));
    // Eye: 16-bit codes of a tenth of one code of 8 bits.
    constexpr int kUnseen = 26;
    EXPECT_LE(farthest(prints.samples("--recipe recipe.toml"), prints.samples("--exposure 24s --grade 2")),
              kUnseen);
}

TEST(LocalWorkPromise, PixelsAreTheSameForAnyNumberOfProcessorsAndBothRoutes) {
    const LocalPrints prints;
    prints.mask(
        "soft.png", [](double x, double y) { return std::clamp(1.4 - 1.2 * y - 0.3 * x, 0.0, 1.0); }, 60, 40);
    prints.recipe(local("burn", "\"soft.png\"", "stops = 1.3") +
                  local("dodge", "{ oval = [60, 60, 25, 20], soft = 12 }", "stops = 0.5") +
                  local("bleach", "{ edge = \"right\", reach = 30, soft = 20 }", "clearing_percent = 90"));
    const auto both = prints.samples("--recipe recipe.toml");
    EXPECT_EQ(farthest(both, prints.samples("--recipe recipe.toml", "negative.png")), 0);
    EXPECT_EQ(farthest(both, prints.samples("--recipe recipe.toml", "negative.png", "print.png")), 0);
    const auto one = prints.program.shell(
        "taskset -c 0 \"$FOGPROOF\" print negative.tif --whole --pack pack.toml --force -o one.tif --recipe "
        "recipe.toml");
    ASSERT_EQ(one.code, 0) << one.err;
    const auto again = prints.program.run(
        "print negative.tif --whole --pack pack.toml --force -o two.tif --recipe recipe.toml");
    ASSERT_EQ(again.code, 0) << again.err;
    EXPECT_TRUE(content_of(prints.program / "one.tif") == content_of(prints.program / "two.tif"));
}

TEST(LocalWorkPromise, APrintSaysItsLocalWorkAndCanBeMadeAgainFromItself) {
    const LocalPrints prints;
    prints.recipe(local("burn", "\"left.png\"", "stops = 1\nname = \"sky\"") +
                  local("bleach", "{ oval = [30, 40, 20, 20], soft = 8 }", "time_s = 15"));
    const auto first = prints.samples("--recipe recipe.toml", "negative.tif", "first.tif");
    EXPECT_EQ(farthest(first, prints.samples("--recipe first.tif", "negative.tif", "second.tif")), 0);
}

TEST(LocalWorkPromise, JsonSaysHowMuchOfThePictureEachWorkTouches) {
    const LocalPrints prints;
    prints.recipe(local("burn", "\"left.png\"", "stops = 1\nname = \"sky\"") +
                  local("dodge", "{ edge = \"top\", reach = 25, soft = 10 }", "time_s = 3"));
    const auto answer = prints.program.run(
        "print negative.tif --whole --pack pack.toml -o print.tif --recipe recipe.toml --json");
    ASSERT_EQ(answer.code, 0) << answer.err;
    const auto told = nlohmann::json::parse(answer.out)["prints"][0]["local"];
    ASSERT_EQ(told.size(), 2u);
    EXPECT_EQ(told[0]["name"], "sky");
    EXPECT_EQ(told[0]["work"], "burn");
    EXPECT_NEAR(told[0]["time_s"].get<double>(), 12, 1e-6);  // one stop of 12 s is 12 s more
    EXPECT_NEAR(told[0]["touches"].get<double>(), 0.5, 1e-6);
    EXPECT_NEAR(told[0]["touches_fully"].get<double>(), 0.5, 1e-6);
    // A rim of 10 % of the longer side, half of it beyond a quarter of the height.
    EXPECT_NEAR(told[1]["touches"].get<double>(), 0.25 + 0.05 * 1.5, 0.01);
    EXPECT_NEAR(told[1]["mean_level"].get<double>(), 0.25, 0.01);
}

TEST(LocalWorkPromise, ASmallPrintIsTheFullOneSeenFromAfar) {
    const LocalPrints prints;
    prints.recipe(local("burn", "{ edge = \"top\", reach = 40, soft = 30 }", "stops = 1.5"));
    ASSERT_FALSE(prints.samples("--recipe recipe.toml --profile grey", "negative.tif", "full.tif").empty());
    const auto small =
        prints.samples("--recipe recipe.toml --profile grey --size 24", "negative.tif", "small.tif");
    // Grey of gamma 2.2 (the profile's own name): light is its 2.2th power.
    const auto full = vips::VImage::new_from_file((prints.program / "full.tif").c_str());
    const auto light = (full / 65535.0).pow(2.2).shrink(10, 10).copy_memory();
    const auto* expected = static_cast<const float*>(light.cast(VIPS_FORMAT_FLOAT).copy_memory().data());
    const vips::VImage kept = light.cast(VIPS_FORMAT_FLOAT).copy_memory();
    expected = static_cast<const float*>(kept.data());
    ASSERT_EQ(small.size(), 24u * 16u);
    for (std::size_t i = 0; i < small.size(); ++i)
        EXPECT_NEAR(small[i] / 65535.0, std::pow(double(expected[i]), 1 / 2.2), 0.001) << i;
}

TEST(LocalWorkPromise, ARimSharperThanAHandMakesIsWarnedOf) {
    const LocalPrints prints;
    const auto said = [&](const std::string& where, const std::string& work = "burn") {
        prints.recipe(local(work, where, work == "bleach" ? "time_s = 20" : "stops = 0.5"));
        return prints.program
            .run(
                "print negative.tif --whole --pack pack.toml --force -o print.tif --recipe recipe.toml "
                "--quiet")
            .err;
    };
    EXPECT_THAT(said("\"left.png\""), HasSubstr("hand"));
    EXPECT_THAT(said("{ edge = \"top\", reach = 40, soft = 1 }"), HasSubstr("hand"));
    EXPECT_THAT(said("{ edge = \"top\", reach = 40, soft = 8 }"), Not(HasSubstr("hand")));
    // A brush may.
    EXPECT_THAT(said("\"left.png\"", "bleach"), Not(HasSubstr("hand")));
}

TEST(LocalWorkPromise, DodgesThatHoldBackTheWholeExposureAreWarnedOf) {
    const LocalPrints prints;
    const std::string soft = "{ oval = [50, 50, 30, 30], soft = 10 }";
    const auto said = [&](const std::string& works) {
        prints.recipe(works);
        return prints.program
            .run(
                "print negative.tif --whole --pack pack.toml --force -o print.tif --recipe recipe.toml "
                "--quiet")
            .err;
    };
    // Of 12 s: half and half again, and 14 s.
    const std::string stop = local("dodge", soft, "stops = 1");
    EXPECT_THAT(said(stop), Not(HasSubstr("hold back")));
    EXPECT_THAT(said(stop + stop), HasSubstr("dodges hold back 100 % of the exposure"));
    EXPECT_THAT(said(local("dodge", soft, "time_s = 14")), HasSubstr("hold back"));
    // Side by side they are each no more than half.
    EXPECT_THAT(said(local("dodge", "{ edge = \"left\", reach = 30, soft = 10 }", "stops = 1") +
                     local("dodge", "{ edge = \"right\", reach = 30, soft = 10 }", "stops = 1")),
                Not(HasSubstr("hold back")));
}

TEST(LocalWorkPromise, TheExampleIsPrinted) {
    const LocalPrints prints;
    prints.program.write("burnt-sky.toml",
                         content_of(std::filesystem::path(FOGPROOF_SOURCE_DIR) / "examples/burnt-sky.toml"));
    const auto burnt = prints.samples("--recipe burnt-sky.toml"),
               plain = prints.samples("--grade 2 --bleach 100%");
    EXPECT_GT(farthest(burnt, plain), 1000);
}

TEST(LocalWorkPromise, MasksAreLookedForBesideTheirRecipeAndNeverWrittenOver) {
    const LocalPrints prints;
    std::filesystem::create_directory(prints.program / "work");
    prints.mask("work/sky.tif", [](double, double y) { return 1 - y; });
    prints.program.write("work/sky.toml",
                         "fogproof_recipe = 1\n" + local("burn", "\"sky.tif\"", "stops = 1"));
    EXPECT_FALSE(prints.samples("--recipe work/sky.toml").empty());
    const auto over = prints.program.run(
        "print negative.tif --whole --pack pack.toml --force -o work/sky.tif --recipe work/sky.toml");
    EXPECT_EQ(over.code, 64);
    EXPECT_THAT(over.err, HasSubstr("sky.tif"));
}

// A test strip is exposed band by band: nobody burns it.
TEST(LocalWorkPromise, ATestStripIsDrawnAsItIsMadeWithoutBurns) {
    const PatchPrints prints;
    prints.program.write(
        "burn.toml",
        "fogproof_recipe = 1\n[[exposure]]\ngrade = 2\nstops = 0\n[[local]]\nwork = \"burn\"\nwhere = "
        "{ edge = \"top\", reach = 100, soft = 0 }\nstops = 2\n");
    const auto strip = [&](const std::string& name, const std::string& more) {
        const auto answer = prints.program.run(
            "start neg.tif --pack pack.toml --whole --clear 1 --grade 2 --no-bleach "
            "--json --strip " +
            name + more);
        EXPECT_EQ(answer.code, 0) << answer.err;
        const double seconds = nlohmann::json::parse(answer.out)["best"]["exposure_s"];
        const auto picture = vips::VImage::new_from_file((prints.program / name).c_str());
        return std::pair{seconds, picture.min()};
    };
    const auto [plain_s, plain] = strip("plain.png", "");
    const auto [burnt_s, burnt] = strip("burnt.png", " --local-work burn.toml");
    ASSERT_NEAR(burnt_s, plain_s / 4, 0.1 * plain_s) << "the burn gives the rest";
    // Clear film prints the darkest pixels of the picture.
    EXPECT_GT(burnt, plain + 30) << "a quarter of the light makes a lighter strip";
}

}  // namespace
}  // namespace fogproof::tests
