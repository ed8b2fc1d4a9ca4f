// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/mask_picture.hpp"

#include <algorithm>
#include <cmath>
#include <vector>
#include <vips/vips8>

#include "picture/canvas.hpp"
#include "picture/picture_file.hpp"
#include "picture/small_colours.hpp"

namespace fogproof::picture {

namespace {

double lightness_at(const FaintPicture& under, double x, double y) {
    const auto cell = [](double at, int cells) { return std::clamp(int(at * cells), 0, cells - 1); };
    const int column = cell(std::lerp(under.left, under.right, x), under.width),
              row = cell(std::lerp(under.top, under.bottom, y), under.height);
    return under.lightness[std::size_t(row) * std::size_t(under.width) + std::size_t(column)];
}

}  // namespace

FaintPicture faint_picture(const Scan& scan, const PrintModel& print, int long_side) {
    const PictureSize size = reduced_size(scan, long_side);
    const Region frame = scan.frame_in_print();
    const double width = scan.width(), height = scan.height();
    FaintPicture faint{size.width,
                       size.height,
                       {},
                       frame.left / width,
                       frame.top / height,
                       (frame.left + frame.width) / width,
                       (frame.top + frame.height) / height};
    for (const Lab& colour : small_colours(scan, print, size))
        faint.lightness.push_back(float(std::clamp(colour.l / 100, 0.0, 1.0)));
    return faint;
}

SmallPicture mask_jpeg(const LevelGrid& mask, int long_side, const FaintPicture& under) {
    // Codes of 8 bits: of paper's white and black where nothing is done, and how much of them full work
    // takes.
    constexpr double kWhite = 245, kBlack = 165, kTaken = 0.75;
    const double scale = double(long_side) / std::max(mask.width, mask.height);
    SmallPicture small{{},
                       std::max(1, int(std::lround(mask.width * scale))),
                       std::max(1, int(std::lround(mask.height * scale)))};
    const OutputProfile profile = OutputProfile::named("grey");
    const std::vector<std::uint16_t> nothing{std::uint16_t(kWhite * 257)};
    Canvas canvas(small.width, small.height, profile.channels(), 8, nothing);
    std::vector<std::uint16_t> line(std::size_t(small.width));
    for (int y = 0; y < small.height; ++y) {
        for (int x = 0; x < small.width; ++x) {
            const double across = (x + 0.5) / small.width, down = (y + 0.5) / small.height;
            const double ground = kBlack + (kWhite - kBlack) * lightness_at(under, across, down);
            line[std::size_t(x)] =
                std::uint16_t(257 * std::lround(ground * (1 - kTaken * mask.at(across, down))));
        }
        canvas.paste({0, y, small.width, 1}, line);
    }
    PictureOptions options;
    options.bits = 8;
    small.jpeg = jpeg_bytes(canvas.picture(), profile, options);
    return small;
}

}  // namespace fogproof::picture
