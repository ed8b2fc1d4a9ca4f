// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the printer saw on the real test strip, and where it is kept.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "choose/seen_band.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::cli {

struct SeenOptions {
    std::optional<int> band;  ///< as typed
    std::string readings;

    void add_to(CLI::App&);
    /// Throws Error(Fault::usage) where a file is named for a reading that is not made.
    void refuse_idle() const;
    /// The pack in today's light, or fitted to its own readings and this one.
    [[nodiscard]] static Pack told_by(const Pack&, const SeenBand&);
    /// Appends the reading to its file, if one is named.
    void keep(const SeenBand&, const std::string& scan) const;
};

}  // namespace fogproof::cli
