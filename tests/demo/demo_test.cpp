// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the example scenario promises about itself. Its data is invented, so nothing here speaks about paper.
#include "demo/demo.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <fstream>
#include <vips/vips8>

#include "demo/film.hpp"
#include "demo/noise.hpp"
#include "fogproof/base/error.hpp"
#include "negative/density_scale.hpp"
#include "negative/tones.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

namespace fs = std::filesystem;

constexpr double kSmall = 0.3;

const DemoNegative& small_negative() {
    static const DemoNegative scan = demo_negative(kSmall, 2);
    return scan;
}

std::uint16_t code(const DemoNegative& scan, int x, int y) {
    return scan.codes[std::size_t(y) * std::size_t(scan.width) + std::size_t(x)];
}

// Mean transmittance of a rectangle given in millimetres of the scan.
double transmittance(const DemoNegative& scan, double left, double top, double wide, double tall) {
    double sum = 0;
    int count = 0;
    for (int y = int(std::ceil(top * scan.pixels_per_mm)); y < int((top + tall) * scan.pixels_per_mm); ++y)
        for (int x = int(std::ceil(left * scan.pixels_per_mm)); x < int((left + wide) * scan.pixels_per_mm);
             ++x) {
            sum += code(scan, x, y) / 65535.0;
            ++count;
        }
    return sum / count;
}

class Folder {
  public:
    Folder() : path_(fs::temp_directory_path() / ("fogproof-demo-" + std::to_string(::getpid()))) {
        fs::remove_all(path_);
    }
    ~Folder() { fs::remove_all(path_); }
    [[nodiscard]] const fs::path& path() const { return path_; }

  private:
    fs::path path_;
};

TEST(Demo, IsTheSamePictureForAnyNumberOfThreads) {
    EXPECT_EQ(demo_negative(kSmall, 1).codes, small_negative().codes);
    EXPECT_EQ(demo_negative(kSmall, 5).codes, small_negative().codes);
}

TEST(Demo, HasAboutTheSizeAskedFor) {
    constexpr double tolerance = 0.02;  // the sides are whole pixels
    for (const double megapixels : {0.3, 0.7}) {
        const DemoNegative scan = demo_negative(megapixels);
        EXPECT_NEAR(double(scan.width) * scan.height / 1e6 / megapixels, 1, tolerance);
        EXPECT_EQ(scan.codes.size(), std::size_t(scan.width) * std::size_t(scan.height));
        // A 35 mm frame is 36 x 24 mm; its sides are whole pixels.
        EXPECT_NEAR(scan.frame.width / scan.pixels_per_mm, 36, 1 / scan.pixels_per_mm);
        EXPECT_NEAR(scan.frame.height / scan.pixels_per_mm, 24, 1 / scan.pixels_per_mm);
    }
}

// A finer scan shows the same scene.
TEST(Demo, ShowsTheSameSceneInScansOfAnySize) {
    // On two sides of a square a row of coarse pixels more, 0.07 mm of 3 mm, where the picture jumps by up to
    // 0.4.
    constexpr double square = 3, tolerance = 0.02;
    const DemoNegative finer = demo_negative(0.9);
    for (double y = demo::kFrameTop + 0.5; y + square < demo::kFrameTop + demo::kFrameTall; y += square)
        for (double x = demo::kFrameLeft + 0.5; x + square < demo::kFrameLeft + demo::kFrameWide; x += square)
            EXPECT_NEAR(transmittance(finer, x, y, square, square),
                        transmittance(small_negative(), x, y, square, square), tolerance)
                << x << " " << y;
}

TEST(Demo, RefusesSizesOutsideItsLimits) {
    for (const double megapixels : {0.0, -1.0, 0.29, 401.0, std::nan(""), HUGE_VAL})
        EXPECT_THROW((void)demo_negative(megapixels), Error) << megapixels;
}

