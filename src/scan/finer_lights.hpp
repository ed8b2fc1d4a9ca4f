// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Small pixels that need more than a pair of lights in coarse steps: some lights each, with fine shares.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "fogproof/rooms.hpp"
#include "scan/cell_lights.hpp"
#include "scan/trial_prints.hpp"

namespace fogproof::scan {

/// One pixel: its mean in steps, and every light but the darkest by its steps from the one before and its
/// share. The darkest has the share that is left, and lies where the mean of all is the mean.
struct FinerPixel {
    static constexpr int kShares = 4096;

    int mean = 0;
    std::size_t others = 0;  ///< lights but the darkest
    std::array<std::uint16_t, LightQuadrature::kMost - 1> above{}, shares{};
    double off = 0;  ///< codes of 8 bits, on the trial print where it is most
};

/// The lights that such a pixel stands for, in whole steps.
struct FewLights {
    std::array<SharedLight, LightQuadrature::kMost> lights;
    std::size_t count;
    [[nodiscard]] std::span<const SharedLight> all() const { return std::span(lights).first(count); }
};
[[nodiscard]] FewLights lights_of(const FinerPixel&, int steps);
/// The fewest lights that are off by no more than `limit`, or the best there are.
[[nodiscard]] FinerPixel finer_pixel(const std::vector<SharedLight>& all, CellTrial&, int mean, int steps,
                                     double limit);

/// All such pixels of a picture but for their means, which stand with those of the others.
struct FinerLights {
    std::vector<std::uint32_t> at;      ///< the pixels, in their order
    std::vector<std::uint8_t> lights;   ///< of each, 2 to LightQuadrature::kMost
    std::vector<std::uint16_t> above;   ///< as FinerPixel has them, one pixel after the other
    std::vector<std::uint16_t> shares;  ///< of the same

    void append(std::size_t at, const FinerPixel&);
    void append(const FinerLights&);
};

}  // namespace fogproof::scan
