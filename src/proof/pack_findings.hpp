// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a report says of one pack, worked out for a great many packs that this one may be: by the silver path,
// but a range is read off the shares of grains at its two ends, which a filter's light reaches somewhere, not
// off a curve drawn for it.
#pragma once

#include <array>
#include <vector>

#include "fogproof/rooms.hpp"
#include "pack/worked_pack.hpp"

namespace fogproof::proof {

/// Amounts worth a line: up to what a printer would still call restrainer and not a cure. Judgement.
inline constexpr std::array kRestrainer_ml_l{5.0, 10.0, 20.0, 40.0, 80.0};
inline constexpr std::array kClearingPercents{50.0, 100.0, 150.0};

/// Not a number where there is none. Densities are visual, of blank sheets.
struct PackFindings {
    double fixed_only, blank, black, black_cleared;
    std::array<double, kRestrainer_ml_l.size()> restrained, stops_lost;
    std::array<double, kClearingPercents.size()> bleached, bleach_log_s;
    /// log10 exposures at the ends of an ISO range, over the threshold of the grains.
    struct Ends {
        double toe, shoulder;
        [[nodiscard]] double iso_range() const { return 100 * (shoulder - toe); }
    };
    struct Grade {
        Ends fresh, fogged, cleared;  ///< without fog, as the pack is, bleached clear
    };
    std::vector<Grade> grades;  ///< those of the worked pack
    double speed_log_s;         ///< at the anchor, for 0.60 above white, without fog
};

[[nodiscard]] PackFindings pack_findings(const WorkedPack&);
/// Sooner, of a pack that differs little from one whose findings are known.
[[nodiscard]] PackFindings pack_findings(const WorkedPack&, const PackFindings& about);

}  // namespace fogproof::proof
