// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Output profiles against the standards they stand for, with Little CMS as witness.
#include "picture/profile.hpp"

#include <gtest/gtest.h>
#include <lcms2.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <random>

#include "fogproof/base/error.hpp"
#include "support/read_back.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

namespace fs = std::filesystem;

constexpr double kSixteenBit = 0.05;  // Delta E 2000; half a code of 16 bit is far below, near black included
constexpr double kEightBit = 0.6;     // Delta E 2000 that the 8-bit pictures promise

class Profiles : public ::testing::Test {
  protected:
    void SetUp() override {
        folder_ =
            fs::temp_directory_path() /
            ("profile_test." + std::string(::testing::UnitTest::GetInstance()->current_test_info()->name()));
        fs::remove_all(folder_);
        fs::create_directories(folder_);
    }
    void TearDown() override { fs::remove_all(folder_); }

    std::string file(const std::string& name, std::span<const std::uint8_t> bytes) const {
        const fs::path path = folder_ / name;
        std::ofstream(path, std::ios::binary)
            .write(reinterpret_cast<const char*>(bytes.data()), std::streamsize(bytes.size()));
        return path.string();
    }

    static std::vector<std::uint8_t> saved(cmsHPROFILE profile) {
        cmsUInt32Number size = 0;
        cmsSaveProfileToMem(profile, nullptr, &size);
        std::vector<std::uint8_t> bytes(size);
        cmsSaveProfileToMem(profile, bytes.data(), &size);
        cmsCloseProfile(profile);
        return bytes;
    }

    static void expect_refusal(const std::string& name, Fault fault) {
        try {
            (void)OutputProfile::named(name);
            FAIL() << name << " was taken";
        } catch (const Error& error) {
            const std::string text = error.what();
            EXPECT_EQ(error.fault(), fault) << text;
            EXPECT_NE(text.find("srgb, display-p3, grey"), std::string::npos) << text;
            EXPECT_EQ(text.find('\n'), std::string::npos) << text;
        }
    }

    fs::path folder_;
};

// Tones and tints that a print can have: L* 3 to 97, at most a little colour.
std::vector<Lab> print_colours() {
    std::mt19937 random(5);
    std::uniform_real_distribution<double> l(3.0, 97.0), unit(-1.0, 1.0);
    std::vector<Lab> colours;
    for (int i = 0; i < 500; ++i) {
        const double lightness = l(random), room = std::min(lightness, 100.0 - lightness) / 10.0;
        colours.push_back({lightness, room * unit(random), 2.0 * room * unit(random)});
    }
    return colours;
}

TEST_F(Profiles, SixteenBitCodesGiveTheColourBack) {
    const auto colours = print_colours();
    for (const char* name : {"srgb", "display-p3"}) {
        const auto profile = OutputProfile::named(name);
        const auto back = profile.decode(profile.encode(colours, Rendering::absolute, {}));
        for (std::size_t i = 0; i < colours.size(); ++i)
            EXPECT_LT(difference(colours[i], back[i]), kSixteenBit) << name << " L* " << colours[i].l;
    }
}

std::vector<std::uint16_t> widened(const std::vector<std::uint8_t>& codes) {
    std::vector<std::uint16_t> wide;
    for (const auto code : codes) wide.push_back(std::uint16_t(code * 257));
    return wide;
}

TEST_F(Profiles, EightBitCodesComeNear) {
    const auto colours = print_colours();
    for (const char* name : {"srgb", "display-p3"}) {
        const auto profile = OutputProfile::named(name);
        const auto back = profile.decode(widened(profile.encode_8bit(colours, Rendering::absolute, {})));
        for (std::size_t i = 0; i < colours.size(); ++i)
            EXPECT_LT(difference(colours[i], back[i]), kEightBit) << name << " L* " << colours[i].l;
    }
}

