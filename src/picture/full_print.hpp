// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A simulated print at the full size of its scan: every pixel looked up in the print's table.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>

#include "fogproof/print/print_model.hpp"
#include "fogproof/rooms.hpp"
#include "picture/local_print.hpp"
#include "picture/picture_options.hpp"
#include "picture/profile.hpp"
#include "picture/sheet_border.hpp"
#include "scan/scan.hpp"

namespace fogproof::picture {

struct PrintLook {
    Rendering rendering = Rendering::absolute;
    double border = 0.0;  ///< width of the unexposed border, share of the longer side of the picture
    std::optional<FrameOnSheet> whole_sheet{};  ///< in place of it: the sheet to its edges
    std::shared_ptr<const SheetFog> fog{};      ///< where the sheet is fogged at its edges
    [[nodiscard]] BorderWidths widths(int picture_width, int picture_height) const;
    /// Throws Error(Fault::usage) for a border that is wider than the margin of a sheet whose edges count.
    void refuse_beyond_sheet(int picture_width, int picture_height) const;
};

/// Pixels per millimetre of the print: from its longer side in millimetres if that is given, else from the
/// resolution of the scan and the magnification; 300 dpi when neither is known.
[[nodiscard]] double print_resolution(const Scan&, std::optional<double> long_side_mm, double magnification);

/// Draws and saves one print in a single pass over the scan; with its local work, where it has some.
void render_print(const Scan&, const PrintModel&, const PrintLook&, const OutputProfile&,
                  const PictureOptions&, const std::filesystem::path& target,
                  const LocalPrint* local = nullptr);
/// The same made small: the mean of the light that the full-size print reflects, its longer side `long_side`
/// pixels or the scan's own number if smaller.
void render_small_print(const Scan&, const PrintModel&, const PrintLook&, int long_side, const OutputProfile&,
                        const PictureOptions&, const std::filesystem::path& target,
                        const LocalPrint* local = nullptr);

}  // namespace fogproof::picture
