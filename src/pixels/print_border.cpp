// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/print_border.hpp"

#include <algorithm>
#include <cstring>
#include <utility>

#include "pixels/dither.hpp"

namespace fogproof::pixels {

PrintBorder::PrintBorder(const BorderWidths& widths, std::vector<std::byte> pixel)
    : widths_(widths), pixel_(std::move(pixel)) {}

PrintBorder::PrintBorder(const BorderWidths& widths, std::shared_ptr<const LevelGrid> fog,
                         std::span<const std::uint16_t> codes_of_levels, int channels, int bits)
    : widths_(widths),
      pixel_(std::size_t(channels * bits / 8)),
      fog_(std::move(fog)),
      channels_(channels),
      bits_(bits) {
    const float scale = bits == 16 ? 1.0f : 1.0f / 257;
    for (const std::uint16_t code : codes_of_levels) codes_.push_back(float(code) * scale);
}

void PrintBorder::draw(int line, int begin, int end, int width, int height, std::byte* to) const {
    if (begin >= end) return;
    if (!fog_) {
        for (int x = begin; x < end; ++x) to = std::copy(pixel_.begin(), pixel_.end(), to);
        return;
    }
    std::vector<float> levels(std::size_t(end - begin));
    LevelLine(*fog_, line, height).levels(begin, end, width, levels.data());
    const auto channels = std::size_t(channels_), last = codes_.size() / channels - 1;
    for (int x = begin; x < end; ++x) {
        const float at = levels[std::size_t(x - begin)] * float(last);
        const std::size_t i = std::min(std::size_t(at), last - 1);
        const float t = at - float(i), up = bits_ == 16 ? 0.5f : dither(x, line);
        for (std::size_t c = 0; c < channels; ++c) {
            const float low = codes_[i * channels + c], high = codes_[(i + 1) * channels + c];
            const float code = low + t * (high - low) + up;
            if (bits_ == 16) {
                const auto sample = std::uint16_t(std::min(code, 65535.0f));
                std::memcpy(to, &sample, sizeof sample);
                to += sizeof sample;
            } else {
                *to++ = std::byte(int(std::min(code, 255.0f)));
            }
        }
    }
}

}  // namespace fogproof::pixels
