// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How pictures are saved: the options that every command drawing pictures shares.
#pragma once

#include <CLI/CLI.hpp>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "cli/command_line.hpp"
#include "cli/console.hpp"
#include "fogproof/rooms.hpp"
#include "fogproof/sheet/sheet.hpp"
#include "picture/picture_options.hpp"
#include "picture/profile.hpp"

namespace fogproof::cli {

struct PictureChoices {
    std::string profile = "srgb", rendering = "absolute", view = "dry";
    int bits = 0, quality = 95;
    bool compress = false, force = false, verify = false;
    double bath_depth_mm = BathLayer{}.depth_mm;
    CommandLine line{};

    void add_to(CLI::App&);
    [[nodiscard]] Rendering chosen_rendering() const;
    [[nodiscard]] bool is_under_bath() const;
    /// The bath to look through, if any, at a working strength in g/L.
    [[nodiscard]] std::optional<BathLayer> bath(double ferricyanide_g_l) const;
    /// Options for a target; `usual_bits` where neither --bits nor the format says otherwise.
    [[nodiscard]] PictureOptions options(const std::string& target, int usual_bits) const;
    /// A note for each option that was typed and changes nothing in this picture.
    [[nodiscard]] std::vector<std::string> idle_notes(const std::filesystem::path& target) const;
    /// A note of those that were typed where no picture is drawn; `drawn_by` says what would draw one.
    [[nodiscard]] std::vector<std::string> undrawn_notes(const std::string& drawn_by) const;
};

/// What the picture at `target` will say about itself; what its format has no room for is left out with a
/// note.
[[nodiscard]] Description described(const std::vector<Description>& parts,
                                    const std::filesystem::path& target, const Console&);

}  // namespace fogproof::cli
