// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Fog that is heavier at the edges of a sheet, asked of the program: where it is even over the sheet, the
// print is that of a pack with so much fog, whoever reads the scan.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <random>
#include <string>

#include "fogproof/pack/file.hpp"
#include "support/examples.hpp"
#include "support/local_prints.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;
using testing::Not;

constexpr int kOneCode = 1;  // of 16 bits; what rounds one way here may round the other way there
// L*; of what fog of the edges costs, told beforehand and found on a sheet that is exposed for its own fog.
constexpr double kOtherExposure = 0.05;
constexpr char kPlain[] = "--grade 2 --exposure 12s ";
constexpr char kBleached[] = "--grade 2 --exposure 12s --bleach 40s ";

std::string pack_text(double blank, const std::string& edges = "") {
    return "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = " + std::to_string(blank) +
           "\n[anchor]\nknown = true\n" + edges;
}

// Prints on sheets of 240 x 300 mm.
struct EdgePrints : LocalPrints {
    EdgePrints() {
        mask(
            "even.png", [](double, double) { return 1; }, 48, 60);
        mask(
            "one_side.png", [](double x, double) { return std::max(0.0, 1 - 3 * x); }, 240, 300);
        mask(
            "other_side.png", [](double x, double) { return std::max(0.0, 1 - 3 * (1 - x)); }, 240, 300);
    }
    void pack(const std::string& edges) const { program.write("pack.toml", pack_text(0.35, edges)); }
    [[nodiscard]] nlohmann::json told(const std::string& line) const {
        const auto answer = program.run(line);
        EXPECT_EQ(answer.code, 0) << line << "\n" << answer.err;
        return answer.code == 0 ? nlohmann::json::parse(answer.out) : nlohmann::json();
    }
};

TEST(EdgeFog, OfNoReachIsNone) {
    const EdgePrints prints;
    for (const char* picture : {"print.tif", "print.png"}) {
        const std::string ways = kBleached + std::string("--border sheet");
        prints.pack("");
        const auto plain = prints.samples(ways, "negative.tif", picture);
        for (const char* none : {"[edge_fog]\ndensity = 0.3\nreach_mm = 0\n", "[edge_fog]\ndensity = 0\n"}) {
            prints.pack(none);
            EXPECT_TRUE(prints.samples(ways, "negative.tif", picture) == plain) << picture << none;
        }
        prints.pack("[edge_fog]\ndensity = 0.3\nreach_mm = 20\n");
        EXPECT_FALSE(prints.samples(ways, "negative.tif", picture) == plain);
    }
}

TEST(EdgeFog, ThatIsEvenOverTheSheetIsThePackOfThatFogOnAnyPackByBothRoutes) {
    EdgePrints prints;
    std::mt19937 random(11);
    for (int each = 0; each < 24; ++each) {
        Pack pack = examples::random_pack(random);
        pack.darkroom.enlarger.reciprocity = each % 2 == 0 ? 1 : 0.9;
        const double more = 0.05 + 0.012 * each;
        prints.has_grades = pack.contrast == Contrast::variable;
        prints.recipe(
            "[develop]\ntime_s = 100\nrestrainer_ml_l = 8\n[bleach]\ntime_s = 30\n[[local]]\nwork = "
            "\"burn\"\nwhere = { edge = \"top\", reach = 40, soft = 30 }\nstops = 1\n[[local]]\nwork = "
            "\"bleach\"\nwhere = \"left.png\"\ntime_s = 15\n");
        const std::string plain = prints.has_grades ? kBleached : "--exposure 12s --bleach 40s ";
        // Each pack goes one of four ways.
        const std::string way = each / 2 % 2 == 0 ? plain + "--border sheet" : "--recipe recipe.toml";
        const char* scan = each / 4 % 2 == 0 ? "negative.tif" : "negative.png";
        Pack edged = pack, fogged = pack;
        edged.edge_fog = {more, 15, "even.png"};
        fogged.blank_density += more;
        prints.program.write("pack.toml", written(edged));
        const auto by_edge = prints.samples(way, scan);
        prints.program.write("pack.toml", written(fogged));
        const auto as_a_whole = prints.samples(way, scan);
        ASSERT_EQ(by_edge.size(), as_a_whole.size());
        int worst = 0;
        for (std::size_t i = 0; i < by_edge.size(); ++i)
            worst = std::max(worst, std::abs(by_edge[i] - as_a_whole[i]));
        EXPECT_LE(worst, kOneCode) << each << " " << scan << " " << way;
    }
}

