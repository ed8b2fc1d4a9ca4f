// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Full-size prints on disk: the colours that another program reads out of them, and what they carry.
#include "picture/full_print.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "support/examples.hpp"
#include "support/program.hpp"
#include "support/read_back.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;
using vips::VImage;

// CIEDE2000 that pictures promise for colours their profile can hold.
constexpr double kPrintSixteenBit = 0.2, kPrintEightBit = 0.6;

// Every 16-bit code once, in an order that has neighbours far apart as well as near.
unsigned every_code(int x, int y) {
    return unsigned(y * 256 + x) * 40503u % 65536u;  // an odd factor: all codes occur
}

PictureOptions at_bits(int bits) {
    PictureOptions options;
    options.bits = bits;
    return options;
}

class Prints : public testing::Test {
  protected:
    Prints() {
        vips_ready();
        save_scan("scan.tif", VImage::option());
    }
    void save_scan(const std::string& name, vips::VOption* options) const {
        raster<std::uint16_t>(
            256, 256, 1, [](int x, int y, int) { return every_code(x, y); }, VIPS_INTERPRETATION_GREY16)
            .copy(VImage::option()->set("xres", 100.0)->set("yres", 100.0))
            .tiffsave((folder / name).c_str(), options);
    }
    [[nodiscard]] Scan scan(bool mirror = false, const std::string& name = "scan.tif") const {
        Notes notes;
        return Scan::open(folder / name, {.encoding = Encoding::linear, .whole = true, .mirror = mirror},
                          notes);
    }
    // Straight from the meaning of a linear scan; 4 is the densest that is told apart.
    [[nodiscard]] static NegativeDensity density(int x, int y) {
        return {std::min(-std::log10(every_code(x, y) / 65535.0), kDensestNegative)};
    }
    TestFolder folder;
    const Pack pack = examples::fogged_pack(0.35);
    const PaperModel paper = paper_model(pack);

    [[nodiscard]] PrintSteps steps(double bleach_dose = 0.25) const {
        PrintSteps made;
        made.exposures = {{filter_for(pack, paper, 3), Seconds{18}}};
        made.develop = develop_step(pack, {});
        made.finishing.bleach_dose = bleach_dose;
        return made;
    }
    [[nodiscard]] PrintModel model() const { return {paper, pack.darkroom.enlarger, steps(), 0.15}; }
};

// Little CMS reads the file; what it must find is asked of the model, colour by colour and not of its table.
TEST_F(Prints, ReadBackAsTheModelForEveryCodeOfTheScan) {
    const PrintModel print = model();
    for (const char* name : {"srgb", "display-p3", "grey"})
        for (const int bits : {16, 8}) {
            const auto target = folder / (std::string(name) + std::to_string(bits) + ".tif");
            render_print(scan(), print, {}, OutputProfile::named(name), at_bits(bits), target);
            const ReadBack picture(target);
            ASSERT_EQ(picture.width(), 256);
            ASSERT_EQ(picture.height(), 256);
            ASSERT_EQ(picture.top(), bits == 16 ? 65535 : 255);
            double worst = 0;
            int held = 0;
            for (int y = 0; y < 256; ++y)
                for (int x = 0; x < 256; ++x) {
                    Lab wanted = print.patch(density(x, y)).lab;
                    if (picture.bands() == 1) wanted.a = wanted.b = 0;  // all that a grey profile can show
                    if (!picture.holds(wanted)) continue;
                    ++held;
                    worst = std::max(worst, difference(picture.at(x, y), wanted));
                }
            std::cout << name << ", " << bits << " bits: worst CIEDE2000 " << worst << " over " << held
                      << " pixels\n";
            EXPECT_GT(held, 65000) << "silver on paper is nearly neutral";
            EXPECT_LE(worst, bits == 16 ? kPrintSixteenBit : kPrintEightBit) << name;
        }
}

