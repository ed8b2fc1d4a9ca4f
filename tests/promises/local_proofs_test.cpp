// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Local work where proofs are chosen and worksheets written: grid, start and plan, asked of the program.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <string>

#include "support/examples.hpp"
#include "support/known_pack.hpp"
#include "support/local_prints.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;

const std::string kSky =
    "[[local]]\nwork = \"burn\"\nname = \"sky\"\nwhere = { edge = \"top\", reach = 40, soft = 30 }\nstops = "
    "1\n";
const std::string kMore =
    "[[local]]\nwork = \"dodge\"\nwhere = { oval = [70, 60, 15, 15], soft = 10 }\ntime_s = 2\n"
    "[[local]]\nwork = \"bleach\"\nname = \"path\"\nwhere = { oval = [30, 70, 15, 15], soft = 5 }\ntime_s = "
    "20\n";

nlohmann::json json_of(const Program& program, const std::string& words) {
    const auto answer = program.run(words);
    EXPECT_EQ(answer.code, 0) << words << "\n" << answer.err;
    return nlohmann::json::parse(answer.out, nullptr, false);
}

TEST(LocalProofs, AGridTriesHowMuchOfALocalWork) {
    const LocalPrints prints;
    prints.recipe(kSky);
    const auto& program = prints.program;
    const auto told = program.run(
        "grid negative.tif --whole --pack pack.toml --recipe recipe.toml --across sky=0,0.5,1,12s --down "
        "bleach=0s -o grid.png");
    ASSERT_EQ(told.code, 0) << told.err;
    const auto numbers = nlohmann::json::parse(content_of(program / "grid.png.json"));
    EXPECT_EQ(numbers["across"]["quantity"], "sky");
    const auto& cells = numbers["cells"];
    ASSERT_EQ(cells.size(), 4u);
    // More burning empties fewer lights; 12 s more is one stop of 12 s, so the last two are one print.
    EXPECT_GT(cells[0]["blank_highlights"], cells[1]["blank_highlights"]);
    EXPECT_GE(cells[1]["blank_highlights"], cells[2]["blank_highlights"]);
    EXPECT_NEAR(cells[2]["density_darkest"].get<double>(), cells[3]["density_darkest"].get<double>(), 1e-6);
    for (const std::size_t twelve : {2, 3})
        EXPECT_NEAR(double(cells[twelve]["local"][0]["time_s"]), 12, 1e-6) << cells[twelve];
    EXPECT_EQ(double(cells[0]["local"][0]["time_s"]), 0);
    // Nothing of it is the print without it.
    prints.recipe("");
    const auto plain = program.run(
        "grid negative.tif --whole --pack pack.toml --recipe recipe.toml --across exposure=12s --down "
        "bleach=0s -o plain.png");
    ASSERT_EQ(plain.code, 0) << plain.err;
    const auto one = nlohmann::json::parse(content_of(program / "plain.png.json"))["cells"][0];
    EXPECT_NEAR(cells[0]["density_darkest"].get<double>(), one["density_darkest"].get<double>(), 0.02);
}

TEST(LocalProofs, AGridsCellsShowTheWork) {
    const LocalPrints prints;
    prints.recipe(kSky);
    const auto drawn = [&](const std::string& axis, const std::string& to) {
        const auto answer =
            prints.program.run("grid negative.tif --whole --pack pack.toml --recipe recipe.toml --across " +
                               axis + " --down bleach=0s --profile grey --cell 240 -o " + to);
        EXPECT_EQ(answer.code, 0) << answer.err;
        return vips::VImage::new_from_file((prints.program / to).c_str()).copy_memory();
    };
    const vips::VImage without = drawn("sky=0", "without.png"), with = drawn("sky=1", "with.png");
    ASSERT_EQ(without.width(), with.width());
    // Where the pictures differ is the burnt part, which is darker; the lower half of the sheet's print is
    // not.
    const auto difference = (without.cast(VIPS_FORMAT_INT) - with.cast(VIPS_FORMAT_INT)).copy_memory();
    EXPECT_GT(difference.max(), 20);
    EXPECT_GT(difference.avg(), 0);
}

TEST(LocalProofs, AnAxisThatIsNoWorkOfTheRecipeIsRefused) {
    const LocalPrints prints;
    prints.recipe(kSky + kSky.substr(0, kSky.find("name")) + kSky.substr(kSky.find("where")) +
                  kSky.substr(0, kSky.find("name")) + kSky.substr(kSky.find("where")));
    const auto refusal = [&](const std::string& axis) {
        const auto answer = prints.program.run(
            "grid negative.tif --whole --pack pack.toml --recipe recipe.toml --quiet -o g.png --across " +
            axis);
        EXPECT_EQ(answer.code, 64) << axis;
        return answer.err;
    };
    EXPECT_THAT(refusal("skye=0,1"), AllOf(HasSubstr("skye"), HasSubstr("perhaps sky")));
    EXPECT_THAT(refusal("burn=0,1"), AllOf(HasSubstr("2 local works are called burn"), HasSubstr("name")));
    EXPECT_THAT(refusal("sky=0,50%"), HasSubstr("stops or seconds"));
    EXPECT_THAT(refusal("sky=0,60"), HasSubstr("0 to 10"));
}