TEST_F(Profiles, EightBitNeutralsAreNeutralAndStepByStep) {
    std::vector<Lab> greys;
    for (double l = 0.0; l <= 100.0; l += 0.05) greys.push_back({l, 0, 0});
    for (const char* name : {"srgb", "display-p3", "grey"}) {
        const auto profile = OutputProfile::named(name);
        const auto fine = profile.encode(greys, Rendering::absolute, {});
        const auto codes = profile.encode_8bit(greys, Rendering::absolute, {});
        ASSERT_EQ(codes.size(), fine.size());
        const auto channels = std::size_t(profile.channels());
        for (std::size_t i = 0; i < codes.size(); ++i) {
            EXPECT_EQ(codes[i], codes[i / channels * channels]) << name;
            EXPECT_GE(codes[i], codes[i < channels ? i : i - channels]) << name;
            EXPECT_LE(std::abs(codes[i] - fine[i] / 257.0), 0.75) << name;
        }
        EXPECT_EQ(codes.front(), 0);
        EXPECT_EQ(codes.back(), 255);
    }
}

TEST_F(Profiles, WhiteIsTheTopCodeAndBlackTheLowest) {
    const std::vector<Lab> ends{{100, 0, 0}, {0, 0, 0}};
    for (const char* name : {"srgb", "display-p3", "grey"}) {
        const auto profile = OutputProfile::named(name);
        const auto codes = profile.encode(ends, Rendering::absolute, {});
        const auto channels = std::size_t(profile.channels());
        for (std::size_t i = 0; i < channels; ++i) {
            EXPECT_EQ(codes[i], 65535) << name;
            EXPECT_EQ(codes[channels + i], 0) << name;
        }
    }
}

TEST_F(Profiles, NeutralsStayNeutralInRgb) {
    std::vector<Lab> greys;
    for (double l = 0.5; l < 100.0; l += 0.5) greys.push_back({l, 0, 0});
    for (const char* name : {"srgb", "display-p3"}) {
        const auto codes = OutputProfile::named(name).encode(greys, Rendering::absolute, {});
        for (std::size_t i = 0; i < codes.size(); i += 3) {
            // One code where the three fall on both sides of a half.
            EXPECT_LE(std::abs(int(codes[i]) - int(codes[i + 1])), 1);
            EXPECT_LE(std::abs(int(codes[i + 1]) - int(codes[i + 2])), 1);
        }
    }
}

TEST_F(Profiles, GreyFollowsGammaOfTwoPointTwoAndOnlyLightness) {
    const std::vector<Lab> colours{{50, 0, 0}, {50, 3, 12}, {90, 0, 0}};
    const auto codes = OutputProfile::named("grey").encode(colours, Rendering::absolute, {});
    ASSERT_EQ(codes.size(), 3u);
    // CIE 15: Y of L* 50 is (66/116)^3, of 90 (106/116)^3.
    EXPECT_NEAR(codes[0], 65535.0 * std::pow(66.0 / 116.0, 3.0 / 2.2), 1.0);
    EXPECT_NEAR(codes[2], 65535.0 * std::pow(106.0 / 116.0, 3.0 / 2.2), 1.0);
    EXPECT_EQ(codes[0], codes[1]);
}

TEST_F(Profiles, SrgbCodesDecodeToThePublishedTristimulusValues) {
    // munsellinterpol 2.0.1, srgb2xyz: (128, 200, 255) under D65 is 47.603, 53.116, 102.355, taken to D50 by
    // Bradford (ICC.1 annex E), matrix from the inverse of the published one.
    const double x = 0.4760334, y = 0.5311601, z = 1.023549;
    const XYZ expected{1.0478112 * x + 0.0228866 * y - 0.0501270 * z,
                       0.0295424 * x + 0.9904844 * y - 0.0170491 * z,
                       -0.0092345 * x + 0.0150436 * y + 0.7521316 * z};
    constexpr double kRoundedMatrices = 5e-4;  // four-digit sRGB matrix, and 1/65536 in the profile
    const std::vector<std::uint16_t> code{128 * 257, 200 * 257, 65535};
    const XYZ found = xyz(OutputProfile::named("srgb").decode(code).front());
    EXPECT_NEAR(found.x, expected.x, kRoundedMatrices);
    EXPECT_NEAR(found.y, expected.y, kRoundedMatrices);
    EXPECT_NEAR(found.z, expected.z, kRoundedMatrices);
}

