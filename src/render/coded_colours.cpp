// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "render/coded_colours.hpp"

#include <algorithm>

#include "fogproof/base/threads.hpp"

namespace fogproof {
namespace {

// Colours of a whole table take a profile longer than a small scan takes to be read.
constexpr std::size_t kAtOnce = 4096;

template <class Code, class Encode>
std::vector<Code> coded(std::span<const Lab> colours, std::size_t channels, const Encode& encode) {
    std::vector<Code> codes(colours.size() * channels);
    in_parallel((colours.size() + kAtOnce - 1) / kAtOnce, [&](std::size_t part) {
        const std::size_t first = part * kAtOnce;
        std::ranges::copy(encode(colours.subspan(first, std::min(kAtOnce, colours.size() - first))),
                          codes.begin() + std::ptrdiff_t(first * channels));
    });
    return codes;
}

}  // namespace

CodedColours::CodedColours(std::span<const Lab> colours, const OutputProfile& profile, int bits,
                           Rendering rendering, const Lab& paper_white)
    : channels_(profile.channels()) {
    const auto channels = std::size_t(channels_);
    if (bits == 16)
        wide_ = coded<std::uint16_t>(colours, channels, [&](std::span<const Lab> part) {
            return profile.encode(part, rendering, paper_white);
        });
    else
        narrow_ = coded<std::uint8_t>(colours, channels, [&](std::span<const Lab> part) {
            return profile.encode_8bit(part, rendering, paper_white);
        });
}

vips::VImage CodedColours::image(int width, int height) const {
    const auto copied = [&](const auto& codes, VipsBandFormat format) {
        return vips::VImage(vips_image_new_from_memory_copy(codes.data(), codes.size() * sizeof codes[0],
                                                            width, height, channels_, format));
    };
    return narrow_.empty() ? copied(wide_, VIPS_FORMAT_USHORT) : copied(narrow_, VIPS_FORMAT_UCHAR);
}

PackedTable CodedColours::table() const {
    return narrow_.empty() ? PackedTable(wide_, channels_) : PackedTable(narrow_, channels_);
}

std::vector<std::byte> CodedColours::bytes() const {
    const auto all = narrow_.empty() ? std::as_bytes(std::span(wide_)) : std::as_bytes(std::span(narrow_));
    return {all.begin(), all.end()};
}

}  // namespace fogproof