TEST(LocalProofs, StartTellsLocalWorkAndWritesItIntoItsRecipe) {
    const LocalPrints prints;
    prints.recipe(kSky + kMore);
    const std::string asked = "start negative.tif --whole --pack pack.toml --grade 2 --no-bleach --quiet ";
    const auto told =
        json_of(prints.program, asked + "--json --local-work recipe.toml --recipe-out found.toml");
    const auto plain = json_of(prints.program, asked + "--json");
    // More light for a part is counted: the rest gets no more, and what is expected is another figure.
    EXPECT_LE(told["best"]["exposure_s"].get<double>(), plain["best"]["exposure_s"].get<double>() + 0.01);
    EXPECT_NE(told["best"]["lightness_error"], plain["best"]["lightness_error"]);
    ASSERT_EQ(told["local"].size(), 3u);
    EXPECT_NEAR(told["local"][0]["time_s"].get<double>(), told["best"]["exposure_s"].get<double>(), 0.01)
        << "a burn of one stop is as long as the exposure";
    EXPECT_TRUE(plain["local"].empty());
    EXPECT_THAT(content_of(prints.program / "found.toml"),
                AllOf(HasSubstr("[[local]]"), HasSubstr("name = \"path\"")));
    const auto words = prints.program.run(asked + "--local-work recipe.toml");
    EXPECT_THAT(words.out, AllOf(HasSubstr("burn sky"), HasSubstr("from the top edge 40 % down")));
}

TEST(LocalProofs, StartCountsLocalWorkAsTheWholePrintTreatedSo) {
    // Under a white mask a burn of one stop is a print exposed for half the seconds and then as long again.
    const LocalPrints prints;
    prints.program.write("pack.toml", written(exactly_known(examples::fogged_pack(0.35))));
    const std::string asked =
        "start negative.tif --whole --pack pack.toml --grade 2 --quiet --json --bleach 0s";
    const auto point = [&](const std::string& work) {
        prints.recipe("[[local]]\nwhere = \"white.png\"\n" + work + "\n");
        return json_of(prints.program, asked + " --local-work recipe.toml")["best"];
    };
    const auto plain = json_of(prints.program, asked)["best"], burnt = point("work = \"burn\"\nstops = 1"),
               dodged = point("work = \"dodge\"\nstops = 1");
    // Searched for to 0.002 in log10: half a percent.
    EXPECT_NEAR(plain["exposure_s"].get<double>() / burnt["exposure_s"].get<double>(), 2, 0.01);
    EXPECT_NEAR(dodged["exposure_s"].get<double>() / plain["exposure_s"].get<double>(), 2, 0.01);
    EXPECT_NEAR(plain["lightness_error"].get<double>(), burnt["lightness_error"].get<double>(), 0.05);
    EXPECT_NEAR(plain["lightness_error_as_described"].get<double>(),
                burnt["lightness_error_as_described"].get<double>(), 0.02);
}

TEST(LocalProofs, StartTellsTheDistanceOfThePrintWithItsLocalWork) {
    const LocalPrints prints;
    prints.program.write("pack.toml", written(exactly_known(examples::fogged_pack(0.35))));
    prints.recipe(kSky + kMore);
    const auto told = json_of(prints.program,
                              "start negative.tif --whole --pack pack.toml --grade 2 --quiet --json --bleach "
                              "30s --local-work recipe.toml --recipe-out found.toml");
    const auto printed = json_of(prints.program,
                                 "print negative.tif --whole --pack pack.toml --quiet --json --recipe "
                                 "found.toml -o print.tif")["prints"][0];
    // Tones gathered into bins on both sides, into others on each.
    constexpr double kGathered = 0.05;
    EXPECT_NEAR(told["best"]["lightness_error_as_described"].get<double>(),
                printed["lightness_error"].get<double>(), kGathered);
    // On a paper that is exactly known, what is expected is that and the scatter of sheets.
    EXPECT_NEAR(told["best"]["lightness_error"].get<double>(),
                told["best"]["lightness_error_as_described"].get<double>(), 1);
}

TEST(LocalProofs, AWorksheetListsLocalWorkInTheOrderOfTheDarkroom) {
    const LocalPrints prints;
    prints.recipe(kSky + kMore);
    const auto answer = prints.program.run(
        "plan negative.tif --whole --pack pack.toml --quiet -o sheets --local-work recipe.toml");
    ASSERT_EQ(answer.code, 0) << answer.err;
    const std::string sheet = content_of(prints.program / "sheets/negative.txt");
    const auto place = [&](const std::string& words) {
        EXPECT_THAT(sheet, HasSubstr(words));
        return sheet.find(words);
    };
    // Held back during the exposure, added after it, brushed on when all is developed and washed.
    EXPECT_LT(place("Expose a sheet"), place("During this exposure dodge"));
    EXPECT_LT(place("During this exposure dodge"), place("Then burn sky"));
    EXPECT_LT(place("Then burn sky"), place("Develop "));
    EXPECT_LT(place("Develop "), place("Now bleach locally path"));
    EXPECT_THAT(sheet, HasSubstr("Ferricyanide gives off poisonous gas"));
    // Small pictures of the masks.
    const std::string page = content_of(prints.program / "sheets/negative.html");
    EXPECT_THAT(page, HasSubstr("Where to burn sky"));
    EXPECT_THAT(page, HasSubstr("Where to bleach locally path"));
}

}  // namespace
}  // namespace fogproof::tests
