// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How code values stand for light, as an option, a file or custom has it.
#pragma once

#include <array>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "negative/density_scale.hpp"

namespace fogproof::scan {

/// Luminance of linear RGB: the middle row of the sRGB matrix, IEC 61966-2-1.
inline constexpr std::array<double, 3> kLuminance{0.2126, 0.7152, 0.0722};

/// Light, 0 to 1, of a value on the scale from 0 to 1.
using Curve = std::function<double(double value)>;

struct Coding {
    std::string name;           ///< "sRGB", "gamma 1.8"
    std::vector<Curve> curves;  ///< one for all channels, or one for each of three
    std::array<double, 3> luminance = kLuminance;

    [[nodiscard]] double light(std::size_t channel, double value) const {
        return curves[curves.size() == 1 ? 0 : channel](value);
    }
    /// Light of every code of a channel, or of a grey that all channels carry.
    [[nodiscard]] std::vector<double> light_of_codes(std::size_t channel, std::size_t codes) const;
};

[[nodiscard]] Coding coding_of(Encoding);
/// What a note says where the settings of the darkroom decide.
[[nodiscard]] std::string words_of_set(Encoding);
/// The power of a value that is its light.
[[nodiscard]] Coding power_coding(double exponent);
/// Light of every code as a table has it, 65535 for full; for one channel or for three. Nothing for tables
/// that fall, or that are level from end to end.
[[nodiscard]] std::optional<Coding> table_coding(std::vector<std::vector<double>> tables);
/// Of Adobe RGB (1998), version 2005-05, clauses 4.3.4.2 and 4.3.1.1.
[[nodiscard]] Coding adobe_rgb_coding();
/// Code points of ITU-T H.273 (V4), tables 2 and 3; nothing for curves of moving pictures that stand for no
/// transmittance, and for code points that are not known here.
[[nodiscard]] std::optional<Coding> h273_coding(int primaries, int transfer);

struct Chromaticity {
    double x, y;
};
/// Weights of red, green and blue in luminance that these primaries need to make the white together; nothing
/// for primaries that make no colours.
[[nodiscard]] std::optional<std::array<double, 3>> luminance_of(Chromaticity white,
                                                                std::span<const Chromaticity, 3> primaries);

}  // namespace fogproof::scan
