// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/patch_light.hpp"

#include <vector>

#include "base/quantile.hpp"
#include "reading/light_density.hpp"

namespace fogproof::reading {
namespace {

constexpr double kOutlier = 3.5;  // robust standard deviations; the usual limit for this rule

// As quantile(), but in shares of all values, so that 0.5 is the median; less than 1.
double share_below(std::vector<double> values, double share) {
    return in_order(values, std::size_t(share * double(values.size())));
}

// The light that dust, threads and scratches stay away from: 3.5 robust standard deviations about the median.
struct Usual {
    double low, high;
    explicit Usual(const std::vector<double>& light) {
        const double median = base::median(light);
        std::vector<double> apart;
        for (const double each : light) apart.push_back(std::abs(each - median));
        // Codes of 8 bit lie apart: where most pixels share one, the median distance is next to nothing, and
        // the middle 68 percent tell the spread.
        const double middle = (share_below(light, 0.84) - share_below(light, 0.16)) / 2;
        const double limit = kOutlier * std::max({kMadToSigma * base::median(apart), middle, 0.005 * median});
        low = median - limit, high = median + limit;
    }
    [[nodiscard]] bool holds(double light) const { return light >= low && light <= high; }
};

}  // namespace

PatchLight patch_light(const ReflectionImage& image, const StripPlace& place, double u0, double u1, double v0,
                       double v1) {
    double left = 1e300, right = -1e300, top = 1e300, bottom = -1e300;
    for (const auto& [x, y] : place.corners(u0, u1, v0, v1)) {
        left = std::min(left, x), right = std::max(right, x);
        top = std::min(top, y), bottom = std::max(bottom, y);
    }
    std::vector<double> light;
    std::vector<std::size_t> ninth;
    double clipped = 0;
    for (int y = std::max(0, int(top)); y < std::min(image.height, int(bottom) + 1); ++y)
        for (int x = std::max(0, int(left)); x < std::min(image.width, int(right) + 1); ++x) {
            const auto [u, v] = place.uv(x + 0.5, y + 0.5);
            if (u < u0 || u >= u1 || v < v0 || v >= v1) continue;
            light.push_back(image.light_at(x, y));
            clipped += image.clipped_at(x, y);
            const auto third = [](double part) { return std::min<std::size_t>(2, std::size_t(3 * part)); };
            ninth.push_back(3 * third((u - u0) / (u1 - u0)) + third((v - v0) / (v1 - v0)));
        }
    PatchLight made;
    if (light.empty()) return made;
    const Usual usual(light);
    double squares = 0;
    // A step that only noise makes uneven has even ninths: each is the median of many pixels.
    std::array<std::vector<double>, 9> ninths;
    for (std::size_t i = 0; i < light.size(); ++i) {
        if (!usual.holds(light[i])) continue;
        made.mean += light[i], squares += light[i] * light[i], ++made.count;
        ninths[ninth[i]].push_back(light[i]);
    }
    made.mean /= double(made.count);
    made.spread = std::sqrt(std::max(0.0, squares / double(made.count) - made.mean * made.mean));
    made.clipped = clipped / double(light.size());
    made.unusual = 1 - double(made.count) / double(light.size());
    double lightest = 1e-30, darkest = 1e300;
    for (auto& part : ninths) {
        if (part.empty()) continue;
        const double median = std::max(base::median(std::move(part)), kFaintestLight);
        lightest = std::max(lightest, median), darkest = std::min(darkest, median);
    }
    made.uneven = std::log10(lightest / darkest);
    return made;
}

}  // namespace fogproof::reading
