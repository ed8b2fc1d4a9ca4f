// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A blank sheet on a flatbed becomes the fog of its pack's edges, on a drawn scan whose fog is known.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "fogproof/pack/file.hpp"
#include "scan/local_masks.hpp"
#include "support/local_prints.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;

// What a flatbed is good to beside a patch of known density (assumed).
constexpr double kReadTo = 0.03;

struct Bed : LocalPrints {
    static constexpr int kSheetWide = 480, kSheetHigh = 600, kLeft = 60, kTop = 40;
    double edge = 0.25;  ///< D over the blank

    /// Share of the edge's fog at a place of the sheet, parts of its sides: from the left in.
    static double level(double u, double) { return std::erfc(5 * u); }

    void draw(const std::string& name, double blank = 0.35) const {
        const Sheet sheet(read_pack(program / "pack.toml").sheet);
        const double in_middle = sheet.layer_showing({blank}).value,
                     more = sheet.layer_showing({blank + edge}).value - in_middle;
        const double turn = 0.012, c = std::cos(turn), s = std::sin(turn);
        const auto light = [&](int x, int y, int) {
            if (x >= 620 && x < 740 && y >= 100 && y < 260) return 65535 * 0.93 * std::pow(10.0, -0.08);
            const double dx = x + 0.5 - kLeft - kSheetWide / 2.0, dy = y + 0.5 - kTop - kSheetHigh / 2.0;
            const double u = (dx * c + dy * s) / kSheetWide + 0.5, v = (dy * c - dx * s) / kSheetHigh + 0.5;
            if (u < 0 || v < 0 || u >= 1 || v >= 1) return 65535 * 0.93 * std::pow(10.0, -1.35);
            const double grain = 0.003 * std::sin(12.9 * x + 78.2 * y) * std::sin(3.7 * x * y);
            return 65535 * 0.93 *
                   std::pow(10.0, -(sheet.density({in_middle + level(u, v) * more}).value + grain));
        };
        save(raster<std::uint16_t>(800, 700, 1, light, VIPS_INTERPRETATION_GREY16), name);
    }
};

TEST(BlankSheetPromise, BecomesTheMapThatPrintsShow) {
    const Bed bed;
    bed.draw("sheet.tif");
    const auto answer = bed.program.run(
        "read sheet.tif --sheet-of pack.toml --encoding linear --known 2=0.08 --json -o edged.toml");
    ASSERT_EQ(answer.code, 0) << answer.err;
    const auto told = nlohmann::json::parse(answer.out);
    EXPECT_NEAR(told["edge_density"].get<double>(), bed.edge, kReadTo);
    EXPECT_NEAR(told["middle_density"].get<double>(), 0.35, kReadTo);
    const Pack pack = read_pack(bed.program / "edged.toml");
    EXPECT_NEAR(pack.edge_fog.density, bed.edge, kReadTo);
    EXPECT_EQ(pack.known("edge_fog.density").origin, Origin::measured);
    EXPECT_EQ(pack.blank_density, 0.35);
    const LevelGrid map = picture_levels(pack.edge_fog.map, Bed::kSheetWide, Bed::kSheetHigh);
    // In shares of the grains: the map's white is what was seen nearest to the edge.
    const Sheet sheet(pack.sheet);
    const auto share = [&](double density) { return sheet.layer_showing({density}).value; };
    const double seen =
        (share(0.35 + pack.edge_fog.density) - share(0.35)) / (share(0.35 + bed.edge) - share(0.35));
    for (const double u : {0.02, 0.1, 0.2, 0.5, 0.9})
        for (const double v : {0.05, 0.5, 0.95})
            EXPECT_NEAR(seen * map.at(u, v), Bed::level(u, v), 0.06) << u << " " << v;
    // And is printed: the left of the border is darker, its right is the plain pack's.
    const std::string way =
        "--pack edged.toml --force --grade 2 --exposure 12s --border sheet --sheet 240x300 ";
    const auto print = bed.program.run("print negative.tif --whole --turn-sheet 0 " + way + "-o print.tif");
    ASSERT_EQ(print.code, 0) << print.err;
    const auto picture = vips::VImage::new_from_file((bed.program / "print.tif").c_str()).copy_memory();
    const int y = picture.height() / 2, right = picture.width() - 3;
    EXPECT_LT(picture.getpoint(2, y)[1] + 5000, picture.getpoint(right, y)[1]);
    const auto plainly = bed.program.run(
        "print negative.tif --whole --pack pack.toml --grade 2 --exposure 12s --border 2 -o plain.tif");
    ASSERT_EQ(plainly.code, 0) << plainly.err;
    const auto plain = vips::VImage::new_from_file((bed.program / "plain.tif").c_str()).copy_memory();
    EXPECT_NEAR(picture.getpoint(right, y)[1], plain.getpoint(1, 1)[1], 1);
}

TEST(BlankSheetPromise, OfAPoorScaleStillGivesWhatTheEdgesHaveMore) {
    const Bed bed;
    bed.draw("sheet.tif", 0.42);
    const auto answer =
        bed.program.run("read sheet.tif --sheet-of pack.toml --encoding linear --known 2=0.08 -o edged.toml");
    ASSERT_EQ(answer.code, 0) << answer.err;
    EXPECT_THAT(answer.err, HasSubstr("the pack's blank is 0.35"));
    EXPECT_NEAR(read_pack(bed.program / "edged.toml").edge_fog.density, bed.edge, 2 * kReadTo);
}

TEST(BlankSheetPromise, WithEvenFogIsRefusedAndNothingIsWritten) {
    Bed bed;
    bed.edge = 0;
    bed.draw("sheet.tif");
    const auto answer =
        bed.program.run("read sheet.tif --sheet-of pack.toml --encoding linear --known 2=0.08 -o edged.toml");
    EXPECT_EQ(answer.code, 65);
    EXPECT_THAT(answer.err, HasSubstr("no more fogged than its middle"));
    EXPECT_FALSE(std::filesystem::exists(bed.program / "edged.toml"));
    EXPECT_FALSE(std::filesystem::exists(bed.program / "edged-edges.png"));
}

TEST(BlankSheetPromise, OfAPrintIsRefused) {
    const Bed bed;
    bed.save(raster<std::uint16_t>(
                 800, 700, 1,
                 [](int x, int y, int) {
                     const bool is_sheet = x >= 60 && x < 540 && y >= 40 && y < 640;
                     return 65535 * std::pow(10.0, is_sheet ? -0.3 - 0.9 * (x - 60) / 480.0 : -1.5);
                 },
                 VIPS_INTERPRETATION_GREY16),
             "sheet.tif");
    const auto answer =
        bed.program.run("read sheet.tif --sheet-of pack.toml --encoding linear -o edged.toml");
    EXPECT_EQ(answer.code, 65);
    EXPECT_THAT(answer.err, HasSubstr("is no blank sheet"));
    EXPECT_FALSE(std::filesystem::exists(bed.program / "edged.toml"));
}

}  // namespace
}  // namespace fogproof::tests
