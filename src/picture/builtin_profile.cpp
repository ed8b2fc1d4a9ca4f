// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/builtin_profile.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "fogproof/base/error.hpp"
#include "scan/lcms_session.hpp"

namespace fogproof::picture {
namespace {

constexpr cmsCIExyY kD65{0.3127, 0.3290, 1.0};  // IEC 61966-2-1
constexpr cmsCIExyYTRIPLE kSrgbPrimaries{{0.64, 0.33, 1.0}, {0.30, 0.60, 1.0}, {0.15, 0.06, 1.0}};
// SMPTE EG 432-1, from memory.
constexpr cmsCIExyYTRIPLE kP3Primaries{{0.680, 0.320, 1.0}, {0.265, 0.690, 1.0}, {0.150, 0.060, 1.0}};
// IEC 61966-2-1: ((v + 0.055) / 1.055)^2.4 above 0.04045, v / 12.92 below.
constexpr std::array<cmsFloat64Number, 5> kSrgbCurve{2.4, 1.0 / 1.055, 0.055 / 1.055, 1.0 / 12.92, 0.04045};
constexpr int kPowerAboveLine = 4;

double as_stored(double value) {
    return std::round(value * 65536.0) / 65536.0;  // s15Fixed16Number of ICC.1
}

// The colorants, each rounded to what a profile stores, no longer add up to the white, which would cost white
// a code value and tint the greys. Green, the brightest, takes up the rest.
void add_up_to_white(const LcmsSession::Profile& profile) {
    const auto colorant = [&](cmsTagSignature tag) {
        const auto* c = static_cast<const cmsCIEXYZ*>(cmsReadTag(profile.get(), tag));
        return cmsCIEXYZ{as_stored(c->X), as_stored(c->Y), as_stored(c->Z)};
    };
    const cmsCIEXYZ red = colorant(cmsSigRedColorantTag), blue = colorant(cmsSigBlueColorantTag);
    const cmsCIEXYZ white = *cmsD50_XYZ();
    const cmsCIEXYZ green{as_stored(white.X) - red.X - blue.X, as_stored(white.Y) - red.Y - blue.Y,
                          as_stored(white.Z) - red.Z - blue.Z};
    cmsWriteTag(profile.get(), cmsSigGreenColorantTag, &green);
}

LcmsSession::Profile rgb_profile(const LcmsSession& lcms, const cmsCIExyYTRIPLE& primaries) {
    const LcmsSession::Curve curve(
        cmsBuildParametricToneCurve(lcms.context(), kPowerAboveLine, kSrgbCurve.data()));
    std::array<cmsToneCurve*, 3> curves{curve.get(), curve.get(), curve.get()};
    LcmsSession::Profile profile(cmsCreateRGBProfileTHR(lcms.context(), &kD65, &primaries, curves.data()));
    if (profile) add_up_to_white(profile);
    return profile;
}

LcmsSession::Profile grey_profile(const LcmsSession& lcms) {
    const LcmsSession::Curve curve(cmsBuildGamma(lcms.context(), 2.2));
    return LcmsSession::Profile(cmsCreateGrayProfileTHR(lcms.context(), cmsD50_xyY(), curve.get()));
}

void describe(const LcmsSession& lcms, const LcmsSession::Profile& profile, const char* text) {
    cmsMLU* words = cmsMLUalloc(lcms.context(), 1);
    cmsMLUsetASCII(words, "en", "US", text);
    cmsWriteTag(profile.get(), cmsSigProfileDescriptionTag, words);
    cmsMLUfree(words);
}

// Little CMS stamps the hour of making into the header (ICC.1, bytes 24 to 35): one fixed day instead.
void set_fixed_date(std::vector<std::uint8_t>& icc) {
    constexpr std::array<std::uint8_t, 12> kDay{0x07, 0xE8, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0};  // 2024-01-01
    std::copy(kDay.begin(), kDay.end(), icc.begin() + 24);
}

std::vector<std::uint8_t> bytes_of(const LcmsSession& lcms, const LcmsSession::Profile& profile) {
    cmsUInt32Number size = 0;
    if (profile && cmsSaveProfileToMem(profile.get(), nullptr, &size)) {
        std::vector<std::uint8_t> icc(size);
        if (cmsSaveProfileToMem(profile.get(), icc.data(), &size)) {
            set_fixed_date(icc);
            return icc;
        }
    }
    throw Error(Fault::internal, "built-in profile", lcms.message());
}

}  // namespace

const std::vector<std::string>& builtin_profile_names() {
    static const std::vector<std::string> names{"srgb", "display-p3", "grey"};
    return names;
}

std::optional<std::vector<std::uint8_t>> builtin_profile(std::string_view name) {
    const LcmsSession lcms;
    const auto made = [&](LcmsSession::Profile profile, const char* description) {
        if (profile) describe(lcms, profile, description);
        return bytes_of(lcms, profile);
    };
    if (name == "srgb") return made(rgb_profile(lcms, kSrgbPrimaries), "sRGB");
    if (name == "display-p3") return made(rgb_profile(lcms, kP3Primaries), "Display P3");
    if (name == "grey") return made(grey_profile(lcms), "Grey gamma 2.2");
    return std::nullopt;
}

}  // namespace fogproof::picture
