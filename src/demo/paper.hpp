// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The invented pack of the demo: what its owner knows of it, and the strips read off it.
#pragma once

#include <string>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::demo {

/// As its owner would write it down: two slips, a black, the head setting of the test, the rest assumed.
[[nodiscard]] Pack described_paper();
/// Densities of its test strips, a CSV file (RFC 4180): computed from a paper that differs from the described
/// one in what the owner does not know, with the scatter of a densitometer.
[[nodiscard]] std::string strip_readings();

}  // namespace fogproof::demo
