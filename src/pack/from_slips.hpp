// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A first description of a pack from two slips of it: one only fixed, one developed without exposure.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::pack {

/// The base as the eye names it.
enum class Tint { neutral, cold, warm };
/// The base as an instrument reads it, CIELAB under D50.
struct TintReading {
    double a, b;
};

struct Slips {
    double white_density = 0.0;             ///< only fixed
    double blank_density = 0.0;             ///< developed unexposed, nominal development, no restrainer
    std::optional<double> black_density{};  ///< fully exposed and developed
    Surface surface = Surface::gloss;
    Contrast contrast = Contrast::variable;
    std::optional<double> grade{};      ///< of a graded paper, as its label says
    std::optional<double> iso_range{};  ///< the same as a range; only one of the two
    std::optional<std::variant<Tint, TintReading>> tint{};
    std::optional<std::string> name{};
    RestrainerAgent restrainer_agent = RestrainerAgent::unknown;
    std::optional<double> restrainer_stock_percent{};  ///< g of agent in 100 ml of the restrainer stock
    std::optional<double> ferricyanide_g_l{};          ///< in the bleach's concentrate
    Head head = Head::unknown;
};

/// Densities count as measured, what the label or the eye says as given, everything else as assumed.
/// Throws Error(Fault::usage) on values outside their range or words that exclude each other, and
/// Error(Fault::config) on slips that contradict each other.
[[nodiscard]] Pack pack_from_slips(const Slips&);

/// What looks like a slip of the pen or of an instrument, each in a sentence.
[[nodiscard]] std::vector<std::string> slip_doubts(const Slips&);

}  // namespace fogproof::pack
