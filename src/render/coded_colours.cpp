// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "render/coded_colours.hpp"

namespace fogproof {

CodedColours::CodedColours(std::span<const Lab> colours, const OutputProfile& profile, int bits,
                           Rendering rendering, const Lab& paper_white)
    : channels_(profile.channels()) {
    if (bits == 16)
        wide_ = profile.encode(colours, rendering, paper_white);
    else
        narrow_ = profile.encode_8bit(colours, rendering, paper_white);
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
