// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/small_negative.hpp"

#include <algorithm>
#include <cmath>

#include "fogproof/base/error.hpp"
#include "scan/area_means.hpp"

namespace fogproof::scan {

std::vector<SmallNegative> small_negatives(const Scan& scan, std::span<const int> long_sides) {
    std::vector<double> transmittance;
    for (const NegativeDensity density : scan.scale())
        transmittance.push_back(std::pow(10.0, -density.value));
    std::vector<AreaValues> wanted;
    for (const int long_side : long_sides) wanted.push_back({transmittance, reduced_size(scan, long_side)});
    std::vector<SmallNegative> made;
    for (const std::vector<double>& means : area_means(*scan.pixels(), wanted)) {
        const PictureSize size = wanted[made.size()].size;
        SmallNegative small{size.width, size.height, {}};
        small.density.reserve(means.size());
        for (const double mean : means) small.density.push_back({-std::log10(mean)});
        made.push_back(std::move(small));
    }
    return made;
}

SmallNegative small_negative(const Scan& scan, int long_side) {
    return std::move(small_negatives(scan, std::span(&long_side, 1)).front());
}

std::vector<NegativeDensity> densities_in(const SmallNegative& small, const Scan& scan, const Region& lying) {
    const Region region = scan.as_turned(lying), frame = scan.frame();
    const double scale = double(small.width) / scan.width();
    const auto edge = [scale](int pixels, int most) {
        return std::clamp(int(std::lround(pixels * scale)), 0, most);
    };
    const int left = edge(region.left - frame.left, small.width),
              top = edge(region.top - frame.top, small.height);
    const int right = edge(region.left - frame.left + region.width, small.width),
              bottom = edge(region.top - frame.top + region.height, small.height);
    if (left >= right || top >= bottom) {
        const Region allowed = scan.as_lying(frame);
        throw Error(Fault::usage, "region", "lies outside of the frame, or is too small to be seen",
                    "inside " + std::to_string(allowed.left) + "," + std::to_string(allowed.top) + "," +
                        std::to_string(allowed.width) + "," + std::to_string(allowed.height));
    }
    std::vector<NegativeDensity> inside;
    for (int y = top; y < bottom; ++y) {
        const auto row = small.density.begin() + std::ptrdiff_t(y) * small.width;
        inside.insert(inside.end(), row + left, row + right);
    }
    return inside;
}

NegativeDensity mean_density(const SmallNegative& small, const Scan& scan, const Region& region) {
    const auto inside = densities_in(small, scan, region);
    double sum = 0;
    for (const NegativeDensity density : inside) sum += std::pow(10.0, -density.value);
    return {-std::log10(sum / double(inside.size()))};
}

}  // namespace fogproof::scan
