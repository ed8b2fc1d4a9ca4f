// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What may be done to a sheet: the same limits for recipes, readings and options. Judgement, wide enough for
// odd darkrooms.
#pragma once

#include "fogproof/rooms.hpp"
#include "pack/toml_file.hpp"

namespace fogproof::pack {

inline constexpr Limits kMagnificationLimits{0.05, 100, ""};
inline constexpr Limits kFNumberLimits{1, 128, ""};
inline constexpr Limits kLightLimits{-3, 3, "stops"};  // more is another enlarger's; judgement
inline constexpr Limits kRestrainerLimits{0, 500, "ml/L"};
inline constexpr Limits kDevelopmentLimits{0, 1800, "s"};
inline constexpr Limits kBleachTimeLimits{0, 7200, "s"};
inline constexpr Limits kClearingLimits{0, 1000, "%"};  // of the dose that clears the blank
inline constexpr Limits kBleachPartsLimits{0, 1000, ""};
inline constexpr Limits kRedevelopmentLimits{0, 1800, "s"};

}  // namespace fogproof::pack
