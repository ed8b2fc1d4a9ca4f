// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The sheet that a print is made on, and how the picture lies on it.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <vector>

#include "choose/frame_on_sheet.hpp"
#include "cli/command_line.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::cli {

/// What a command looks at of the sheet.
enum class SheetUse { nothing, size, all };

/// Of a verb that asks for a sheet because packs may be fogged at its edges.
inline constexpr char kSheetGroup[] = "Sheet (for a pack with fog of the edges)";

struct SheetOptions {
    std::string sheet = "240x300";
    double margin = SheetLayout{}.margin;
    std::optional<int> turn;
    CommandLine line{};

    void add_to(CLI::App&, const std::string& group);
    [[nodiscard]] SheetLayout layout() const;
    [[nodiscard]] Laying laying() const;
    [[nodiscard]] bool is_told() const { return line.gives("--sheet"); }
    /// A note of those that were typed, but change nothing since the pack tells no fog of its edges.
    [[nodiscard]] std::vector<std::string> idle_notes(SheetUse) const;
};

/// "240x300" as so many lengths in millimetres.
[[nodiscard]] std::vector<double> lengths_in(const std::string& text, std::size_t count,
                                             const std::string& place);

}  // namespace fogproof::cli
