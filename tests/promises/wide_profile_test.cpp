// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Scans whose profile has a channel that adds no light, or takes some away: wide colour spaces have a blue
// primary outside of what is seen (that of SMPTE ST 2065-1 has a negative Y). Asked of the program.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <lcms2.h>

#include <array>
#include <cmath>
#include <functional>

#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using ::testing::HasSubstr;
using vips::VImage;

// Light that full red, green and blue add (ICC.1:2022, 8.3: XYZ is the matrix times the linear samples).
constexpr std::array kDark{0.34, 0.73, -0.07}, kDarkest{0.30, 0.70, 0.0};

class WideProfile : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_EQ(program.run("pack new --white 0.08 --blank 0.3 --name box -o box.toml").code, 0);
    }
    /// Saves 16-bit codes with a profile of linear curves and a matrix of which only Y is asked here.
    void save(const std::string& name, const std::array<double, 3>& luminance,
              const std::function<double(int x, int y, int band)>& law) const {
        const cmsHPROFILE profile = cmsCreateProfilePlaceholder(nullptr);
        cmsSetProfileVersion(profile, 4.3);
        cmsSetDeviceClass(profile, cmsSigInputClass);
        cmsSetColorSpace(profile, cmsSigRgbData);
        cmsSetPCS(profile, cmsSigXYZData);
        cmsWriteTag(profile, cmsSigMediaWhitePointTag, cmsD50_XYZ());
        const cmsCIEXYZ red{0.65, luminance[0], 0.0}, green{0.30, luminance[1], 0.01},
            blue{0.0142, luminance[2], 0.8149};
        cmsWriteTag(profile, cmsSigRedColorantTag, &red);
        cmsWriteTag(profile, cmsSigGreenColorantTag, &green);
        cmsWriteTag(profile, cmsSigBlueColorantTag, &blue);
        cmsToneCurve* line = cmsBuildGamma(nullptr, 1.0);
        for (const auto tag : {cmsSigRedTRCTag, cmsSigGreenTRCTag, cmsSigBlueTRCTag})
            cmsWriteTag(profile, tag, line);
        cmsFreeToneCurve(line);
        cmsSaveProfileToFile(profile, (program / "wide.icc").c_str());
        cmsCloseProfile(profile);
        raster<std::uint16_t>(
            kWidth, kHeight, 3, [&](int x, int y, int band) { return std::lround(65535 * law(x, y, band)); },
            VIPS_INTERPRETATION_RGB16)
            .write_to_file((program / name).c_str(),
                           VImage::option()->set("profile", (program / "wide.icc").c_str()));
    }
    static constexpr int kWidth = 240, kHeight = 160;
    const Program program{};
};

// A wedge with a tint that changes over the picture.
double tinted(int x, int y, int band) {
    const double tint[] = {1.0, 0.9, 0.5 + 0.5 * y / 160.0};
    return 0.9 * std::pow(10.0, -1.2 * x / 240.0) * tint[band];
}

TEST_F(WideProfile, AChannelThatTakesLightAwayIsCountedSo) {
    save("wide.tif", kDark, tinted);
    const auto luminance = [](int x, int y, int) {
        double sum = 0;
        for (int band = 0; band < 3; ++band) sum += kDark[std::size_t(band)] * tinted(x, y, band);
        return std::lround(65535 * sum);
    };
    raster<std::uint16_t>(kWidth, kHeight, 1, luminance, VIPS_INTERPRETATION_GREY16)
        .write_to_file((program / "grey.tif").c_str());
    for (const std::string name : {"wide", "grey"}) {
        const auto answer =
            program.run("--quiet print " + name + ".tif --whole --clear 0.9 --channels luminance " +
                        "--pack box.toml --black-time 8 --exposure 6s -o " + name + ".png");
        ASSERT_EQ(answer.code, 0) << answer.err;
    }
    const VImage wide = VImage::new_from_file((program / "wide.png").c_str()),
                 grey = VImage::new_from_file((program / "grey.png").c_str());
    EXPECT_GT(grey.deviate(), 5000);  // a picture, not one tone
    // One step of 8 bits, in 16: the light of a colour scan is rounded to a ten-thousandth of density.
    EXPECT_LE((wide - grey).abs().max(), 257);
}

// Densities of a colour negative's base in red, green and blue: common values, from memory.
TEST_F(WideProfile, AnOrangeBaseIsSeenThroughAChannelThatAddsNoLight) {
    constexpr double kOrangeBase[] = {0.25, 0.65, 0.90};
    const auto masked = [&](int x, int y, int band) {
        const bool is_frame = x > 30 && x < 210 && y > 25 && y < 135;
        const double hills =
            0.3 + 0.5 * std::abs(std::sin(0.05 * x + 0.03 * y) * std::cos(0.02 * x - 0.06 * y));
        return std::pow(10.0, -kOrangeBase[band] - (is_frame ? hills : 0));
    };
    save("mask.tif", kDarkest, masked);
    const auto answer = program.run("--quiet print mask.tif --pack box.toml -o out.png --size 64");
    EXPECT_EQ(answer.code, 0) << answer.err;
    EXPECT_THAT(answer.err, HasSubstr("the film base is orange"));
}

}  // namespace
}  // namespace fogproof::tests
