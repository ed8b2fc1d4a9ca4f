// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Which curves of a pack are shown, and the curves themselves.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/print/working_curve.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::proof {

/// A way of working to be shown as a curve.
struct CurveRequest {
    std::string label;
    Recipe recipe;
};
struct LabelledCurve {
    std::string label;
    WorkingCurve curve;
};

/// "grade=3,restrainer=20,bleach=40s": any of grade, restrainer, develop, bleach, redevelop, toner, each
/// once. Throws Error(Fault::usage) with `place` in front.
[[nodiscard]] CurveRequest curve_request(std::string_view text, const std::string& place);
/// Shown when nothing is asked for: softest, middle and hardest grade, and the middle one bleached until the
/// blank is clear where the pack has fog.
[[nodiscard]] std::vector<CurveRequest> usual_curves(const Pack&);
[[nodiscard]] std::vector<LabelledCurve> worked_curves(const Pack&, std::span<const CurveRequest>);

}  // namespace fogproof::proof
