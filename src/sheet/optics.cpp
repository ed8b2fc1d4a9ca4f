// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "sheet/optics.hpp"

#include <algorithm>
#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/special_functions/expint.hpp>
#include <cmath>
#include <numbers>

#include "sheet/internal_light.hpp"

namespace fogproof::sheet {

double fresnel(double n1, double n2, double angle) {
    const double cos1 = std::cos(angle), sin2 = n1 / n2 * std::sin(angle);
    if (sin2 >= 1.0) return 1.0;
    const double cos2 = std::sqrt((1.0 - sin2) * (1.0 + sin2));
    const double s = (n1 * cos1 - n2 * cos2) / (n1 * cos1 + n2 * cos2);
    const double p = (n2 * cos1 - n1 * cos2) / (n2 * cos1 + n1 * cos2);
    return (s * s + p * p) / 2.0;
}

// With a = a_c (1 - v^2) the square root that r(a) has at the critical angle a_c becomes a smooth function of
// v.
InternalLight::InternalLight(double index) : critical_cosine_(std::sqrt(1.0 - 1.0 / (index * index))) {
    using Rule = boost::math::quadrature::gauss<double, kNodes>;
    const double critical = std::asin(1.0 / index);
    for (std::size_t i = 0; i < kNodes; ++i) {
        const std::size_t half = i / 2;
        const double v = (1.0 + (i % 2 ? -1.0 : 1.0) * Rule::abscissa()[half]) / 2.0;
        const double a = critical * (1.0 - v * v), da = 2.0 * critical * v * Rule::weights()[half] / 2.0;
        weight_[i] = 2.0 * fresnel(index, 1.0, a) * std::sin(a) * std::cos(a) * da;
        path_[i] = 2.0 / std::cos(a);
    }
}

// Past the critical angle: 2 * integral t^(2 sec a) sin a cos a da = 2 c^2 E_3(2 D ln 10 / c), c its cosine.
InternalLight::Return InternalLight::at(double layer_density) const {
    const double x = layer_density * std::numbers::ln10, c = critical_cosine_;
    Return sum{2.0 * c * c * boost::math::expint(3, 2.0 * x / c),
               -4.0 * c * boost::math::expint(2, 2.0 * x / c)};
    for (std::size_t i = 0; i < kNodes; ++i) {
        const double share = weight_[i] * std::exp(-x * path_[i]);
        sum.value += share;
        sum.slope -= share * path_[i];
    }
    sum.slope *= std::numbers::ln10;
    return sum;
}

double internal_return(double layer_density, double index) {
    return InternalLight(index).at(layer_density).value;
}

}  // namespace fogproof::sheet
