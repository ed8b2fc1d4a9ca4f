// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The proof grid on disk: where its prints lie and what colours another program reads there.
#include "picture/grid.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <optional>

#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "support/examples.hpp"
#include "support/program.hpp"
#include "support/read_back.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using vips::VImage;

// CIEDE2000 that pictures promise for colours their profile can hold.
constexpr double kGridSixteenBit = 0.2, kGridEightBit = 0.6;

class Grids : public testing::Test {
  protected:
    static constexpr int kWide = 150, kHigh = 100;

    Grids() {
        vips_ready();
        save("scan.tif", VImage::option());
    }
    // Bands of eight tones across, from clear to dense, each row a little different.
    static double code(int x, int y) {
        return std::floor(65535 * std::pow(10.0, -0.18 * (x * 8 / kWide) - 0.001 * y));
    }
    static NegativeDensity density(int x, int y) { return {-std::log10(code(x, y) / 65535)}; }
    void save(const std::string& name, vips::VOption* options) const {
        raster<std::uint16_t>(
            kWide, kHigh, 1, [](int x, int y, int) { return code(x, y); }, VIPS_INTERPRETATION_GREY16)
            .tiffsave((folder / name).c_str(), options);
    }
    [[nodiscard]] Scan scan(const std::string& name = "scan.tif", bool mirror = false) const {
        Notes notes;
        return Scan::open(folder / name, {.encoding = Encoding::linear, .whole = true, .mirror = mirror},
                          notes);
    }
    [[nodiscard]] PrintModel print(double grade, double bleach_dose,
                                   std::optional<BathLayer> bath = {}) const {
        PrintSteps steps;
        steps.exposures = {{filter_for(pack, paper, grade), Seconds{18}}};
        steps.develop = develop_step(pack, {});
        steps.finishing.bleach_dose = bleach_dose;
        return {paper, pack.darkroom.enlarger, steps, 0.15, bath};
    }
    // Two by two prints without a word, so that whatever is not the surround is a print.
    [[nodiscard]] GridSheet wordless() const {
        GridSheet sheet;
        sheet.columns = sheet.rows = {"", ""};
        for (const double dose : {0.0, 0.3})
            for (const double grade : {1.0, 4.0}) sheet.cells.push_back({{{print(grade, dose)}}, {}, {}});
        return sheet;
    }
    // At one to one: a pixel of the scan is a pixel of the picture.
    ReadBack drawn(const GridSheet& sheet, const std::string& name, int bits = 16,
                   const char* profile = "srgb", Rendering rendering = Rendering::absolute,
                   bool mirror = false) const {
        PictureOptions options;
        options.bits = bits;
        render_grid(scan("scan.tif", mirror), sheet, {rendering, kWide}, OutputProfile::named(profile),
                    options, folder / name);
        return ReadBack(folder / name);
    }

    TestFolder folder;
    const Pack pack = examples::fogged_pack(0.35);
    const PaperModel paper = paper_model(pack);
};

struct Span {
    int first, count;
};

// Stretches along a row or column whose colour is not that of the sheet's own corner.
std::vector<Span> islands(const ReadBack& picture, bool across, int at) {
    const int length = across ? picture.width() : picture.height();
    const auto codes = [&](int i) { return across ? picture.codes_at(i, at) : picture.codes_at(at, i); };
    const auto surround = picture.codes_at(0, 0);
    std::vector<Span> found;
    for (int i = 0; i < length; ++i) {
        if (codes(i) == surround) continue;
        if (found.empty() || found.back().first + found.back().count != i) found.push_back({i, 0});
        ++found.back().count;
    }
    return found;
}

// First row or column that holds anything but the surround.
int first_of(const ReadBack& picture, bool across) {
    for (int i = 0;; ++i)
        if (!islands(picture, across, i).empty()) return i;
}

// Where the prints of a wordless sheet lie: columns and rows with their borders and slips, and the width of
// the border, all read off the picture.
struct Found {
    explicit Found(const ReadBack& picture)
        : columns(islands(picture, true, first_of(picture, true))),
          rows(islands(picture, false, first_of(picture, false))) {
        border = (rows.front().count - 100) / 2;
        slip = columns.front().count - 150 - 2 * border;
    }
    std::vector<Span> columns, rows;
    int border = 0, slip = 0;
};

