// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Light that the surface sends back into the layer, split at the critical angle: below it a fixed quadrature
// over the Fresnel reflectance, above it, where everything returns, an exponential integral.
#pragma once

#include <array>
#include <cstddef>

#include "fogproof/rooms.hpp"

namespace fogproof::sheet {

class InternalLight {
  public:
    explicit InternalLight(double index);

    struct Return {
        double value;  ///< I for a one-pass density
        double slope;  ///< its derivative by that density
    };
    [[nodiscard]] Return at(double layer_density) const;

  private:
    static constexpr std::size_t kNodes = 30;
    std::array<double, kNodes> weight_{}, path_{};
    double critical_cosine_;
};

}  // namespace fogproof::sheet