TEST(EdgeFog, PixelsAreTheSameForAnyNumberOfProcessorsAndBothRoutes) {
    const EdgePrints prints;
    prints.pack("[edge_fog]\ndensity = 0.3\nreach_mm = 30\n");
    const std::string ways = kBleached + std::string("--border sheet");
    const auto both = prints.samples(ways);
    EXPECT_TRUE(both == prints.samples(ways, "negative.png"));
    EXPECT_TRUE(both == prints.samples(ways, "negative.png", "print.png"));
    const std::string line = "print negative.tif --whole --pack pack.toml --force " + ways;
    const auto one = prints.program.shell("taskset -c 0 \"$FOGPROOF\" " + line + " -o one.tif");
    ASSERT_EQ(one.code, 0) << one.err;
    ASSERT_EQ(prints.program.run(line + " -o two.tif").code, 0);
    EXPECT_TRUE(content_of(prints.program / "one.tif") == content_of(prints.program / "two.tif"));
}

TEST(EdgeFog, OfAMapTurnsWithTheSheet) {
    const EdgePrints prints;
    // The picture lies across, so the sheet lies on its side: its left is at the top when turned by 90.
    prints.pack("[edge_fog]\ndensity = 0.3\nmap = \"one_side.png\"\n");
    const auto left = prints.samples(kPlain + std::string("--turn-sheet 0"));
    const auto right = prints.samples(kPlain + std::string("--turn-sheet 180"));
    prints.pack("[edge_fog]\ndensity = 0.3\nmap = \"other_side.png\"\n");
    EXPECT_LE(farthest(left, prints.samples(kPlain + std::string("--turn-sheet 180"))), kOneCode);
    EXPECT_LE(farthest(right, prints.samples(kPlain + std::string("--turn-sheet 0"))), kOneCode);
    prints.pack("");
    const auto plain = prints.samples(kPlain);
    EXPECT_EQ(farthest(left, plain, LocalPrints::kWide / 2), 0) << "fog is at the left third alone";
    EXPECT_EQ(farthest(right, plain, 0, LocalPrints::kWide / 2), 0);
    EXPECT_GT(farthest(left, plain, 0, LocalPrints::kWide / 3), 1000);
}

TEST(EdgeFog, AMapTurnsInGridsAndWorksheetsToo) {
    const EdgePrints prints;
    prints.pack("[edge_fog]\ndensity = 0.3\nmap = \"one_side.png\"\n");
    const auto made = [&](const std::string& line, const std::string& file) {
        const auto answer = prints.program.run(line);
        EXPECT_EQ(answer.code, 0) << line << "\n" << answer.err;
        return content_of(prints.program / file);
    };
    const std::string grid =
        "grid negative.tif --whole --pack pack.toml --across grade=2 --down bleach=0 --force ";
    ASSERT_EQ(prints.program.run(grid + "-o one.png --turn-sheet 0").code, 0);
    ASSERT_EQ(prints.program.run(grid + "-o two.png --turn-sheet 180").code, 0);
    EXPECT_FALSE(prints.samples_of("one.png") == prints.samples_of("two.png"));
    const std::string plan = "plan negative.tif --whole --pack pack.toml --force -o sheets ";
    EXPECT_NE(made(plan + "--turn-sheet 0", "sheets/negative-proofs.html"),
              made(plan + "--turn-sheet 180", "sheets/negative-proofs.html"));
}

TEST(EdgeFog, IsSeenOnTheBordersOfAGridAndLessOfItFarther) {
    const EdgePrints prints;
    prints.pack("[edge_fog]\ndensity = 0.4\nreach_mm = 20\n");
    const auto answer = prints.program.run(
        "grid negative.tif --whole --pack pack.toml --across grade=2 --down bleach=0 --sheet 240x300 "
        "--margin "
        "25 --profile grey -o grid.png");
    ASSERT_EQ(answer.code, 0) << answer.err;
    const auto codes = prints.samples_of("grid.png");
    const int width = vips::VImage::new_from_file((prints.program / "grid.png").c_str()).width();
    const int height = int(codes.size()) / width;
    const auto at = [&](int x, int y) { return codes[std::size_t(y * width + x)]; };
    // The rows that are mostly no surround are those of the print.
    std::vector<int> rows;
    for (int row = 0; row < height; ++row) {
        int shown = 0;
        for (int column = 0; column < width; ++column) shown += at(column, row) != at(0, 0);
        if (2 * shown > width) rows.push_back(row);
    }
    ASSERT_GT(rows.size(), 40u);
    // From the right on the middle one: the surround, the mark around the print and the slip, each of one
    // code, and then the sheet.
    const int y = rows[rows.size() / 2];
    int x = width - 1;
    for (int even = 0; even < 3; ++even) {
        const int code = at(x, y);
        while (x > 20 && at(x, y) == code) --x;
    }
    ASSERT_GT(x, 20);
    EXPECT_GT(at(x - 12, y), at(x - 1, y) + 3) << "lighter farther from the edge";
}

