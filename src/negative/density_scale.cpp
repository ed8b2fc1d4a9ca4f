// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "negative/density_scale.hpp"

#include <algorithm>
#include <cmath>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"

namespace fogproof::negative {
namespace {

constexpr double kLogCodesPerDensity = 65534.0 / kLogCodeSpan;
constexpr double kThinnestNegative = -kLogCodeTop;

}  // namespace

double light_of_value(Encoding encoding, double value) {
    switch (encoding) {
        case Encoding::linear:
            return std::max(value, 0.0);
        case Encoding::srgb:
            return value <= 0.04045 ? std::max(value, 0.0) / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
        case Encoding::gamma22:
            return std::pow(std::max(value, 0.0), 2.2);
        case Encoding::density:
            return std::pow(10.0, kDensestNegative * (value - 1.0));
    }
    throw Error(Fault::internal, "encoding", "is none of the known ones");
}

std::vector<double> light_of_codes(Encoding encoding, std::size_t codes) {
    if (codes < 2) throw Error(Fault::internal, "codes of a scan", std::to_string(codes), "at least 2");
    std::vector<double> light(codes);
    for (std::size_t code = 0; code < codes; ++code)
        light[code] = light_of_value(encoding, double(code) / double(codes - 1));
    return light;
}

std::vector<double> light_of_log_codes() {
    std::vector<double> light(65536);
    for (std::size_t code = 1; code < light.size(); ++code)
        light[code] = std::pow(10.0, kLogCodeTop - double(65535 - code) / kLogCodesPerDensity);
    return light;
}

std::uint16_t log_code_of_light(float light) {
    if (!(light > 0)) return 0;
    const float code = 65535.0f - (float(kLogCodeTop) - std::log10(light)) * float(kLogCodesPerDensity);
    return std::uint16_t(std::clamp(code, 1.0f, 65535.0f) + 0.5f);
}

std::vector<NegativeDensity> negative_densities(std::span<const double> light, ScanReference reference) {
    const double span = reference.clear - reference.black;
    if (!(span > 0))
        throw Error(Fault::data, "references of the scan",
                    "clear film gives light " + decimal(reference.clear, 6) + ", scanner black " +
                        decimal(reference.black, 6),
                    Advice{"clear film must be brighter than black"});
    std::vector<NegativeDensity> densities;
    densities.reserve(light.size());
    for (const double each : light) {
        const double transmittance = (each - reference.black) / span;
        const double density = transmittance > 0 ? -std::log10(transmittance) : kDensestNegative;
        densities.push_back({std::clamp(density, kThinnestNegative, kDensestNegative)});
    }
    return densities;
}

// D = g log10(1 + L/L0). Far above L0 that is a line of slope g, below it a toe that ends on clear film, as
// camera flare bends the foot of a real film curve; L0 is set so that white, L = 1, reaches the range
// exactly.
std::vector<NegativeDensity> virtual_densities(std::span<const double> luminance, VirtualFilm film) {
    if (!(film.slope >= 0.1 && film.slope <= 3))
        throw Error(Fault::usage, "slope of the virtual film", decimal(film.slope, 4), "0.1 to 3");
    if (!(film.range >= 0.1 && film.range <= kDensestNegative))
        throw Error(Fault::usage, "density range of the virtual film", decimal(film.range, 4), "0.1 to 4");
    const double gain = std::pow(10.0, film.range / film.slope) - 1;
    std::vector<NegativeDensity> densities;
    densities.reserve(luminance.size());
    for (const double each : luminance)
        densities.push_back({film.slope * std::log10(1 + gain * std::clamp(each, 0.0, 1.0))});
    return densities;
}

}  // namespace fogproof::negative
