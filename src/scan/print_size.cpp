// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/print_size.hpp"

#include <algorithm>

#include "base/words.hpp"

namespace fogproof::scan {
namespace {

// Coarser resolutions stand in files by habit (72, 300 dpi) and tell nothing of the film. Judgement.
constexpr double kCoarsestOfFilm = 1000 / 25.4;  // pixels a millimetre
constexpr double kSlack = 1.05;                  // a tenth of a stop

}  // namespace

std::vector<std::string> size_warnings(const Scan& scan, const Pack& pack, const SheetLayout& sheet,
                                       std::optional<double> drawn_mm) {
    const auto per_mm = scan.pixels_per_mm();
    if (!per_mm || *per_mm < kCoarsestOfFilm) return {};
    const double magnification = pack.darkroom.enlarger.setting.magnification;
    const double length = magnification * std::max(scan.width(), scan.height()) / *per_mm;
    const auto as_drawn = [&](double drawn) {
        return "; give --magnification " + decimal(magnification * drawn / length, 1);
    };
    const bool is_told =
        pack.darkroom.anchored && pack.known("enlarger.magnification").origin != Origin::assumed;
    if (drawn_mm && is_told && std::max(length / *drawn_mm, *drawn_mm / length) > kSlack)
        return {"the picture is drawn " + decimal(*drawn_mm, 0) +
                " mm long, but all seconds are for magnification " + decimal(magnification, 2) +
                ", which makes it " + decimal(length, 0) + " mm long" + as_drawn(*drawn_mm) +
                " for a picture as drawn"};
    if (drawn_mm) return {};
    const FrameOnSheet frame = laid_on_sheet(sheet, scan.width(), scan.height());
    const double most = std::max(frame.width, frame.height);
    if (length <= kSlack * most) return {};
    return {"at magnification " + decimal(magnification, 2) + " the picture is " + decimal(length, 0) +
            " mm long, and a sheet of " + decimal(sheet.width, 1) + " x " + decimal(sheet.length, 1) +
            " mm with margins of " + decimal(sheet.margin, 1) + " mm takes " + decimal(most, 0) +
            " mm: all seconds are too long for a picture that fits" + as_drawn(most) +
            ", or another --sheet"};
}

}  // namespace fogproof::scan
