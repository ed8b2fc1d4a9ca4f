// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The section [departure] of a pack's file: coefficients by the list, not by the line.
#pragma once

#include <string>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"
#include "pack/toml_file.hpp"

namespace fogproof::pack {

/// Empty where the pack knows of none.
[[nodiscard]] std::string departure_section(const Pack&);
void read_departure(Pack&, const TomlSection&);

/// How far a paper departs from its laws, for people to read: log10 of exposure by which its curve lies off
/// at most, and the share by which its bleach does.
struct DepartureSize {
    double log_exposure, bleach_share;
};
[[nodiscard]] DepartureSize departure_size(const Pack&);

}  // namespace fogproof::pack