TEST(Demo, FrameHoldsThePromisedRangeOfDensities) {
    const DemoNegative& scan = small_negative();
    Histogram histogram(65536);
    for (int y = 0; y < scan.frame.height; ++y)
        for (int x = 0; x < scan.frame.width; ++x)
            ++histogram[code(scan, scan.frame.left + x, scan.frame.top + y)];
    const auto light = light_of_codes(Encoding::linear, 65536);
    const double clear = std::pow(10.0, -demo::kBaseFog) + 0.0003;
    const Tones tones(histogram, negative_densities(light, {clear, 0.0003}));
    const double shadows = tones.quantile(0.01).value, lights = tones.quantile(0.99).value;
    EXPECT_THAT(shadows, testing::AllOf(testing::Ge(0.12), testing::Le(0.30)));
    EXPECT_THAT(lights, testing::AllOf(testing::Ge(1.15), testing::Le(1.35)));
    EXPECT_THAT(lights - shadows, testing::AllOf(testing::Ge(1.00), testing::Le(1.20)));
    // The snow is no blank sheet: much of the picture lies between sunlit crust and full highlight.
    EXPECT_GT(tones.quantile(0.95).value - tones.quantile(0.60).value, 0.10);
}

TEST(Demo, ShowsClearFilmRoundTheFrameAndLightThroughThePerforations) {
    using namespace demo;
    const DemoNegative& scan = small_negative();
    constexpr double tolerance = 0.01;  // grain and scanner noise over a few hundred pixels
    const double clear = std::pow(10.0, -kBaseFog);
    EXPECT_NEAR(transmittance(scan, kHolder + 0.3, kFrameTop, kEdgeBeside - 0.6, kFrameTall), clear,
                tolerance);
    EXPECT_NEAR(transmittance(scan, kFrameLeft + kFrameWide + 0.3, kFrameTop, kEdgeBeside - 0.6, kFrameTall),
                clear, tolerance);
    EXPECT_NEAR(transmittance(scan, kFrameLeft, kFrameTop - 0.55, kFrameWide, 0.4), clear, tolerance);
    EXPECT_NEAR(transmittance(scan, kFrameLeft, kFrameTop + kFrameTall + 0.15, kFrameWide, 0.4), clear,
                tolerance);
    // Perforations repeat every 4.75 mm on both long sides (ISO 1007, from memory), open to the light source.
    for (double middle = 0.9 + kHolePitch; middle < kScanWide - 2; middle += kHolePitch)
        for (const double top : {kHolder + kEdgeAbove, kScanTall - kHolder - kEdgeAbove - kHoleTall})
            EXPECT_NEAR(transmittance(scan, middle - 0.5, top + 0.9, 1.0, 1.0), 1, tolerance) << middle;
    // The holder lets nothing through but the scanner's black.
    EXPECT_NEAR(transmittance(scan, 0, 0, kScanWide, kHolder - 0.2), 0.0003, 0.0001);
    EXPECT_NEAR(transmittance(scan, 0, 0, kHolder - 0.2, kScanTall), 0.0003, 0.0001);
}

TEST(DemoFilm, GivesMoreSilverForMoreLightAndStartsInAToe) {
    EXPECT_NEAR(demo::developed_density(0), 0, 1e-6);
    double before = demo::developed_density(1e-5), slope_before = 0;
    for (double log_light = -4.95; log_light <= 0.5; log_light += 0.05) {
        const double here = demo::developed_density(std::pow(10.0, log_light));
        const double slope = (here - before) / 0.05;
        EXPECT_GE(here, before);
        EXPECT_GE(slope, slope_before - 1e-9) << "the curve has a toe and no shoulder";
        slope_before = slope;
        before = here;
    }
    EXPECT_NEAR(slope_before, 0.64, 0.005);
}

