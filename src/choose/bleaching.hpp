// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What one print asks of the bleach: silver for the bath to take up, and how exact its time must be.
#pragma once

#include "choose/printing.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// A picture on its sheet, millimetres.
struct SheetLayout {
    double width = 240, length = 300;  ///< of the sheet
    double margin = 10;                ///< least white border on every side

    [[nodiscard]] double area_m2() const { return width * length / 1e6; }
    /// Area of the largest picture of an aspect (long side over short or the inverse) inside the margins.
    [[nodiscard]] double picture_m2(double aspect) const;
};

/// Mean silver that the bleach takes, as layer density: over the picture's exact tones, and in the border.
struct LostSilver {
    LayerDensity picture, border;
};
[[nodiscard]] LostSilver lost_silver(const Printing&, const Proof&);
/// Grams of it on one sheet.
[[nodiscard]] double lost_silver_g(const LostSilver&, const SheetLayout&, double aspect);

/// How far the finished print moves when it is bleached for another time: rms L* over the frame, or L* of the
/// border where that is more.
[[nodiscard]] double bleached_otherwise(const Printing&, const Proof&, Seconds);

/// Times between which a print moves by no more than a tolerance in L*.
struct BleachLatitude {
    Seconds shortest, longest;
};
[[nodiscard]] BleachLatitude bleach_latitude(const Printing&, const Proof&, double tolerance);

}  // namespace fogproof::choose
