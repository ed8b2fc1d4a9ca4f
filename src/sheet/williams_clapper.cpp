// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "sheet/internal_light.hpp"
#include "sheet/optics.hpp"

namespace fogproof::sheet {
namespace {

// I as a cubic Hermite table over the square root of density: I behaves like D^2 log D near none, which even
// steps in D would not follow.
class ReturnTable {
  public:
    ReturnTable() {
        const InternalLight light(kGelatinIndex);
        for (std::size_t i = 0; i <= kCells; ++i) {
            const double root = double(i) / kPerRoot;
            const auto [value, slope] = light.at(root * root);
            knot_[i] = {value, slope * 2.0 * root / kPerRoot};
        }
    }

    [[nodiscard]] double operator()(double layer_density) const {
        const double place = std::sqrt(layer_density) * kPerRoot;
        if (!(place < double(kCells))) return 0.0;  // below 1e-12 from here on
        const auto cell = std::size_t(place);
        const Knot &a = knot_[cell], &b = knot_[cell + 1];
        const double t = place - double(cell), u = 1.0 - t;
        return u * u * (a.value * (1.0 + 2.0 * t) + a.slope * t) +
               t * t * (b.value * (1.0 + 2.0 * u) - b.slope * u);
    }

  private:
    struct Knot {
        double value, slope;
    };
    static constexpr std::size_t kCells = 1024;
    static constexpr double kPerRoot = double(kCells) / 2.5;
    std::array<Knot, kCells + 1> knot_;
};

struct Geometry {
    double factor;  // T(0) T(45) / n^2
    double path;    // (1 + sec b) ln 10
};

struct Layer {
    ReturnTable internal;
    Geometry way = [] {
        const double n = kGelatinIndex, down = std::numbers::pi / 4.0;
        const double inside = std::asin(std::sin(down) / n);
        return Geometry{(1.0 - fresnel(1.0, n, 0.0)) * (1.0 - fresnel(1.0, n, down)) / (n * n),
                        (1.0 + 1.0 / std::cos(inside)) * std::numbers::ln10};
    }();
};

const Layer& layer() {
    static const Layer only;
    return only;
}

}  // namespace

double williams_clapper(double base_reflectance, double layer_density) {
    const Layer& gelatin = layer();
    const double density = std::max(layer_density, 0.0);
    return gelatin.way.factor * base_reflectance * std::exp(-gelatin.way.path * density) /
           (1.0 - base_reflectance * gelatin.internal(density));
}

double base_behind_clear_layer(double reflectance_factor) {
    const Layer& gelatin = layer();
    return reflectance_factor / (gelatin.way.factor + reflectance_factor * gelatin.internal(0.0));
}

}  // namespace fogproof::sheet
