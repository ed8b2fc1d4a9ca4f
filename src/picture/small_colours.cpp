// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/small_colours.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "pixels/painted_sums.hpp"
#include "table/print_table.hpp"

namespace fogproof::picture {
namespace {

// Light that a print sends back, as samples of 16 bits.
constexpr double kFullLight = 65535;

std::vector<std::uint16_t> light_codes(std::span<const Lab> colours) {
    std::vector<std::uint16_t> codes;
    codes.reserve(3 * colours.size());
    for (const Lab& colour : colours) {
        const XYZ seen = xyz(colour);
        for (const double light : {seen.x, seen.y, seen.z})
            codes.push_back(std::uint16_t(std::lround(kFullLight * std::clamp(light, 0.0, 1.0))));
    }
    return codes;
}

// Of light as X, Y and Z.
std::vector<Lab> colours_of(std::span<const std::vector<double>> light) {
    std::vector<Lab> colours;
    for (std::size_t i = 0; i < light[0].size(); ++i)
        colours.push_back(lab(XYZ{light[0][i], light[1][i], light[2][i]}));
    return colours;
}

std::vector<Lab> plain_colours(const Scan& scan, const PrintModel& print, PictureSize size) {
    const PrintTable table(print, scan.scale());
    std::array<std::vector<double>, 3> light;
    for (const Lab& colour : table.lab()) {
        const XYZ seen = xyz(colour);
        light[0].push_back(seen.x);
        light[1].push_back(seen.y);
        light[2].push_back(seen.z);
    }
    const AreaValues wanted[] = {{light[0], size}, {light[1], size}, {light[2], size}};
    return colours_of(area_means(*scan.pixels(), wanted));
}

// The same of a print whose pixels are drawn one by one.
std::vector<Lab> local_colours(const Scan& scan, const LocalPrint& print, PictureSize size) {
    const Region frame = scan.frame_in_print();
    const LocalPainter painter(print.table, print.masks, {frame.left, frame.top, frame.width, frame.height},
                               {PackedTable(light_codes(PrintTable(print.places, scan.scale()).lab()), 3),
                                print.full, light_codes(print.table->nodes())},
                               print.table->transmitted(scan.scale()));
    const auto pixels = scan.pixels();
    const double area = double(pixels->width()) / size.width * (double(pixels->height()) / size.height);
    const std::vector<double> sums =
        painted_sums(*pixels, painter, fractional_cells(pixels->width(), size.width),
                     fractional_cells(pixels->height(), size.height));
    std::array<std::vector<double>, 3> light;
    for (std::size_t i = 0; i < sums.size(); ++i) light[i % 3].push_back(sums[i] / (area * kFullLight));
    return colours_of(light);
}

}  // namespace

std::vector<Lab> small_colours(const Scan& scan, const PrintModel& print, PictureSize size,
                               const LocalPrint* local) {
    return local ? local_colours(scan, *local, size) : plain_colours(scan, print, size);
}

}  // namespace fogproof::picture
