// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A proof page that is small enough to be sent: its pictures are as large as there is room for.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "picture/grid.hpp"
#include "report/tray_section.hpp"

namespace fogproof::report {

inline constexpr std::size_t kMostPageBytes = 4'000'000;
inline constexpr int kLargePixels = 1200;  ///< longer side of the large print, where there is room

struct FittedPage {
    std::string text;
    std::vector<std::string> notes;  ///< what had to be smaller than usual
};

/// Small prints give way first, by stronger compression, then by size. The large print gives way where they
/// could not be made out otherwise. `pull`: when to pull the print with the mark, where that was worked out.
[[nodiscard]] FittedPage fitted_proof_page(const Scan&, const Printing&, const WorkedGrid&, const GridSheet&,
                                           const GridLook&, const OutputProfile&,
                                           std::optional<Interval> pull = std::nullopt);

}  // namespace fogproof::report