TEST_F(Grids, EveryPixelOfEveryPrintIsTheModelsOnItsBorderBesideThePapersWhite) {
    const GridSheet sheet = wordless();
    for (const char* profile : {"srgb", "grey"})
        for (const int bits : {16, 8}) {
            const ReadBack picture =
                drawn(sheet, std::string(profile) + std::to_string(bits) + ".tif", bits, profile);
            const double promise = bits == 16 ? kGridSixteenBit : kGridEightBit;
            const auto seen = [&](Lab colour) {
                if (picture.bands() == 1) colour.a = colour.b = 0;  // all that a grey profile can show
                return colour;
            };
            const Found found(picture);
            ASSERT_EQ(found.columns.size(), 2u);
            ASSERT_EQ(found.rows.size(), 2u);
            EXPECT_EQ(found.columns[0].count, found.columns[1].count);
            ASSERT_GE(found.border, 4);
            ASSERT_GE(found.slip, 8);
            double worst = 0;
            for (std::size_t i = 0; i < 4; ++i) {
                const int left = found.columns[i % 2].first, top = found.rows[i / 2].first;
                const int wide = kWide + 2 * found.border, high = kHigh + 2 * found.border;
                const PrintModel& model = sheet.cells[i].panels[0].print;
                const Lab border = seen(model.border().lab), white = seen(model.fixed_only().lab);
                for (int y = 0; y < high; ++y)
                    for (int x = 0; x < wide + found.slip; ++x) {
                        const int px = x - found.border, py = y - found.border;
                        const bool inside = px >= 0 && px < kWide && py >= 0 && py < kHigh;
                        const Lab wanted = x >= wide ? white
                                           : inside  ? seen(model.patch(density(px, py)).lab)
                                                     : border;
                        ASSERT_TRUE(picture.holds(wanted));
                        worst = std::max(worst, difference(picture.at(left + x, top + y), wanted));
                    }
            }
            std::cout << profile << ", " << bits << " bits: worst CIEDE2000 " << worst << '\n';
            EXPECT_LE(worst, promise) << profile << ", " << bits;
        }
}

TEST_F(Grids, RelativeRenderingMakesTheSlipsWhite) {
    const ReadBack picture = drawn(wordless(), "relative.tif", 16, "srgb", Rendering::relative);
    const Found found(picture);
    for (const Span column : found.columns)
        for (const Span row : found.rows)
            for (const double code : picture.codes_at(column.first + column.count - 1, row.first + 3))
                EXPECT_EQ(code, 65535);
    // The surround is no paper.
    EXPECT_EQ(picture.codes_at(0, 0), drawn(wordless(), "absolute.tif").codes_at(0, 0));
}

TEST_F(Grids, HalvesShowThePrintBeforeAndAfterCutAtALine) {
    GridSheet sheet = wordless();
    const PrintModel before = print(2, 0), after = print(2, 0.4);
    for (GridCell& cell : sheet.cells) cell.panels = {{before}, {after}};
    const ReadBack picture = drawn(sheet, "halves.tif");
    const Found found(picture);
    const int left = found.columns[0].first, top = found.rows[0].first;
    const int middle = left + found.border + kWide / 2, y = kHigh / 2;
    const auto at = [&](int px) { return picture.at(left + found.border + px, top + found.border + y); };
    for (const int px : {0, 20, kWide / 2 - 3})
        EXPECT_LT(difference(at(px), before.patch(density(px, y)).lab), kGridSixteenBit) << px;
    for (const int px : {kWide / 2 + 3, 120, kWide - 1})
        EXPECT_LT(difference(at(px), after.patch(density(px, y)).lab), kGridSixteenBit) << px;
    EXPECT_LT(difference(picture.at(left, top), before.border().lab), kGridSixteenBit);
    EXPECT_LT(difference(picture.at(middle + 10, top), after.border().lab), kGridSixteenBit);
    for (const int x : {middle - 1, middle})
        EXPECT_LT(difference(picture.at(x, top + 40), Lab{100, 0, 0}), kGridSixteenBit)
            << "the line is white";
}

