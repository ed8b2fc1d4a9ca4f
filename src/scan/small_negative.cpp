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

namespace {

// Pixels of a small picture, right and bottom not included.
struct SmallPart {
    int left, top, right, bottom;
    [[nodiscard]] bool is_empty() const { return left >= right || top >= bottom; }
};

// What is seen of a region of the print within the frame.
SmallPart within_frame(const SmallNegative& small, const Scan& scan, const Region& in_print) {
    const Region frame = scan.frame_in_print();
    const double scale = double(small.width) / scan.width();
    const auto edge = [scale](int pixels, int least, int most) {
        return int(std::lround(std::clamp(pixels, least, most) * scale));
    };
    const int right = frame.left + frame.width, bottom = frame.top + frame.height;
    return {edge(in_print.left, frame.left, right), edge(in_print.top, frame.top, bottom),
            std::min(edge(in_print.left + in_print.width, frame.left, right), small.width),
            std::min(edge(in_print.top + in_print.height, frame.top, bottom), small.height)};
}

std::vector<NegativeDensity> densities_of(const SmallNegative& small, const SmallPart& part) {
    std::vector<NegativeDensity> inside;
    for (int y = part.top; y < part.bottom; ++y) {
        const auto row = small.density.begin() + std::ptrdiff_t(y) * small.width;
        inside.insert(inside.end(), row + part.left, row + part.right);
    }
    return inside;
}

}  // namespace

SmallNegative frame_of(const SmallNegative& small, const Scan& scan) {
    const SmallPart part = within_frame(small, scan, scan.frame_in_print());
    return {part.right - part.left, part.bottom - part.top, densities_of(small, part)};
}

std::vector<NegativeDensity> densities_in(const SmallNegative& small, const Scan& scan, const Region& lying) {
    const SmallPart part = within_frame(small, scan, scan.in_print(scan.as_turned(lying)));
    if (part.is_empty()) {
        const Region allowed = scan.as_lying(scan.frame());
        throw Error(Fault::usage, "region", "lies outside of the frame, or is too small to be seen",
                    "inside " + std::to_string(allowed.left) + "," + std::to_string(allowed.top) + "," +
                        std::to_string(allowed.width) + "," + std::to_string(allowed.height));
    }
    return densities_of(small, part);
}

NegativeDensity mean_density(const SmallNegative& small, const Scan& scan, const Region& region) {
    const auto inside = densities_in(small, scan, region);
    double sum = 0;
    for (const NegativeDensity density : inside) sum += std::pow(10.0, -density.value);
    return {-std::log10(sum / double(inside.size()))};
}

}  // namespace fogproof::scan
