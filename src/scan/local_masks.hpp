// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The masks of a recipe, laid over the frame of one scan.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "choose/printing.hpp"
#include "fogproof/print/recipe.hpp"
#include "fogproof/rooms.hpp"
#include "pixels/local_painter.hpp"
#include "pixels/sheet_fog.hpp"
#include "scan/scan.hpp"

namespace fogproof::scan {

/// What a picture of levels is called in messages, over what it lies, and what its white says.
struct LevelWords {
    const char *picture = "mask", *over = "the frame", *white = "white where the work is done";
    bool either_way = false;  ///< may lie on its side
};

/// The levels of one mask over a frame of these proportions. Throws Error(no_input) for a picture that is not
/// there, Error(data) for one that is no mask of this frame: no grey of 8 or 16 bits, of other proportions,
/// black everywhere.
[[nodiscard]] LevelGrid picture_levels(const std::string& path, int frame_width, int frame_height,
                                       double max_pixels = kUsualMaxPixels, const LevelWords& = {});
/// One for each local work, in their order, and behind them the fog of the sheet, where it has some. Throws
/// as picture_levels() does, and Error(data) for a shape that lies outside of the frame.
[[nodiscard]] Masks local_masks(const Recipe&, const Scan&, const SheetFog* = nullptr);
/// The frame's tones by the places that masks tell apart. One pass over it.
[[nodiscard]] PlacedTones placed_tones(const Scan&, std::shared_ptr<const Masks>);
/// One sentence for each burn or dodge of the recipe whose rim is sharper than a moving hand or card leaves
/// it.
[[nodiscard]] std::vector<std::string> rim_warnings(const Recipe&, const Masks&);
/// One sentence where dodges hold back the whole exposure or more: nothing is left to hold back there.
[[nodiscard]] std::vector<std::string> dodge_warnings(const PrintSteps&, const Masks&);
/// Paths of all masks that are pictures.
[[nodiscard]] std::vector<std::string> mask_files(const Recipe&);

}  // namespace fogproof::scan