TEST_F(Grids, TheClosestPrintHasAWhiteRim) {
    GridSheet sheet = wordless();
    const Found plain(drawn(sheet, "plain.tif"));
    sheet.cells[2].mark = "Closest";
    const ReadBack picture = drawn(sheet, "marked.tif");
    const int x = plain.columns[0].first, y = plain.rows[1].first;
    for (const auto& [px, py] :
         {std::pair{x - 1, y + 5}, {x + 5, y - 1}, {x + plain.columns[0].count, y + 5}})
        EXPECT_GT(picture.at(px, py).l, 95);
    EXPECT_EQ(picture.codes_at(plain.columns[1].first - 1, y + 5), picture.codes_at(0, 0)) << "and no other";
}

TEST_F(Grids, UnderTheBathBordersAndPicturesAreYellowAndMirroredScansMirrored) {
    GridSheet sheet = wordless();
    for (GridCell& cell : sheet.cells) cell.panels = {{print(2, 0.1, BathLayer{1.5, 5})}};
    const ReadBack picture = drawn(sheet, "bath.tif", 16, "display-p3"),
                   mirrored = drawn(sheet, "mirrored.tif", 16, "display-p3", Rendering::absolute, true);
    const Found found(picture);
    const int left = found.columns[0].first, top = found.rows[0].first;
    EXPECT_GT(picture.at(left, top).b, print(2, 0.1).border().lab.b + 20);
    EXPECT_EQ(picture.codes_at(left + found.border, top + found.border),
              mirrored.codes_at(left + found.border + kWide - 1, top + found.border));
    EXPECT_NE(picture.codes_at(left + found.border, top + found.border),
              mirrored.codes_at(left + found.border, top + found.border));
}

TEST_F(Grids, WordsAreWrittenWithoutTouchingThePrints) {
    GridSheet sheet = wordless();
    sheet.title = "Snow & <fence>";
    sheet.subtitle = {"on attic box"};
    sheet.columns = {"grade 1\nISO R 128", "grade 4"};
    sheet.rows = {"no bleach", "100 %\nof clearing"};
    sheet.legend = {"A simulation.", "Colours absolute."};
    for (GridCell& cell : sheet.cells) cell.caption = {"12 s, no bleach", "density 0.43 to 1.9"};
    const ReadBack wordy = drawn(sheet, "words.tif"), plain = drawn(wordless(), "plain.tif");
    const Found found(plain);
    // The first print, found again by its own pixels, is the same as on the wordless sheet.
    const int x = found.columns[0].first, y = found.rows[0].first, wide = found.columns[0].count,
              high = found.rows[0].count;
    const VImage print = plain.image().crop(x, y, wide, high);
    int places = 0;
    for (int top = 0; top + high <= wordy.height(); ++top)
        for (int left = 0; left + wide <= wordy.width(); ++left) {
            bool alike = true;
            for (const auto& [px, py] :
                 {std::pair{0, 0}, {wide - 1, high - 1}, {wide / 2, high / 2}, {wide / 3, 9}})
                alike = alike && wordy.codes_at(left + px, top + py) == plain.codes_at(x + px, y + py);
            if (alike && (wordy.image().crop(left, top, wide, high) - print).abs().max() == 0) ++places;
        }
    EXPECT_EQ(places, 1);
    EXPECT_GT(wordy.height(), plain.height());
}

TEST_F(Grids, AreTheSameBytesForAnyWorkersAndAnyLayoutOfTheScan) {
    const auto option = [] { return VImage::option(); };
    save("tiles.tif", option()->set("tile", true)->set("tile_width", 32)->set("tile_height", 16));
    save("deflate.tif", option()->set("compression", VIPS_FOREIGN_TIFF_COMPRESSION_DEFLATE));
    std::string first;
    GridSheet sheet = wordless();
    sheet.title = "Snow";
    for (const char* source : {"scan.tif", "tiles.tif", "deflate.tif"})
        for (const int workers : {1, 2, 5}) {
            vips_concurrency_set(workers);
            const auto target = folder / (source + std::to_string(workers) + ".png");
            render_grid(scan(source), sheet, {{}, 100}, OutputProfile::named("srgb"), {}, target);
            const std::string bytes = content_of(target);
            if (first.empty()) first = bytes;
            EXPECT_GT(bytes.size(), 5000u);
            EXPECT_TRUE(bytes == first) << source << ", " << workers << " workers";
        }
    vips_concurrency_set(1);
}

}  // namespace
}  // namespace fogproof::tests
