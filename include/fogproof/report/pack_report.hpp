// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a pack of paper can do, in words and numbers: its whites and how to come by them, its contrast with
// and without fog, and which of its numbers anybody measured.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/print/working_curve.hpp"

namespace fogproof {

/// A way of working to be shown as a curve.
struct CurveRequest {
    std::string label;
    Recipe recipe;
};
struct LabelledCurve {
    std::string label;
    WorkingCurve curve;
};

/// "grade=3,restrainer=20,bleach=40s": any of grade, restrainer, develop, bleach, redevelop, each once.
/// Throws Error(Fault::usage) with `place` in front.
[[nodiscard]] CurveRequest curve_request(std::string_view text, const std::string& place);
/// Shown when nothing is asked for: softest, middle and hardest grade, and the middle one bleached until the
/// blank is clear where the pack has fog.
[[nodiscard]] std::vector<CurveRequest> usual_curves(const Pack&);
[[nodiscard]] std::vector<LabelledCurve> worked_curves(const Pack&, std::span<const CurveRequest>);

/// A page of text, lines of at most 100 columns.
[[nodiscard]] std::string pack_text(const Pack&);
/// The same as JSON, with the curves and what is to be warned of.
[[nodiscard]] std::string pack_json(const Pack&, std::span<const LabelledCurve>,
                                    const std::vector<std::string>& warnings = {});

}  // namespace fogproof
