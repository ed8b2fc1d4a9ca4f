// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The starting point of a negative on a pack, in words for the darkroom and as JSON for scripts.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "choose/edge_advice.hpp"
#include "choose/proposed_work.hpp"
#include "choose/pull.hpp"
#include "choose/rescue.hpp"
#include "choose/seen_band.hpp"
#include "choose/starting_point.hpp"
#include "choose/strip_place.hpp"
#include "choose/wanted.hpp"
#include "fogproof/rooms.hpp"
#include "pixels/level_grid.hpp"

namespace fogproof::report {

struct StartRequest {
    std::string negative;                ///< its name
    std::string target = "fresh paper";  ///< what was wanted, in words
    double dry_down = 0;                 ///< share by which an exposure chosen on a wet strip is too long
    TestStripPlace strip;
    std::optional<WantedEnds> ends{};        ///< of a goal that is no fresh print
    std::optional<TellingPlace> telling{};   ///< where the print tells that it is time to pull
    std::optional<SeenBand> seen{};          ///< of the real strip; all else is told with it
    std::vector<std::string> warnings{};     ///< on the scan and the options
    double degrees_turned = 0;               ///< clockwise, of the scan to set its frame upright
    std::vector<Touched> touched{};          ///< by each local work
    std::optional<EdgeAdvice> edges{};       ///< where the sheet is fogged at its edges
    bool sought_work = false;                ///< a burn or dodge was asked for
    std::optional<ProposedWork> proposed{};  ///< and found; the points are those of prints with it
};

/// "37 s (30 to 45 s)", or stops from full black without an anchor.
[[nodiscard]] std::string start_text(const Printing&, const StartingPoints&, const StartRequest&);
/// best and by_grade hold exposure_s, exposure_s_low, exposure_s_high, grade, restrainer_ml_l, develop_s,
/// bleach_s, bleach_s_low, bleach_s_high, dilution; lightness_error, rms L* from what is wanted, as expected
/// of the first sheet with every doubt, with _low and _high, and _after_strip; lightness_error_as_described,
/// if the paper is exactly as the pack says. Seconds of exposure are null on a pack without an anchor;
/// unbleached is null where a bleach was decided.
[[nodiscard]] std::string start_json(const Printing&, const StartingPoints&, const StartRequest&);

/// Of a print as it was made: a table of what redevelopment brings back, and the time to choose.
[[nodiscard]] std::string rescue_text(const Printing&, const Proof& made, const Rescue&, const StartRequest&);
[[nodiscard]] std::string rescue_json(const Printing&, const Proof& made, const Rescue&, const StartRequest&);

}  // namespace fogproof::report
