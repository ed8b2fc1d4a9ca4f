// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Redevelopment: bleached silver comes back, and its fog with it, as plain silver or as silver sulphide. What
// stays halide leaves in the fixer. Selenium works on the silver that no bleach took.
#pragma once

#include <cstddef>

#include "fogproof/base/quantity.hpp"
#include "fogproof/bleach/bleach.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::redevelop {

/// What the print goes into in place of a plain developer. Sulphide and thiourea both make silver sulphide of
/// what was bleached; selenium makes silver selenide of the silver that is there.
enum class Toner { none, sulphide, thiourea, selenium };
inline constexpr std::size_t kToners = 3;  ///< without none

/// How a toner works. Judgement until measured.
struct Toning {
    double covering = 1.0;  ///< density of toned silver over that of the silver it was
    double rise_s = 40.0;
    friend bool operator==(const Toning&, const Toning&) = default;
};

/// Judgement until measured.
struct Redevelopment {
    double covering = 1.0;  ///< kappa: density of silver given back over that of the silver it was
    double recoverable =
        1.0;  ///< y: share of the halide that can still be developed (0 once the print was fixed again)
    double rise_s = 25.0;  ///< tau_r
    /// Sepia returns within seconds and is full after 2 to 3 minutes (darkroom handbooks): four times rise_s.
    /// Prints for sepia are to be made slightly darker than others (US Army subcourse SS0509), so it covers
    /// less; by how much is judgement.
    Toning sulphide{0.88, 38}, thiourea{0.90, 38};
    /// Selenium is used for some two minutes to deepen the black (Amateur Photographer, "Darkroom toning
    /// tips"); how far it has come by then, and how much it deepens, is judgement.
    Toning selenium{1.05, 240};
    /// Layer density of which selenium takes half the share that it takes of the darkest; judgement, after
    /// the trade's rule that it works on the shadows first (common practice, no source).
    double selenium_lights = 0.15;
    friend bool operator==(const Redevelopment&, const Redevelopment&) = default;
};

/// Silver of the finished print by origin; each part has its own tone.
struct FinishedSilver {
    LayerDensity left;     ///< never bleached
    LayerDensity back;     ///< bleached and redeveloped
    LayerDensity gone;     ///< bleached and fixed away
    LayerDensity toned{};  ///< silver sulphide or selenide
    Toner toner = Toner::none;
};

/// A_back = kappa y (1 - e^(-t/tau_r)) (A - A_left).
/// Sulphide and thiourea: the same law with their own kappa and tau, and what comes back is toned.
/// Selenium: A_toned = kappa (1 - e^(-t/tau)) A^2 / (A + K) of the silver left. Its bath holds hypo (common
/// practice, no source), so that what the bleach took goes.
[[nodiscard]] FinishedSilver redeveloped(BleachedSilver, const Redevelopment&, Seconds, Toner = Toner::none);

/// Time where nobody tells one: none for the plain developer, as much as makes sepia complete, two minutes of
/// selenium. Sources at Redevelopment.
[[nodiscard]] Seconds usual_time(Toner);

}  // namespace fogproof::redevelop
