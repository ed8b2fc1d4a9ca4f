// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the printer has decided of a recipe before the rest is sought.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "choose/recipe_search.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::cli {

struct DecidedOptions {
    std::string grade, bleach, toner;
    std::optional<double> restrainer, develop, most_restrainer;
    bool no_bleach = false;

    void add_to(CLI::App&);
    /// The bounds with everything decided in them. Refuses two answers to one question.
    [[nodiscard]] SearchBounds kept_in(SearchBounds) const;
    /// Refuses a toner that works on what the bleach took where no bleach is decided.
    [[nodiscard]] Toner decided_toner() const;
    /// The decided amounts as a recipe, to be asked whether they can be meant.
    [[nodiscard]] Recipe recipe() const;
};

}  // namespace fogproof::cli
