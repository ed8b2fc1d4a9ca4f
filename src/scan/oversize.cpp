// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/oversize.hpp"

#include <algorithm>

#include "base/words.hpp"

namespace fogproof::scan {
namespace {

// Coarser resolutions stand in files by habit (72, 300 dpi) and tell nothing of the film. Judgement.
constexpr double kCoarsestOfFilm = 1000 / 25.4;  // pixels a millimetre
constexpr double kSlack = 1.05;                  // a tenth of a stop

}  // namespace

std::vector<std::string> oversize_warnings(const Scan& scan, const Enlarger& enlarger,
                                           const SheetLayout& sheet) {
    const auto per_mm = scan.pixels_per_mm();
    if (!per_mm || *per_mm < kCoarsestOfFilm) return {};
    const double magnification = enlarger.setting.magnification;
    const double length = magnification * std::max(scan.width(), scan.height()) / *per_mm;
    const FrameOnSheet frame = laid_on_sheet(sheet, scan.width(), scan.height());
    const double most = std::max(frame.width, frame.height);
    if (length <= kSlack * most) return {};
    return {"at magnification " + decimal(magnification, 2) + " the picture is " + decimal(length, 0) +
            " mm long, and a sheet of " + decimal(sheet.width, 1) + " x " + decimal(sheet.length, 1) +
            " mm with margins of " + decimal(sheet.margin, 1) + " mm takes " + decimal(most, 0) +
            " mm: all seconds are too long for a picture that fits; give --magnification " +
            decimal(magnification * most / length, 1) + ", or another --sheet"};
}

}  // namespace fogproof::scan
