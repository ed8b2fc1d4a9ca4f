// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One way of working, from a recipe file and the options that override it.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <vector>

#include "fogproof/print/recipe.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::cli {

struct RecipeOptions {
    std::string file, grade, exposure, bleach;
    std::vector<std::string> split, flash;
    std::optional<double> restrainer, develop, dilution, redevelop;

    void add_to(CLI::App&);
    [[nodiscard]] Recipe recipe() const;
};

}  // namespace fogproof::cli
