// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One way of working: by the options that were typed, else by the recipe's file, else by the settings of the
// darkroom.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <vector>

#include "cli/command_line.hpp"
#include "fogproof/print/recipe.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::cli {

struct RecipeOptions {
    std::string file, grade, exposure, bleach, toner;
    std::vector<std::string> split, flash;
    std::optional<double> restrainer, develop, dilution, redevelop;
    CommandLine line{};

    void add_to(CLI::App&);
    [[nodiscard]] Recipe recipe() const;
};

/// A recipe's own file, or a print that says how it was made; masks are looked for beside it.
[[nodiscard]] Recipe recipe_in_file(const std::string& file);

/// The local work of a recipe, for verbs that seek the rest of it.
struct LocalWorkOptions {
    std::string file;
    CommandLine line{};

    void add_to(CLI::App&);
    /// Nothing but the local work, with the head and the bath for which its seconds hold; an empty recipe
    /// without the option.
    [[nodiscard]] Recipe recipe() const;
    /// The bath of the print, where the pack's is this and `dilution` may be decided: that of the recipe
    /// where it brushes bleach on for seconds.
    [[nodiscard]] BleachBath bath(BleachBath, const Recipe& local,
                                  const std::optional<double>& dilution) const;
};

}  // namespace fogproof::cli
