// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// `start --local`: the burn or dodge that would gain most, and the mask beside its recipe.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "choose/proposed_work.hpp"
#include "fogproof/print/recipe.hpp"
#include "fogproof/rooms.hpp"
#include "pixels/local_painter.hpp"
#include "pixels/sheet_fog.hpp"
#include "scan/scan.hpp"
#include "scan/small_negative.hpp"
#include "system/output_set.hpp"
#include "system/run_files.hpp"

namespace fogproof::cli {

/// RECIPE-burn.png or RECIPE-dodge.png beside the recipe's file; empty without one.
[[nodiscard]] std::string proposed_mask_file(const std::string& recipe, LocalWork::Kind);
/// Both may be written.
void declare_proposed_masks(RunFiles&, const std::string& recipe, WholeFile::Replace);

struct Proposed {
    ProposedWork work;
    StartingPoints points;  ///< of prints with it
    std::shared_ptr<const Masks> masks;
};
/// Nothing where no work is worth it. The printing counts the mask's places from then on.
[[nodiscard]] std::optional<Proposed> proposed(Printing&, const Wanted&, const SearchBounds&,
                                               const StartingPoints& without, const Scan&,
                                               const SmallNegative&, const SheetFog* fog,
                                               const std::string& recipe);

}  // namespace fogproof::cli