TEST(EdgeFog, IsToldByPrintStartAndWorksheetAndKeptInThePicture) {
    const EdgePrints prints;
    prints.pack("[edge_fog]\ndensity = 0.3\nreach_mm = 30\n");
    const std::string asked = " negative.tif --whole --pack pack.toml --sheet 300x400 --margin 20 ";
    const auto print = prints.told("print" + asked + kPlain + "--json -o print.tif")["prints"][0]["edge_fog"];
    EXPECT_DOUBLE_EQ(print["density"], 0.3);
    EXPECT_DOUBLE_EQ(print["reach_mm"], 30);
    EXPECT_EQ(print["sheet_mm"], nlohmann::json({400.0, 300.0}));
    // 3 to 2 between margins of 20 mm: 360 x 240, 20 mm from the sides, 30 from top and bottom.
    EXPECT_EQ(print["picture_mm"], nlohmann::json({20.0, 30.0, 360.0, 240.0}));
    // The nearest pixel's middle lies 0.75 mm within the corner; erfc as the C library has it.
    EXPECT_NEAR(print["most_level"].get<double>(),
                1 - std::erf(1.16308715 * 20.75 / 30) * std::erf(1.16308715 * 30.75 / 30), 1e-3);
    const std::string kept = content_of(prints.program / "print.tif");
    EXPECT_THAT(kept, HasSubstr("[edge_fog]"));
    EXPECT_THAT(kept, HasSubstr("picture of 360 x 240 mm"));
    EXPECT_THAT(prints.program.run("start" + asked).out, HasSubstr("edge fog     costs the picture"));
    EXPECT_EQ(prints.told("plan" + asked + "--json")["prints"][0]["edge_fog"],
              prints.told("start" + asked + "--json")["edge_fog"]);
    ASSERT_EQ(prints.program.run("grid" + asked + "--across grade=2 --down bleach=0 -o grid.png").code, 0);
    EXPECT_EQ(nlohmann::json::parse(content_of(prints.program / "grid.png.json"))["edge_fog"], print);
    const auto plan = prints.program.run("plan" + asked + "-o sheets");
    ASSERT_EQ(plan.code, 0) << plan.err;
    EXPECT_THAT(content_of(prints.program / "sheets/negative.txt"), HasSubstr("Edge fog"));
    EXPECT_THAT(prints.program.run("pack show pack.toml --all").out, HasSubstr("edge_fog.reach_mm"));
    prints.pack("");
    EXPECT_THAT(prints.program.run("start" + asked).out, Not(HasSubstr("edge fog")));
    EXPECT_THAT(prints.program.run("pack show pack.toml --all").out, Not(HasSubstr("edge_fog")));
}

TEST(EdgeFog, StartAdvisesAMarginThatKeepsTheLightsClean) {
    const EdgePrints prints;
    prints.pack("[edge_fog]\ndensity = 0.3\nreach_mm = 30\n");
    const std::string start = "start negative.tif --whole --pack pack.toml --json --grade 2 --no-bleach ";
    const auto near = prints.told(start + "--margin 5")["edge_fog"];
    ASSERT_GT(near["lights_lost"], 1);
    const double margin = near["margin"]["mm"];
    const auto far = prints.told(start + "--margin " + std::to_string(margin))["edge_fog"];
    EXPECT_LE(far["lights_lost"], 1);
    EXPECT_NEAR(far["lost"].get<double>(), near["margin"]["lost"].get<double>(), kOtherExposure);
    EXPECT_LT(far["lost"], near["lost"]);
    // Density and reach are known as well as somebody who states them knows them.
    EXPECT_LT(near["lost_low"].get<double>(), 0.95 * near["lost"].get<double>());
    EXPECT_GT(near["lost_high"].get<double>(), 1.05 * near["lost"].get<double>());
    EXPECT_GT(prints.told(start + "--margin " + std::to_string(margin - 2))["edge_fog"]["lights_lost"], 1);
}

TEST(EdgeFog, StartTurnsTheSheetSoThatFogFallsWhereThePictureIsDark) {
    const EdgePrints prints;
    // The negative is thin at its left, where its print is dark.
    prints.pack("[edge_fog]\ndensity = 0.4\nmap = \"one_side.png\"\n");
    const std::string start =
        "start negative.tif --whole --pack pack.toml --json --grade 2 --no-bleach --margin 5 --turn-sheet ";
    const auto on_lights = prints.told(start + "180")["edge_fog"],
               on_darks = prints.told(start + "0")["edge_fog"];
    EXPECT_EQ(on_lights["turn_sheet"]["degrees"], 0);
    EXPECT_NEAR(on_lights["turn_sheet"]["lost"].get<double>(), on_darks["lost"].get<double>(),
                kOtherExposure);
    EXPECT_LT(on_darks["lost"].get<double>(), 0.8 * on_lights["lost"].get<double>());
    EXPECT_TRUE(on_darks["turn_sheet"].is_null());
}

