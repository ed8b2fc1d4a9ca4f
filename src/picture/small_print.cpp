// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <array>
#include <cmath>
#include <vector>
#include <vips/vips8>

#include "picture/bordered.hpp"
#include "picture/colour_coder.hpp"
#include "picture/full_print.hpp"
#include "picture/picture_file.hpp"
#include "scan/area_means.hpp"
#include "table/print_table.hpp"

namespace fogproof::picture {

// The full-size print seen from afar: the eye, too, adds up light. One pass over the scan for each of X, Y
// and Z.
void render_small_print(const Scan& scan, const PrintModel& print, const PrintLook& look, int long_side,
                        const OutputProfile& profile, const PictureOptions& options,
                        const std::filesystem::path& target) {
    const PrintTable table(print, scan.scale());
    const PictureSize size = reduced_size(scan, long_side);
    std::array<std::vector<double>, 3> light;
    for (const Lab& colour : table.lab()) {
        const XYZ seen = xyz(colour);
        light[0].push_back(seen.x);
        light[1].push_back(seen.y);
        light[2].push_back(seen.z);
    }
    const auto pixels = scan.pixels();
    for (auto& each : light) each = area_means(*pixels, each, size);
    std::vector<Lab> colours;
    for (std::size_t i = 0; i < light[0].size(); ++i)
        colours.push_back(lab(XYZ{light[0][i], light[1][i], light[2][i]}));

    const ColourCoder coder(profile, look.rendering, print.fixed_only().lab, options.bits);
    const Lab paper = print.border().lab;
    const vips::VImage picture =
        bordered(image_of(coder.bytes(colours), size.width, size.height, coder.channels(), coder.bits()),
                 int(std::lround(look.border * std::max(size.width, size.height))), coder.bytes({&paper, 1}));
    save_picture(picture, target, profile, options);
}

}  // namespace fogproof::picture