double grain_deviation(double pixel_um, int count, int gathered) {
    double sum = 0, squares = 0;
    for (int j = 0; j < count; ++j)
        for (int i = 0; i < count; ++i) {
            double mean = 0;
            for (int b = 0; b < gathered; ++b)
                for (int a = 0; a < gathered; ++a)
                    mean += demo::grain((i * gathered + a + 0.5) * pixel_um,
                                        (j * gathered + b + 0.5) * pixel_um, pixel_um, 1.0);
            mean /= gathered * gathered;
            sum += mean;
            squares += mean * mean;
        }
    const double n = double(count) * count;
    return std::sqrt(squares / n - sum * sum / n / n);
}

TEST(DemoFilm, GrainSeenThroughLargerAperturesFallsWithTheirSide) {
    // Selwyn's law: deviation times the root of the aperture's area is constant for apertures above the
    // grain.
    constexpr double tolerance = 0.15;  // neighbouring pixels share a little of their grain
    const double once = grain_deviation(10, 240, 1), gathered = grain_deviation(10, 60, 8);
    EXPECT_NEAR(grain_deviation(20, 240, 1) / once, 0.5, 0.5 * tolerance);
    EXPECT_NEAR(gathered * 8 / once, 1.414, 1.414 * tolerance);
}

TEST(DemoNoise, LatticeChancesAreEvenAndNormal) {
    double sum = 0, squares = 0, even = 0;
    constexpr int side = 300;
    for (int j = 0; j < side; ++j)
        for (int i = 0; i < side; ++i) {
            const double value = demo::normal_chance(i, j, 5);
            sum += value;
            squares += value * value;
            even += demo::chance(i - 150, j - 150, 6);
        }
    constexpr double n = double(side) * side, four_sigma = 4 / 300.0;
    EXPECT_NEAR(sum / n, 0, four_sigma);
    EXPECT_NEAR(squares / n, 1, 1.5 * four_sigma);
    EXPECT_NEAR(even / n, 0.5, 0.29 * four_sigma);
}

TEST(Demo, WritesAGreyTiffWithResolutionAndNoProfile) {
    const Folder folder;
    write_demo(folder.path(), kSmall, WholeFile::Replace::never);
    const fs::path target = folder.path() / "negative.tif";
    const vips::VImage image = vips::VImage::new_from_file(target.c_str());
    const DemoNegative& scan = small_negative();
    EXPECT_EQ(image.width(), scan.width);
    EXPECT_EQ(image.height(), scan.height);
    EXPECT_EQ(image.bands(), 1);
    EXPECT_EQ(image.format(), VIPS_FORMAT_USHORT);
    EXPECT_EQ(image.get_typeof(VIPS_META_ICC_NAME), 0u);
    EXPECT_NEAR(scan.frame.width / image.xres(), 36, 0.1);
    EXPECT_NEAR(scan.frame.height / image.yres(), 24, 0.1);
    std::size_t size = 0;
    auto* pixels = static_cast<std::uint16_t*>(image.write_to_memory(&size));
    EXPECT_TRUE(std::equal(scan.codes.begin(), scan.codes.end(), pixels));
    g_free(pixels);
}

TEST(Demo, LeavesExistingFilesAloneUnlessToldOtherwise) {
    const Folder folder;
    fs::create_directories(folder.path());
    std::ofstream(folder.path() / "negative.tif") << "mine";
    EXPECT_THROW(write_demo(folder.path(), kSmall, WholeFile::Replace::never), Error);
    EXPECT_EQ(read_whole(folder.path() / "negative.tif"), "mine");
    write_demo(folder.path(), kSmall, WholeFile::Replace::allowed);
    EXPECT_GT(fs::file_size(folder.path() / "negative.tif"), 500'000u);
}

TEST(Demo, StoryNamesItsFilesAndTheUsualCautions) {
    const std::string story = demo_story();
    for (const char* word : {"negative.tif", "print.jpg", "print-labels.csv", "pack.toml", "readings.csv",
                             "fogproof grid negative.tif", "acids", "heat", "sunlight", "gloves", "label",
                             "local rules", "invented"})
        EXPECT_THAT(story, testing::HasSubstr(word));
}

}  // namespace
}  // namespace fogproof::tests