TEST_F(Profiles, SrgbColorantsAreTheBradfordAdaptedPrimaries) {
    // Columns of the IEC 61966-2-1 matrix through the Bradford matrix D65 to D50 must be what pure codes
    // give.
    const double m[3][3] = {{0.4124, 0.3576, 0.1805}, {0.2126, 0.7152, 0.0722}, {0.0193, 0.1192, 0.9505}};
    const double bradford[3][3] = {{1.0478112, 0.0228866, -0.0501270},
                                   {0.0295424, 0.9904844, -0.0170491},
                                   {-0.0092345, 0.0150436, 0.7521316}};
    constexpr double kTwoWhites =
        5e-4;  // this matrix aims at 0.96422, 1, 0.82521, ICC.1 at 0.9642, 1, 0.8249
    const auto profile = OutputProfile::named("srgb");
    for (std::size_t c = 0; c < 3; ++c) {
        std::vector<std::uint16_t> code(3, 0);
        code[c] = 65535;
        const XYZ found = xyz(profile.decode(code).front());
        const double got[3] = {found.x, found.y, found.z};
        for (std::size_t i = 0; i < 3; ++i) {
            double adapted = 0;
            for (std::size_t k = 0; k < 3; ++k) adapted += bradford[i][k] * m[k][c];
            EXPECT_NEAR(got[i], adapted, kTwoWhites);
        }
    }
}

TEST_F(Profiles, BuiltInSrgbAgreesWithTheOneOfLittleCms) {
    const auto own = OutputProfile::named("srgb");
    const auto theirs = OutputProfile::named(file("witness.icc", saved(cmsCreate_sRGBProfile())));
    const auto colours = print_colours();
    const auto a = own.encode(colours, Rendering::absolute, {}),
               b = theirs.encode(colours, Rendering::absolute, {});
    for (std::size_t i = 0; i < a.size(); ++i) EXPECT_NEAR(a[i], b[i], 4);  // colorants differ by 1/65536
}

TEST_F(Profiles, DisplayP3HoldsRedsThatSrgbClips) {
    const auto p3 = OutputProfile::named("display-p3"), srgb = OutputProfile::named("srgb");
    const auto red = p3.decode(std::vector<std::uint16_t>{65535, 0, 0});
    EXPECT_LT(difference(p3.decode(p3.encode(red, Rendering::absolute, {}))[0], red[0]), kSixteenBit);
    EXPECT_GT(difference(srgb.decode(srgb.encode(red, Rendering::absolute, {}))[0], red[0]), 1.0);
}

TEST_F(Profiles, PaperTintStaysInAbsoluteAndLeavesInRelativeRendering) {
    const std::vector<Lab> paper{{92.5, 0.4, 5.0}};
    const auto srgb = OutputProfile::named("srgb");
    const auto absolute = srgb.decode(srgb.encode(paper, Rendering::absolute, paper[0]));
    EXPECT_LT(difference(absolute[0], paper[0]), kSixteenBit);
    for (const auto code : srgb.encode(paper, Rendering::relative, paper[0])) EXPECT_EQ(code, 65535);
    // A tone of half the light of the paper is half the light of the white.
    const XYZ white = xyz(paper[0]);
    const std::vector<Lab> half{lab({white.x / 2, white.y / 2, white.z / 2})};
    const XYZ seen = xyz(srgb.decode(srgb.encode(half, Rendering::relative, paper[0]))[0]);
    EXPECT_NEAR(seen.x / kD50.x, 0.5, 1e-4);
    EXPECT_NEAR(seen.y, 0.5, 1e-4);
    EXPECT_NEAR(seen.z / kD50.z, 0.5, 1e-4);
}

