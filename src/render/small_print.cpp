// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <array>
#include <cmath>
#include <vector>
#include <vips/vips8>

#include "fogproof/render/full_print.hpp"
#include "fogproof/table/print_table.hpp"
#include "render/area_means.hpp"
#include "render/coded_colours.hpp"
#include "render/picture_file.hpp"
#include "render/vips_session.hpp"

namespace fogproof {

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
    for (auto& each : light) each = area_means(scan, each, size);
    std::vector<Lab> colours;
    for (std::size_t i = 0; i < light[0].size(); ++i)
        colours.push_back(lab(XYZ{light[0][i], light[1][i], light[2][i]}));

    vips_ready();
    const auto coded = [&](std::span<const Lab> of) {
        return CodedColours(of, profile, options.bits, look.rendering, print.fixed_only().lab);
    };
    vips::VImage picture = coded(colours).image(size.width, size.height);
    const int border = int(std::lround(look.border * std::max(size.width, size.height)));
    if (border > 0) {
        const Lab paper = print.border().lab;
        picture = picture.embed(border, border, size.width + 2 * border, size.height + 2 * border,
                                vips::VImage::option()
                                    ->set("extend", VIPS_EXTEND_BACKGROUND)
                                    ->set("background", coded({&paper, 1}).image(1, 1).getpoint(0, 0)));
    }
    save_picture(picture, target, profile, options);
}

}  // namespace fogproof
