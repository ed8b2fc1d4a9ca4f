// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The part of a pack's file that a fit writes: its readings, what its numbers were before, how they err
// together.
#pragma once

#include <string>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"
#include "pack/toml_file.hpp"

namespace fogproof::pack {

/// "[readings]" and "[fit]"; empty for a pack that was never fitted.
[[nodiscard]] std::string fit_sections(const Pack&);
void read_readings(Pack&, const TomlSection&);
void read_fit(Pack&, const TomlSection&);
/// Refuses (Fault::config) names that are no numbers of the pack, numbers twice, and correlations that cannot
/// be.
void check_fit(const Pack&, const std::string& place);

}  // namespace fogproof::pack