TEST(EdgeFog, StartTurnsASquareSheetByAQuarterToo) {
    const EdgePrints prints;
    // The fog falls on the negative's dense right side, where its print is light; above it would cost less.
    prints.mask(
        "square.png", [](double x, double) { return std::max(0.0, 1 - 3 * x); }, 240, 240);
    prints.pack("[edge_fog]\ndensity = 0.4\nmap = \"square.png\"\n");
    const std::string start =
        "start negative.tif --whole --pack pack.toml --json --grade 2 --no-bleach --margin 5 --turn-sheet ";
    std::vector<double> lost;
    for (const char* turn : {"0", "90", "180", "270"})
        lost.push_back(prints.told(start + turn + " --sheet 240x240")["edge_fog"]["lost"]);
    const auto worst = std::ranges::max_element(lost) - lost.begin(),
               best = std::ranges::min_element(lost) - lost.begin();
    const auto told = prints.told(start + std::to_string(90 * worst) + " --sheet 240x240")["edge_fog"];
    EXPECT_EQ(told["turn_sheet"]["degrees"], 90 * best);
    EXPECT_NEAR(told["turn_sheet"]["lost"].get<double>(), lost[std::size_t(best)], kOtherExposure);
}

// A start that counts the fog makes up for it where it can: another exposure would be worse.
TEST(EdgeFog, IsCountedByTheStartThatEveryCommandTells) {
    const EdgePrints prints;
    const std::string asked =
        " negative.tif --whole --pack pack.toml --margin 5 --grade 2 --develop 90 --restrainer 0 ";
    const auto exposure = [&](const std::string& line) {
        return prints.told(line)["best"]["exposure_s"].get<double>();
    };
    prints.pack("");
    const double plain = exposure("start" + asked + "--no-bleach --json");
    prints.pack("[edge_fog]\ndensity = 0.4\nreach_mm = 80\n");
    const double counted = exposure("start" + asked + "--no-bleach --json");
    EXPECT_LT(counted, 0.99 * plain);
    const auto print = prints.told("print" + asked + "--exposure +0 --json -o print.tif");
    EXPECT_NEAR(print["prints"][0]["exposures"][0]["exposure_s"].get<double>(), counted, 0.01 * counted);
}

TEST(EdgeFog, OptionsOfASheetThatNobodyLooksAtAreTold) {
    const EdgePrints prints;
    prints.pack("");
    const std::string print =
        "print negative.tif --whole --pack pack.toml --force -o print.tif " + std::string(kPlain);
    EXPECT_THAT(prints.program.run(print + "--sheet 180x240").err, HasSubstr("--sheet changes nothing"));
    EXPECT_THAT(prints.program.run(print + "--margin 12 --border sheet").err,
                Not(HasSubstr("changes nothing")));
    EXPECT_THAT(prints.program.run(print).err, Not(HasSubstr("changes nothing")));
    EXPECT_THAT(
        prints.program.run("start negative.tif --whole --pack pack.toml --grade 2 --turn-sheet 180").err,
        HasSubstr("--turn-sheet changes nothing"));
    // The baths of a plan go by the size of the sheet.
    EXPECT_THAT(
        prints.program
            .run("plan negative.tif --whole --pack pack.toml --sheet 180x240 --margin 12 --turn-sheet 90")
            .err,
        HasSubstr("so --margin, --turn-sheet change nothing here"));
}

TEST(EdgeFog, AMapIsLookedForBesideItsPackAndNeverWrittenOver) {
    const EdgePrints prints;
    std::filesystem::create_directory(prints.program / "packs");
    std::filesystem::copy_file(prints.program / "one_side.png", prints.program / "packs/side.png");
    prints.program.write("packs/attic.toml",
                         pack_text(0.35, "[edge_fog]\ndensity = 0.3\nmap = \"side.png\"\n"));
    const std::string print = "print negative.tif --whole --pack packs/attic.toml --force ";
    EXPECT_EQ(prints.program.run(print + kPlain + "-o print.tif").code, 0);
    const auto over = prints.program.run(print + kPlain + "-o packs/side.png");
    EXPECT_EQ(over.code, 64);
    EXPECT_THAT(over.err, HasSubstr("side.png"));
}

}  // namespace
}  // namespace fogproof::tests