TEST_F(Prints, RelativeRenderingMakesTheFixedOnlySheetWhite) {
    PrintSteps unworked = steps();
    unworked.develop.time_s = 0;  // only fixed: no image, no fog
    const PrintModel blank(paper, pack.darkroom.enlarger, unworked, 0.15);
    for (const char* name : {"srgb", "display-p3", "grey"}) {
        const auto relative = folder / (std::string(name) + "-relative.tif"),
                   absolute = folder / (std::string(name) + "-absolute.tif");
        const auto profile = OutputProfile::named(name);
        render_print(scan(), blank, {Rendering::relative, 0.05}, profile, {}, relative);
        render_print(scan(), blank, {Rendering::absolute, 0.05}, profile, {}, absolute);
        const ReadBack white(relative), paper_white(absolute);
        for (const double code : white.codes_at(100, 100)) EXPECT_EQ(code, 65535) << name;
        for (const double code : white.codes_at(2, 2)) EXPECT_EQ(code, 65535) << name << ", border";
        // ISO 5 density against the perfect diffuser: the sheet's own reading stays in it.
        EXPECT_NEAR(paper_white.at(100, 100).l, lightness({pack.sheet.white_density}), 0.3)
            << "V-weighting under A and under D50 part by this little for a bluish white, " << name;
    }
}

// CIE 15 against another white: here by Little CMS from the model's XYZ.
TEST_F(Prints, RelativeRenderingIsColorimetryAgainstThePapersWhite) {
    const PrintModel print = model();
    const auto target = folder / "relative.tif";
    render_print(scan(), print, {Rendering::relative, 0}, OutputProfile::named("display-p3"), {}, target);
    const ReadBack picture(target);
    const XYZ white = xyz(print.fixed_only().lab);
    const cmsCIEXYZ paper_white{white.x, white.y, white.z};
    double worst = 0;
    for (int y = 0; y < 256; y += 3)
        for (int x = 0; x < 256; ++x) {
            const XYZ colour = xyz(print.patch(density(x, y)).lab);
            const cmsCIEXYZ source{colour.x, colour.y, colour.z};
            cmsCIELab against_paper;
            cmsXYZ2Lab(&paper_white, &against_paper, &source);
            const Lab wanted{against_paper.L, against_paper.a, against_paper.b};
            if (picture.holds(wanted)) worst = std::max(worst, difference(picture.at(x, y), wanted));
        }
    EXPECT_LE(worst, kPrintSixteenBit);
}

TEST_F(Prints, UnderTheBathAreYellow) {
    const PrintModel dry = model(), wet(paper, pack.darkroom.enlarger, steps(), 0.15, BathLayer{2.0, 5.0});
    render_print(scan(), wet, {{}, 0.1}, OutputProfile::named("display-p3"), {}, folder / "wet.tif");
    const ReadBack picture(folder / "wet.tif");
    const Lab border = picture.at(3, 3);
    EXPECT_GT(border.b, dry.border().lab.b + 20) << "ferricyanide is yellow";
    ASSERT_TRUE(picture.holds(wet.border().lab));
    EXPECT_LT(difference(border, wet.border().lab), kPrintSixteenBit);
}

TEST_F(Prints, BorderSurroundsThePictureWithUnexposedPaper) {
    const PrintModel print = model();
    render_print(scan(), print, {{}, 0.1}, OutputProfile::named("srgb"), {}, folder / "bordered.tif");
    const ReadBack picture(folder / "bordered.tif");
    constexpr int kBorder = 26;  // a tenth of 256, rounded
    ASSERT_EQ(picture.width(), 256 + 2 * kBorder);
    ASSERT_EQ(picture.height(), 256 + 2 * kBorder);
    for (int i = 0; i < picture.width(); ++i)
        for (const auto& [x, y] :
             {std::pair{i, kBorder - 1}, {i, 256 + kBorder}, {kBorder - 1, i}, {256 + kBorder, i}})
            ASSERT_LT(difference(picture.at(x, y), print.border().lab), kPrintSixteenBit) << x << ", " << y;
    for (const auto& [x, y] : {std::pair{0, 0}, {255, 0}, {0, 255}, {255, 255}}) {
        const Lab wanted = print.patch(density(x, y)).lab;
        ASSERT_TRUE(picture.holds(wanted));
        EXPECT_LT(difference(picture.at(x + kBorder, y + kBorder), wanted), kPrintSixteenBit);
    }
}

