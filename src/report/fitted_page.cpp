// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/fitted_page.hpp"

#include <algorithm>
#include <cmath>

#include "picture/cell_pictures.hpp"
#include "report/proof_page.hpp"

namespace fogproof::report {
namespace {

constexpr std::size_t kWordBytes = 100'000;     // page without pictures, about
constexpr std::size_t kLeastCellBytes = 9'000;  // a small print of some 250 pixels, as base64
constexpr int kLeastCellPixels = 200, kLeastLargePixels = 400;
constexpr int kStrongQuality = 70;  // JPEG: seams show under the glass, not beside it
constexpr int kUsualCellPixels = 400;

// By how much a side must shrink for its picture to fit, and a little more.
double shrunk(double room, double bytes) {
    return std::min(0.9, 0.97 * std::sqrt(std::max(room, 1.0) / bytes));
}

std::size_t base64_bytes(std::span<const CellPicture> pictures) {
    std::size_t bytes = 0;
    for (const CellPicture& picture : pictures) bytes += (picture.jpeg.size() + 2) / 3 * 4;
    return bytes;
}

}  // namespace

FittedPage fitted_proof_page(const Scan& scan, const Printing& printing, const WorkedGrid& grid,
                             const GridSheet& sheet, const GridLook& look, const OutputProfile& profile,
                             std::optional<Interval> pull) {
    FittedPage fitted;
    const int most_pixels = std::min(kLargePixels, std::max(scan.width(), scan.height()));
    const auto section_of = [&](int pixels) {
        TrayPrint large = tray_print(scan, printing, grid, look.rendering, pixels, sheet.local);
        large.pull = pull;
        return tray_section(printing, large);
    };
    const std::size_t for_cells = sheet.cells.size() * kLeastCellBytes + kWordBytes;
    int pixels = most_pixels;
    std::string section = section_of(pixels);
    while (section.size() + for_cells > kMostPageBytes && pixels > kLeastLargePixels) {
        const double room = double(kMostPageBytes) - double(std::min(for_cells, kMostPageBytes));
        pixels = std::max(kLeastLargePixels, int(pixels * shrunk(room, double(section.size()))));
        section = section_of(pixels);
    }
    if (pixels < most_pixels)
        fitted.notes.push_back("its page holds the large print at " + std::to_string(pixels) +
                               " pixels instead of " + std::to_string(most_pixels) +
                               ", so that it stays under 4 MB");

    GridLook small = look;
    int quality = kCellQuality;
    while (true) {
        const auto pictures = cell_pictures(scan, sheet.cells, small, profile, sheet.local, quality);
        fitted.text = proof_page(printing, grid, sheet, section, pictures);
        if (fitted.text.size() <= kMostPageBytes || small.cell_pixels <= kLeastCellPixels) break;
        const auto bytes = double(base64_bytes(pictures));
        const double room = double(kMostPageBytes) - (double(fitted.text.size()) - bytes);
        constexpr double kSaved = 0.65;  // of the bytes, left by the stronger compression
        const double left = quality == kStrongQuality ? bytes : kSaved * bytes;
        if (left > room || quality == kStrongQuality)
            small.cell_pixels = std::max(kLeastCellPixels, int(small.cell_pixels * shrunk(room, left)));
        quality = kStrongQuality;
    }
    if (small.cell_pixels < std::min(look.cell_pixels, kUsualCellPixels))
        fitted.notes.push_back("its page holds the small prints at " + std::to_string(small.cell_pixels) +
                               " pixels, so that it stays under 4 MB");
    return fitted;
}

}  // namespace fogproof::report
