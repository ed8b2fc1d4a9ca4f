// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/nearest_code.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace fogproof::picture {
namespace {

using Code = std::array<std::uint8_t, 3>;

// Weights of CIEDE2000 (Sharma, Wu and Dalal 2005) at one colour, for the small differences around it. Left
// out: T and the rotation term, which matter for vivid colours only.
class SmallDifference {
  public:
    explicit SmallDifference(const Lab& at) {
        const double chroma = std::hypot(at.a, at.b), c7 = std::pow(chroma, 7);
        stretch_ = 1.5 - 0.5 * std::sqrt(c7 / (c7 + 6103515625.0));
        const double a = stretch_ * at.a, c = std::hypot(a, at.b), l = (at.l - 50.0) * (at.l - 50.0);
        cos_ = c > 0.0 ? a / c : 1.0;
        sin_ = c > 0.0 ? at.b / c : 0.0;
        lightness_ = 1.0 / (1.0 + 0.015 * l / std::sqrt(20.0 + l));
        chroma_ = 1.0 / (1.0 + 0.045 * c);
        hue_ = 1.0 / (1.0 + 0.015 * c);
    }

    [[nodiscard]] double squared(const Lab& one, const Lab& two) const {
        const double a = stretch_ * (one.a - two.a), b = one.b - two.b;
        const double l = lightness_ * (one.l - two.l);
        const double c = chroma_ * (a * cos_ + b * sin_), h = hue_ * (b * cos_ - a * sin_);
        return l * l + c * c + h * h;
    }

  private:
    double stretch_, cos_, sin_, lightness_, chroma_, hue_;
};

// The codes at the corners around one colour, and how they look.
struct Cell {
    Code low{};
    std::array<Lab, 8> corner{};
    SmallDifference difference;
};

Code corner_of(const Code& low, int corner) {
    Code code = low;
    for (std::size_t c = 0; c < 3; ++c) code[c] = std::uint8_t(low[c] + ((corner >> c) & 1));
    return code;
}

Cell cell_above(const Code& low, const LcmsSession::Transform& to_lab, int channels) {
    std::array<Lab, 8> corner{};
    std::array<double, 24> device{};
    const int corners = 1 << channels;
    for (int k = 0; k < corners; ++k)
        for (int c = 0; c < channels; ++c)
            device[std::size_t(k * channels + c)] = corner_of(low, k)[std::size_t(c)] / 255.0;
    cmsDoTransform(to_lab.get(), device.data(), corner.data(), cmsUInt32Number(corners));
    return {low, corner, SmallDifference(corner[0])};
}

// Neighbours in a table mostly share their cell, and the pixels of one print the few cells of its one tone.
class Cells {
  public:
    Cells(const LcmsSession::Transform& to_lab, int channels)
        : to_lab_(to_lab), channels_(channels), kept_(kKept, cell_above({}, to_lab, channels)) {}

    [[nodiscard]] const Cell& at(const Code& low) {
        Cell& cell = kept_[(low[0] + 5 * low[1] + 11 * low[2]) % kKept];
        if (cell.low != low) cell = cell_above(low, to_lab_, channels_);
        return cell;
    }

  private:
    static constexpr std::size_t kKept = 512;
    const LcmsSession::Transform& to_lab_;
    int channels_;
    std::vector<Cell> kept_;
};

}  // namespace

std::vector<std::uint8_t> nearest_8bit_codes(const LcmsSession::Transform& to_lab, int channels,
                                             std::span<const Lab> colours,
                                             std::span<const std::uint16_t> codes) {
    const auto width = std::size_t(channels);
    std::vector<std::uint8_t> nearest(codes.size());
    Cells cells(to_lab, channels);
    for (std::size_t i = 0; i < colours.size(); ++i) {
        Code low{};
        for (std::size_t c = 0; c < width; ++c)
            low[c] = std::uint8_t(std::min(codes[i * width + c] / 257, 254));
        const Cell& cell = cells.at(low);
        int best = 0;
        double least = cell.difference.squared(colours[i], cell.corner[0]);
        for (int k = 1; k < (1 << channels); ++k)
            if (const double d = cell.difference.squared(colours[i], cell.corner[std::size_t(k)]);
                d < least) {
                least = d;
                best = k;
            }
        const Code code = corner_of(low, best);
        std::copy_n(code.begin(), width, nearest.begin() + std::ptrdiff_t(i * width));
    }
    return nearest;
}

}  // namespace fogproof::picture