TEST_F(Prints, MirroredScansPrintMirrored) {
    const auto profile = OutputProfile::named("grey");
    render_print(scan(), model(), {}, profile, {}, folder / "plain.tif");
    render_print(scan(true), model(), {}, profile, {}, folder / "mirrored.tif");
    const VImage plain = VImage::new_from_file((folder / "plain.tif").c_str()),
                 mirrored = VImage::new_from_file((folder / "mirrored.tif").c_str());
    EXPECT_GT((plain - mirrored).abs().max(), 0);
    EXPECT_EQ((plain.fliphor() - mirrored).abs().max(), 0);
}

TEST_F(Prints, CarryProfileResolutionAndDescription) {
    const auto profile = OutputProfile::named("display-p3");
    for (const char* name : {"a.tif", "a.png", "a.jpg"}) {
        PictureOptions options = at_bits(8);
        options.pixels_per_mm = print_resolution(scan(), std::nullopt, 5.0);
        options.description = {{"recipe", "grade = 3"}, {"pack", "attic"}};
        render_print(scan(), model(), {}, profile, options, folder / name);
        const VImage picture = VImage::new_from_file((folder / name).c_str());
        std::size_t size = 0;
        const auto* icc = static_cast<const std::uint8_t*>(picture.get_blob(VIPS_META_ICC_NAME, &size));
        EXPECT_EQ(std::vector<std::uint8_t>(icc, icc + size), profile.icc()) << name;
        const auto* xmp = static_cast<const char*>(picture.get_blob(VIPS_META_XMP_NAME, &size));
        EXPECT_THAT(std::string(xmp, size), HasSubstr("grade = 3")) << name;
        // The scan has 100 pixels to the millimetre of film, five times enlarged. JPEG counts whole dots to
        // the inch or centimetre.
        EXPECT_NEAR(picture.xres(), 20, 0.05) << name;
    }
    EXPECT_EQ(print_resolution(scan(), 128.0, 5.0), 2) << "256 pixels over 128 mm";
}

// One answer: the same file for any number of workers, however the scan is laid out on disk.
TEST_F(Prints, AreTheSameBytesForAnyWorkersAndAnyLayoutOfTheScan) {
    const auto option = [] { return VImage::option(); };
    save_scan("tiles.tif", option()->set("tile", true)->set("tile_width", 32)->set("tile_height", 16));
    save_scan("deflate.tif", option()->set("compression", VIPS_FOREIGN_TIFF_COMPRESSION_DEFLATE));
    save_scan("deflate-tiles.tif", option()
                                       ->set("compression", VIPS_FOREIGN_TIFF_COMPRESSION_DEFLATE)
                                       ->set("tile", true)
                                       ->set("tile_width", 64)
                                       ->set("tile_height", 64));
    for (const char* suffix : {".tif", ".png"}) {
        std::string first;
        int tried = 0;
        for (const char* source : {"scan.tif", "tiles.tif", "deflate.tif", "deflate-tiles.tif"})
            for (const int workers : {1, 2, 5}) {
                vips_concurrency_set(workers);
                const auto target = folder / ("print" + std::to_string(tried++) + suffix);
                render_print(scan(false, source), model(), {{}, 0.05}, OutputProfile::named("srgb"), {},
                             target);
                const std::string bytes = content_of(target);
                if (first.empty()) first = bytes;
                EXPECT_GT(bytes.size(), 10000u);
                EXPECT_TRUE(bytes == first) << source << ", " << workers << " workers, " << suffix;
            }
    }
    vips_concurrency_set(1);
}

}  // namespace
}  // namespace fogproof::tests
