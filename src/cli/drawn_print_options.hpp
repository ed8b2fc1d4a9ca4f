// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What pictures of prints are made of: the options that `print` and `grid` share.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

#include "cli/console.hpp"
#include "cli/negative_options.hpp"
#include "cli/pack_options.hpp"
#include "cli/picture_options.hpp"
#include "cli/recipe_options.hpp"
#include "cli/sheet_options.hpp"
#include "fogproof/pack/pack.hpp"
#include "fogproof/print/recipe.hpp"
#include "fogproof/rooms.hpp"
#include "system/run_files.hpp"

namespace fogproof::cli {

struct DrawnPrintOptions {
    NegativeOptions negative;
    PackOptions pack;
    RecipeOptions recipe;
    SheetOptions sheet;
    PictureChoices picture;

    void add_to(CLI::App&);

    struct Taken {
        Recipe recipe;
        Pack pack;
        RunFiles files;                     ///< with all that is read
        std::vector<std::string> warnings;  ///< of the pack, said already, for answers that hold them
    };
    /// Recipe and pack from their files, with what there is to say of the pack; `negatives` are files that
    /// the verb itself reads.
    [[nodiscard]] Taken taken(const std::vector<std::string>& negatives, const Console&) const;
};

}  // namespace fogproof::cli
