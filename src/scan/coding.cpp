// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/coding.hpp"

#include <algorithm>
#include <cmath>

#include "base/words.hpp"

namespace fogproof::scan {
namespace {

constexpr double kFullTable = 65535;
constexpr Chromaticity kD65{0.3127, 0.3290};

std::string name_of(Encoding encoding) {
    switch (encoding) {
        case Encoding::linear:
            return "linear";
        case Encoding::srgb:
            return "sRGB";
        case Encoding::gamma22:
            return "gamma 2.2";
        case Encoding::density:
            return "density";
    }
    return "";
}

// ITU-R BT.709-6, item 1.2, turned round; BT.601 and BT.2020 share it.
double video_light(double value) {
    return value < 0.081 ? std::max(value, 0.0) / 4.5 : std::pow((value + 0.099) / 1.099, 1 / 0.45);
}

std::optional<Coding> h273_curve(int transfer) {
    switch (transfer) {
        case 1:
        case 6:
        case 14:
        case 15:
            return Coding{"the curve of television (BT.709)", {video_light}};
        case 4:
            return power_coding(2.2);
        case 5:
            return power_coding(2.8);
        case 8:
            return coding_of(Encoding::linear);
        case 13:
            return coding_of(Encoding::srgb);
        default:
            return std::nullopt;
    }
}

std::optional<std::array<double, 3>> h273_luminance(int primaries) {
    using Three = std::array<Chromaticity, 3>;
    switch (primaries) {
        case 1:
            return kLuminance;
        case 5:
            return luminance_of(kD65, Three{{{0.64, 0.33}, {0.29, 0.60}, {0.15, 0.06}}});
        case 6:
        case 7:
            return luminance_of(kD65, Three{{{0.630, 0.340}, {0.310, 0.595}, {0.155, 0.070}}});
        case 9:
            return luminance_of(kD65, Three{{{0.708, 0.292}, {0.170, 0.797}, {0.131, 0.046}}});
        case 11:
            return luminance_of({0.314, 0.351}, Three{{{0.680, 0.320}, {0.265, 0.690}, {0.150, 0.060}}});
        case 12:
            return luminance_of(kD65, Three{{{0.680, 0.320}, {0.265, 0.690}, {0.150, 0.060}}});
        default:
            return std::nullopt;
    }
}

double between(const std::vector<double>& table, double value) {
    const double place = std::clamp(value, 0.0, 1.0) * double(table.size() - 1);
    const auto below = std::min(std::size_t(place), table.size() - 2);
    const double share = place - double(below);
    return ((1 - share) * table[below] + share * table[below + 1]) / kFullTable;
}

}  // namespace

std::vector<double> Coding::light_of_codes(std::size_t channel, std::size_t codes) const {
    std::vector<double> all(codes);
    for (std::size_t code = 0; code < codes; ++code)
        all[code] = light(channel, double(code) / double(codes - 1));
    return all;
}

Coding coding_of(Encoding encoding) {
    return {name_of(encoding), {[encoding](double value) { return light_of_value(encoding, value); }}};
}

std::string words_of_set(Encoding encoding) {
    return "the settings of this darkroom say what the codes stand for: " + name_of(encoding);
}

Coding power_coding(double exponent) {
    if (std::abs(exponent - 1) < 1e-4) return coding_of(Encoding::linear);
    return {"gamma " + decimal(exponent, 2),
            {[exponent](double value) { return std::pow(std::max(value, 0.0), exponent); }}};
}

std::optional<Coding> table_coding(std::vector<std::vector<double>> tables) {
    Coding made{"a table", {}};
    for (auto& table : tables) {
        if (table.size() < 2 || !std::ranges::is_sorted(table) || table.front() == table.back())
            return std::nullopt;
        made.curves.emplace_back([table = std::move(table)](double value) { return between(table, value); });
    }
    return made;
}

Coding adobe_rgb_coding() {
    Coding made = power_coding(563.0 / 256);
    made.name = "Adobe RGB";
    made.luminance = {0.29734, 0.62736, 0.07529};
    return made;
}

std::optional<Coding> h273_coding(int primaries, int transfer) {
    const auto luminance = h273_luminance(primaries);
    auto made = h273_curve(transfer);
    if (!luminance || !made) return std::nullopt;
    made->luminance = *luminance;
    return made;
}

// SMPTE RP 177: the primaries' XYZ, scaled so that their sum is the white of luminance 1. Cramer's rule.
std::optional<std::array<double, 3>> luminance_of(Chromaticity white,
                                                  std::span<const Chromaticity, 3> primaries) {
    using Vector = std::array<double, 3>;
    const auto xyz = [](Chromaticity of) { return Vector{of.x / of.y, 1, (1 - of.x - of.y) / of.y}; };
    const auto determinant = [](const Vector& a, const Vector& b, const Vector& c) {
        return a[0] * (b[1] * c[2] - b[2] * c[1]) - b[0] * (a[1] * c[2] - a[2] * c[1]) +
               c[0] * (a[1] * b[2] - a[2] * b[1]);
    };
    const Vector r = xyz(primaries[0]), g = xyz(primaries[1]), b = xyz(primaries[2]), w = xyz(white);
    const double all = determinant(r, g, b);
    const std::array<double, 3> made{determinant(w, g, b) / all, determinant(r, w, b) / all,
                                     determinant(r, g, w) / all};
    // Not finite, or a primary that would have to shine less than darkness.
    if (!std::ranges::all_of(made, [](double share) { return share >= 0 && share <= 1; }))
        return std::nullopt;
    return made;
}

}  // namespace fogproof::scan
