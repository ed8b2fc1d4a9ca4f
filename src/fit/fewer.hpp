// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Some of many readings, for what is worked out many times over or only begun with.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// More readings are many: some of them begin the fit, and what is tried many times is tried on some.
/// Judgement.
inline constexpr std::size_t kMany = 2000;

/// About so many rows, rising: of every treatment, exposed or not, as many as of any other, so that the rare
/// ones stay whole. All where there are no more.
[[nodiscard]] std::vector<std::size_t> fewer_rows_of(std::span<const Reading>, const Pack& nominal,
                                                     std::size_t count);
/// Their readings.
[[nodiscard]] std::vector<Reading> fewer_of(std::span<const Reading>, const Pack& nominal, std::size_t count);

}  // namespace fogproof::fit
