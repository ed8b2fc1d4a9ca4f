// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the printer has in the darkroom: sheets, trays, dilutions.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "cli/sheet_options.hpp"
#include "fogproof/rooms.hpp"
#include "proof/work_plan.hpp"

namespace fogproof::cli {

struct WorkOptions {
    SheetOptions sheet;
    std::string tray;
    std::optional<double> litres, dilution;
    std::optional<int> sheets_left;
    WorkTerms usual;
    CLI::Option *litres_option = nullptr, *tray_option = nullptr;  ///< what the command line gives wins

    void add_to(CLI::App&);
    [[nodiscard]] WorkTerms terms() const;
};

}  // namespace fogproof::cli
