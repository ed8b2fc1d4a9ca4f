// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the printer has in the darkroom: sheets, trays, dilutions.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "fogproof/report/work_plan.hpp"

namespace fogproof::cli {

struct WorkOptions {
    std::string sheet = "240x300", tray;
    std::optional<double> litres, dilution;
    std::optional<int> sheets_left;
    WorkTerms usual;

    void add_to(CLI::App&);
    [[nodiscard]] WorkTerms terms() const;
};

}  // namespace fogproof::cli
