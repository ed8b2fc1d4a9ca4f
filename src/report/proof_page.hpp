// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The proof grid as one self-contained page: prints that can be enlarged, curves, the negative against the
// paper. Needs no network; readable with keyboard, screen reader and on paper.
#pragma once

#include <span>
#include <string>

#include "fogproof/rooms.hpp"
#include "picture/cell_pictures.hpp"
#include "proof/worked_grid.hpp"
#include "report/tray_section.hpp"

namespace fogproof::report {

/// Longer side of a print that a page asks for, in pixels, for a grid whose cells are so large: enough for
/// the glass to show more than the eye sees beside it.
[[nodiscard]] int page_cell_pixels(int grid_cell_pixels);

/// The large print, which can be watched while it bleaches, and one picture for each cell of the grid, in its
/// order.
[[nodiscard]] std::string proof_page(const Printing&, const WorkedGrid&, const GridSheet&,
                                     const std::string& large, std::span<const CellPicture>);

}  // namespace fogproof::report
