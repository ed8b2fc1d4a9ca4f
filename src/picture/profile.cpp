// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/profile.hpp"
#include "base/markup.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <filesystem>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "picture/builtin_profile.hpp"
#include "picture/nearest_code.hpp"
#include "scan/lcms_session.hpp"
#include "system/whole_file.hpp"

namespace fogproof::picture {
namespace {

constexpr std::size_t kLargestProfile = 4u << 20;
constexpr double kTopCode = 65535.0;

std::string allowed_names() {
    return listed(builtin_profile_names()) + ", or the path of a grey or RGB ICC profile";
}

std::vector<std::uint8_t> profile_file(const std::string& name) {
    std::error_code fault;
    if (!std::filesystem::exists(name, fault)) {
        const auto meant = nearest_word(name, builtin_profile_names());
        throw Error(Fault::no_input, "profile " + name,
                    meant ? "no such profile, perhaps " + *meant : "no such profile", allowed_names());
    }
    try {
        const std::string text = read_whole(name, kLargestProfile);
        return {text.begin(), text.end()};
    } catch (const Error& error) {
        throw Error(error.fault(), "profile " + std::string(error.what()), {},
                    Advice{"or " + allowed_names()});
    }
}

std::string described(const LcmsSession::Profile& profile) {
    std::array<char, 256> text{};
    cmsGetProfileInfoASCII(profile.get(), cmsInfoDescription, "en", "US", text.data(), text.size());
    return plain_line(text.data());
}

// ICC.1 clause 7.2: the first four bytes, most significant first. Little CMS takes files that are shorter.
std::size_t stated_size(std::span<const std::uint8_t> icc) {
    std::size_t size = 0;
    for (const std::uint8_t byte : icc.first(std::min<std::size_t>(icc.size(), 4))) size = size * 256 + byte;
    return size;
}

// Channels of a profile that pictures can be written in; the refusal otherwise.
int usable_channels(const LcmsSession& lcms, const LcmsSession::Profile& profile, const std::string& name,
                    std::span<const std::uint8_t> icc) {
    const auto refuse = [&](const std::string& why) {
        throw Error(Fault::data, "profile " + name, why, allowed_names());
    };
    if (!profile) refuse("not an ICC profile (" + lcms.message() + ")");
    if (stated_size(icc) > icc.size()) refuse("cut short");
    // As numbers: what a file says need not be one of the names that Little CMS has for them.
    const auto kind = cmsUInt32Number(cmsGetDeviceClass(profile.get()));
    if (kind != cmsSigDisplayClass && kind != cmsSigOutputClass && kind != cmsSigColorSpaceClass)
        refuse("not a profile of a display, an output or a colour space");
    const auto space = cmsUInt32Number(cmsGetColorSpace(profile.get()));
    if (space != cmsSigRgbData && space != cmsSigGrayData) refuse("neither grey nor RGB");
    const int channels = space == cmsSigGrayData ? 1 : 3;
    // Damage behind the header shows only here.
    if (!lcms.to_device(profile, channels) || !lcms.to_lab(profile, channels))
        refuse("damaged or without a way from Lab and back (" + lcms.message() + ")");
    return channels;
}

std::vector<Lab> rendered(std::span<const Lab> colours, Rendering rendering, const Lab& paper_white) {
    std::vector<Lab> source(colours.begin(), colours.end());
    if (rendering == Rendering::relative)
        for (Lab& colour : source) colour = lab(xyz(colour), xyz(paper_white));
    return source;
}

std::uint16_t code_of(double share) {
    if (!(share > 0.0)) return 0;
    return std::uint16_t(std::lround(std::min(share, 1.0) * kTopCode));
}

}  // namespace

// Little CMS allows transforms without a cache to be shared between threads.
struct OutputProfile::Transforms {
    LcmsSession session;
    LcmsSession::Transform to_device, to_lab;
};

OutputProfile OutputProfile::named(const std::string& name) {
    OutputProfile profile;
    auto builtin = builtin_profile(name);
    profile.icc_ = builtin ? *std::move(builtin) : profile_file(name);
    auto transforms = std::make_shared<Transforms>();
    const LcmsSession& lcms = transforms->session;
    const auto handle = lcms.opened(profile.icc_);
    profile.channels_ = usable_channels(lcms, handle, name, profile.icc_);
    profile.description_ = described(handle);
    transforms->to_device = lcms.to_device(handle, profile.channels_);
    transforms->to_lab = lcms.to_lab(handle, profile.channels_);
    profile.transforms_ = std::move(transforms);
    return profile;
}

// Media-relative colorimetric from Lab whose L* 100 is the perfect diffuser: the diffuser becomes the
// profile's white, and everything that the paper adds to it stays.
std::vector<std::uint16_t> OutputProfile::encode(std::span<const Lab> colours, Rendering rendering,
                                                 const Lab& paper_white) const {
    const std::vector<Lab> source = rendered(colours, rendering, paper_white);
    std::vector<double> device(source.size() * std::size_t(channels_));
    static_assert(sizeof(Lab) == sizeof(cmsCIELab) && offsetof(Lab, b) == offsetof(cmsCIELab, b));
    cmsDoTransform(transforms_->to_device.get(), source.data(), device.data(),
                   cmsUInt32Number(source.size()));
    std::vector<std::uint16_t> codes(device.size());
    std::transform(device.begin(), device.end(), codes.begin(), code_of);
    return codes;
}

std::vector<std::uint8_t> OutputProfile::encode_8bit(std::span<const Lab> colours, Rendering rendering,
                                                     const Lab& paper_white) const {
    return nearest_8bit_codes(transforms_->to_lab, channels_, rendered(colours, rendering, paper_white),
                              encode(colours, rendering, paper_white));
}

std::vector<Lab> OutputProfile::decode(std::span<const std::uint16_t> codes) const {
    std::vector<double> device(codes.begin(), codes.end());
    for (double& share : device) share /= kTopCode;
    std::vector<Lab> colours(codes.size() / std::size_t(channels_));
    cmsDoTransform(transforms_->to_lab.get(), device.data(), colours.data(), cmsUInt32Number(colours.size()));
    return colours;
}

}  // namespace fogproof::picture
