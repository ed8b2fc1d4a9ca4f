// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "render/scan_profile.hpp"

#include <algorithm>
#include <array>

#include "render/lcms_session.hpp"

namespace fogproof {
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

std::optional<ScanProfile> ScanProfile::read(std::span<const unsigned char> icc, int channels,
                                             std::string& why_not) {
    const auto parts = std::make_shared<Transforms>();
    cmsContext context = parts->session.context();
    const auto refused = [&](const char* reason) {
        why_not = reason;
        return std::nullopt;
    };
    if (icc.size() > kLargestProfile) return refused("is larger than 16 MB");
    const LcmsSession::Profile profile = parts->session.opened(icc);
    if (!profile) return refused("is damaged");
    const bool is_grey = channels == 1;
    if (cmsGetColorSpace(profile.get()) != (is_grey ? cmsSigGrayData : cmsSigRgbData))
        return refused(is_grey ? "is not for grey samples" : "is not for RGB samples");
    const LcmsSession::Profile xyz(cmsCreateXYZProfileTHR(context));
    // Without NOOPTIMIZE Little CMS may replace exact curves by 16-bit tables; NOCACHE makes it safe for
    // threads.
    constexpr cmsUInt32Number kExact = cmsFLAGS_NOOPTIMIZE | cmsFLAGS_NOCACHE;
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
    return made;
}

std::vector<double> ScanProfile::light(std::span<const double> samples) const {
    const std::size_t count = samples.size() / std::size_t(channels_);
    std::vector<double> xyz(3 * count), light(count);
    cmsDoTransform(transforms_->doubles.get(), samples.data(), xyz.data(), cmsUInt32Number(count));
    for (std::size_t i = 0; i < count; ++i) light[i] = std::max(xyz[3 * i + 1], 0.0);
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

std::vector<double> ScanProfile::channel_light(int channel, std::size_t codes) const {
    std::vector<double> samples(codes * std::size_t(channels_));
    for (std::size_t code = 0; code < codes; ++code)
        samples[code * std::size_t(channels_) + std::size_t(channel)] = double(code) / double(codes - 1);
    return light(samples);
}

}  // namespace fogproof
