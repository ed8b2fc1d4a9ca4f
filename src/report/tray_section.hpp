// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The large print of a proof page, which can be watched while it bleaches.
#pragma once

#include <optional>
#include <string>

#include "fogproof/print/working_curve.hpp"
#include "fogproof/rooms.hpp"
#include "picture/grid.hpp"
#include "proof/tray_ways.hpp"
#include "scan/light_pairs.hpp"

namespace fogproof::report {

/// What the page's large print needs beside the grid.
struct TrayPrint {
    Tray tray;
    LightPairs lights;
    Rendering rendering = Rendering::absolute;
    std::optional<Interval>
        pull{};          ///< of the print with the mark, in seconds, where its doubt was worked out
    LocalMasks local{};  ///< of the recipe; outlined, not shown
    std::vector<std::string> works{};  ///< their names
    std::optional<BathLayer> bath{};   ///< the yellow bath over the print
};

/// Of so many pixels on its longer side, where the scan has them. One pass over the scan.
[[nodiscard]] TrayPrint tray_print(const Scan&, const Printing&, const WorkedGrid&, Rendering, int long_side,
                                   const LocalMasks& = {});
/// Hidden until its script, kTrayScript, has unpacked it.
[[nodiscard]] std::string tray_section(const Printing&, const TrayPrint&);

}  // namespace fogproof::report