TEST_F(Profiles, BytesAreTheSameOnEveryCallAndHoldNoClock) {
    for (const char* name : {"srgb", "display-p3", "grey"}) {
        const auto icc = OutputProfile::named(name).icc();
        EXPECT_EQ(icc, OutputProfile::named(name).icc());
        // ICC.1 clause 7.2: date and time in bytes 24 to 35, profile ID in 84 to 99.
        EXPECT_EQ(icc[24] * 256 + icc[25], 2024);
        for (std::size_t i = 84; i < 100; ++i) EXPECT_EQ(icc[i], 0);
    }
}

TEST_F(Profiles, GreyIccFileWorks) {
    cmsToneCurve* curve = cmsBuildGamma(nullptr, 1.8);
    const auto bytes = saved(cmsCreateGrayProfile(cmsD50_xyY(), curve));
    cmsFreeToneCurve(curve);
    const auto profile = OutputProfile::named(file("grey.icc", bytes));
    EXPECT_EQ(profile.channels(), 1);
    EXPECT_EQ(profile.icc(), bytes);
    EXPECT_FALSE(profile.description().empty());
    EXPECT_NEAR(profile.encode(std::vector<Lab>{{50, 0, 0}}, Rendering::absolute, {})[0],
                65535.0 * std::pow(66.0 / 116.0, 3.0 / 1.8), 2.0);
}

TEST_F(Profiles, UnknownNamesAreRefusedWithTheNearestKnown) {
    expect_refusal("sgrb", Fault::no_input);
    expect_refusal((folder_ / "missing.icc").string(), Fault::no_input);
    expect_refusal("", Fault::no_input);
    try {
        (void)OutputProfile::named("display_p3");
        FAIL();
    } catch (const Error& error) {
        EXPECT_NE(std::string(error.what()).find("perhaps display-p3"), std::string::npos);
    }
}

TEST_F(Profiles, FilesThatAreNoOutputProfileAreRefused) {
    const std::string prose =
        "this is not a profile, however long it may go on about colour and paper, because "
        "it lacks the signature that every profile carries at its thirty-seventh byte";
    expect_refusal(file("text.icc", {reinterpret_cast<const std::uint8_t*>(prose.data()), prose.size()}),
                   Fault::data);
    expect_refusal(file("empty.icc", {}), Fault::data);
    expect_refusal(folder_.string(), Fault::no_input);
    expect_refusal(file("huge.icc", std::vector<std::uint8_t>((4u << 20) + 1)), Fault::data);
    expect_refusal(file("cmyk.icc", saved(cmsCreateInkLimitingDeviceLink(cmsSigCmykData, 300.0))),
                   Fault::data);
    expect_refusal(file("lab.icc", saved(cmsCreateLab4Profile(nullptr))), Fault::data);
}

TEST_F(Profiles, EveryTruncationIsRefused) {
    const auto whole = OutputProfile::named("srgb").icc();
    for (std::size_t size = 0; size < whole.size(); ++size)
        expect_refusal(file("cut.icc", std::span(whole).first(size)), Fault::data);
}

TEST_F(Profiles, ClassesThatDescribeNoOutputAreRefused) {
    auto scanner = OutputProfile::named("srgb").icc();
    std::copy_n("scnr", 4, scanner.begin() + 12);  // ICC.1: device class of an input device
    expect_refusal(file("scanner.icc", scanner), Fault::data);
    auto cmyk = OutputProfile::named("srgb").icc();
    std::copy_n("CMYK", 4, cmyk.begin() + 16);  // ICC.1: colour space of the data
    expect_refusal(file("cmyk.icc", cmyk), Fault::data);
}

}  // namespace
}  // namespace fogproof::tests
