// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What `start` is asked, and what of it can be refused before a scan is read.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <vector>

#include "cli/decided_options.hpp"
#include "cli/negative_options.hpp"
#include "cli/pack_options.hpp"
#include "cli/picture_options.hpp"
#include "cli/recipe_options.hpp"
#include "cli/seen_options.hpp"
#include "cli/sheet_options.hpp"
#include "cli/target_options.hpp"
#include "fogproof/rooms.hpp"
#include "system/whole_file.hpp"

namespace fogproof::cli {

struct StartOptions {
    NegativeOptions negative;
    PackOptions pack;
    TargetOptions target;
    PictureChoices picture;
    DecidedOptions decided;
    LocalWorkOptions local;
    SheetOptions sheet;
    SeenOptions seen;
    std::string scan, ladder, rungs, strip, rescue, recipe;
    std::optional<double> dilution;
    double dry_down_percent = 0;
    bool json = false, propose = false;

    void add_to(CLI::App&);
    /// What can hardly be meant.
    [[nodiscard]] std::vector<std::string> doubts(const Pack&, std::optional<Seconds> overdone) const;
    /// Time in the bleach of a print that has been left in it too long.
    [[nodiscard]] std::optional<Seconds> overdone() const;
    /// Bleach times that the ladder is asked for; none: the usual ones.
    [[nodiscard]] std::vector<Seconds> ladder_times() const;
    [[nodiscard]] WholeFile::Replace replace() const;
    /// Refuses what can be refused before the scan is read.
    void check_files(const Recipe& local, const Pack&) const;
    /// A work can be proposed for the whole picture, once nothing else is asked.
    void require_alone() const;
};

}  // namespace fogproof::cli
