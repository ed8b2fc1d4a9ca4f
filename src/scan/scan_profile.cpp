// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/scan_profile.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "scan/lcms_session.hpp"

namespace fogproof::scan {
namespace {

// Real scanner profiles with large tables stay under this; a header that promises more is not believed.
constexpr std::size_t kLargestProfile = 16u << 20;

std::string description(cmsHPROFILE profile) {
    std::array<char, 256> text{};
    cmsGetProfileInfoASCII(profile, cmsInfoDescription, "en", "US", text.data(), text.size() - 1);
    return text[0] != '\0' ? text.data() : "without a name";
}

}  // namespace

struct ScanProfile::Transforms {
    LcmsSession session;  // first, so that it outlives what was made in it
    LcmsSession::Transform doubles, floats;
};

ScanProfile::Found ScanProfile::found_in(std::span<const unsigned char> icc, int channels) {
    const auto parts = std::make_shared<Transforms>();
    cmsContext context = parts->session.context();
    const auto refused = [](const char* reason) { return Found{std::nullopt, reason}; };
    if (icc.size() > kLargestProfile) return refused("is larger than 16 MB");
    const LcmsSession::Profile profile = parts->session.opened(icc);
    if (!profile) return refused("is damaged");
    const bool is_grey = channels == 1;
    if (cmsGetColorSpace(profile.get()) != (is_grey ? cmsSigGrayData : cmsSigRgbData))
        return refused(is_grey ? "is not for grey samples" : "is not for RGB samples");
    const LcmsSession::Profile xyz(cmsCreateXYZProfileTHR(context));
    parts->doubles.reset(cmsCreateTransformTHR(context, profile.get(), is_grey ? TYPE_GRAY_DBL : TYPE_RGB_DBL,
                                               xyz.get(), TYPE_XYZ_DBL, INTENT_RELATIVE_COLORIMETRIC,
                                               kExact));
    parts->floats.reset(cmsCreateTransformTHR(context, profile.get(), is_grey ? TYPE_GRAY_FLT : TYPE_RGB_FLT,
                                              xyz.get(), TYPE_XYZ_FLT, INTENT_RELATIVE_COLORIMETRIC, kExact));
    if (!parts->doubles || !parts->floats) return refused("is incomplete");

    ScanProfile made;
    made.name_ = description(profile.get());
    made.channels_ = channels;
    made.additive_ = !is_grey && cmsIsMatrixShaper(profile.get()) &&
                     !cmsIsTag(profile.get(), cmsSigAToB0Tag) && !cmsIsTag(profile.get(), cmsSigAToB1Tag) &&
                     !cmsIsTag(profile.get(), cmsSigDToB0Tag) && !cmsIsTag(profile.get(), cmsSigDToB1Tag);
    made.transforms_ = parts;
    return {std::move(made), {}};
}

std::vector<double> ScanProfile::xyz(std::span<const double> samples) const {
    const std::size_t count = samples.size() / std::size_t(channels_);
    std::vector<double> made(3 * count);
    cmsDoTransform(transforms_->doubles.get(), samples.data(), made.data(), cmsUInt32Number(count));
    return made;
}

std::vector<double> ScanProfile::light(std::span<const double> samples) const {
    const std::vector<double> all = xyz(samples);
    std::vector<double> light(all.size() / 3);
    for (std::size_t i = 0; i < light.size(); ++i) light[i] = std::max(all[3 * i + 1], 0.0);
    return light;
}

void ScanProfile::light(std::span<const float> samples, std::span<float> light) const {
    thread_local std::vector<float> xyz;
    xyz.resize(3 * light.size());
    cmsDoTransform(transforms_->floats.get(), samples.data(), xyz.data(), cmsUInt32Number(light.size()));
    for (std::size_t i = 0; i < light.size(); ++i) light[i] = xyz[3 * i + 1];
}

std::vector<double> ScanProfile::neutral_light(std::size_t codes) const {
    std::vector<double> samples;
    samples.reserve(codes * std::size_t(channels_));
    for (std::size_t code = 0; code < codes; ++code)
        samples.insert(samples.end(), std::size_t(channels_), double(code) / double(codes - 1));
    return light(samples);
}

std::vector<double> ScanProfile::channel_xyz(int channel, std::size_t codes) const {
    std::vector<double> samples(codes * std::size_t(channels_));
    for (std::size_t code = 0; code < codes; ++code)
        samples[code * std::size_t(channels_) + std::size_t(channel)] = double(code) / double(codes - 1);
    return xyz(samples);
}

std::vector<double> ScanProfile::channel_light(int channel, std::size_t codes) const {
    const std::vector<double> all = channel_xyz(channel, codes);
    std::vector<double> light(codes);
    for (std::size_t code = 0; code < codes; ++code) light[code] = all[3 * code + 1];
    return light;
}

std::vector<double> ScanProfile::channel_curve(int channel, std::size_t codes) const {
    // Curves and a matrix: X, Y and Z go alike, so the strongest of them tells best.
    const std::vector<double> all = channel_xyz(channel, codes);
    const auto full = all.end() - 3;
    const auto strongest =
        std::max_element(full, all.end(), [](double a, double b) { return std::abs(a) < std::abs(b); });
    constexpr double kNothing = 1e-6;
    if (!(std::abs(*strongest) > kNothing)) return {};
    std::vector<double> curve(codes);
    for (std::size_t code = 0; code < codes; ++code)
        curve[code] = all[3 * code + std::size_t(strongest - full)] / *strongest;
    return curve;
}

}  // namespace fogproof::scan
