// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/colour_coder.hpp"

#include <algorithm>

#include "system/threads.hpp"

namespace fogproof::picture {
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

std::vector<std::uint16_t> wide_codes(std::span<const Lab> colours, const OutputProfile& profile,
                                      Rendering rendering, const Lab& white) {
    return coded<std::uint16_t>(colours, std::size_t(profile.channels()), [&](std::span<const Lab> part) {
        return profile.encode(part, rendering, white);
    });
}

std::vector<std::uint8_t> narrow_codes(std::span<const Lab> colours, const OutputProfile& profile,
                                       Rendering rendering, const Lab& white) {
    return coded<std::uint8_t>(colours, std::size_t(profile.channels()), [&](std::span<const Lab> part) {
        return profile.encode_8bit(part, rendering, white);
    });
}

std::vector<std::uint16_t> canvas_codes(std::span<const Lab> colours, const OutputProfile& profile,
                                        Rendering rendering, const Lab& white, int bits) {
    if (bits == 16) return wide_codes(colours, profile, rendering, white);
    const auto narrow = narrow_codes(colours, profile, rendering, white);
    std::vector<std::uint16_t> codes(narrow.begin(), narrow.end());
    for (std::uint16_t& code : codes) code = std::uint16_t(code * 257);
    return codes;
}

}  // namespace

PackedTable ColourCoder::table(std::span<const Lab> colours) const {
    if (bits_ == 16) return {wide_codes(colours, profile_, rendering_, white_), channels()};
    return {narrow_codes(colours, profile_, rendering_, white_), channels()};
}

std::vector<std::byte> ColourCoder::bytes(std::span<const Lab> colours) const {
    const auto as_bytes = [](const auto& codes) {
        const auto all = std::as_bytes(std::span(codes));
        return std::vector<std::byte>(all.begin(), all.end());
    };
    return bits_ == 16 ? as_bytes(wide_codes(colours, profile_, rendering_, white_))
                       : as_bytes(narrow_codes(colours, profile_, rendering_, white_));
}

std::vector<std::uint16_t> ColourCoder::codes(std::span<const Lab> colours) const {
    return canvas_codes(colours, profile_, rendering_, white_, bits_);
}

std::vector<std::uint16_t> ColourCoder::plain(const Lab& colour) const {
    return canvas_codes({&colour, 1}, profile_, Rendering::absolute, white_, bits_);
}

}  // namespace fogproof::picture
