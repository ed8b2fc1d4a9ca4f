// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What reading and writing a pack file agree on beside the table of numbers.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::pack {

inline constexpr char kVersionKey[] = "fogproof_pack";
inline constexpr int kPackVersion = 1;
/// Far more than a pack with long notes and thousands of readings needs.
inline constexpr std::size_t kLargestFile = 8u << 20;
/// Keys that hold a word or a yes or no.
inline constexpr std::array<std::string_view, 7> kWordNames{
    "paper.contrast", "paper.surface", "edge_fog.map",  "restrainer.agent",
    "enlarger.head",  "anchor.known",  "anchor.carrier"};

}  // namespace fogproof::pack
