// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The proof grid: small prints side by side as on a contact sheet, each on its own unexposed border, each
// beside a slip of the same paper that was only fixed.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "picture/picture_options.hpp"
#include "picture/profile.hpp"
#include "pixels/local_painter.hpp"
#include "pixels/sheet_fog.hpp"
#include "proof/panels.hpp"
#include "scan/scan.hpp"

namespace fogproof::picture {

struct GridCell {
    std::vector<Panel> panels;  ///< upright strips of one print, left to right, a fine line between them
    std::vector<std::string> caption;  ///< lines under the print, the first in bold
    std::string mark;                  ///< why this print has the rim; empty: it has none
};

/// Masks of local work, and the frame that they lie over in pixels of what is printed.
struct LocalMasks {
    std::shared_ptr<const Masks> masks{};
    Region frame{};
    int print_width = 0;  ///< of all that is printed
    /// The sheet that prints lie on, where it is fogged at its edges; borders are its own then.
    std::shared_ptr<const SheetFog> fog{};
};
[[nodiscard]] LocalMasks local_masks_of(const Scan&, std::shared_ptr<const Masks>,
                                        std::shared_ptr<const SheetFog> = {});

/// A print shown once more, larger where there is room.
struct LargePrint {
    std::string heading;
    GridCell cell;
};

/// Everything on the sheet, words included.
struct GridSheet {
    std::string title;
    std::vector<std::string> subtitle;  ///< lines
    std::vector<std::string> columns;   ///< headings; a second line after '\n' is set smaller
    std::vector<std::string> rows;
    std::vector<GridCell> cells;      ///< row by row
    std::vector<LargePrint> large{};  ///< under the others
    std::vector<std::string> legend;  ///< paragraphs
    LocalMasks local{};
};

struct GridLook {
    Rendering rendering = Rendering::absolute;
    int cell_pixels = 400;  ///< longer side of one print without its border
};

/// Draws and saves the sheet. One pass over the scan, whatever the number of cells, and one for large prints.
void render_grid(const Scan&, const GridSheet&, const GridLook&, const OutputProfile&, const PictureOptions&,
                 const std::filesystem::path& target);
/// The same into a file that the caller names when it is time.
void render_grid(const Scan&, const GridSheet&, const GridLook&, const OutputProfile&, const PictureOptions&,
                 WholeFile&);

}  // namespace fogproof::picture
