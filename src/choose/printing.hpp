// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Printing one negative on one pack: everything that can be asked about a print before it is made.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "choose/fresh_target.hpp"
#include "choose/starting_exposure.hpp"
#include "choose/todays_light.hpp"
#include "choose/tonal_extent.hpp"
#include "choose/wanted_tones.hpp"
#include "enlarger/frame_light.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/recipe.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// A recipe worked out for this negative on this pack.
struct Proof {
    Recipe recipe;
    PrintSteps steps;
    std::vector<Seconds> exposures;  ///< of each exposure of the recipe, at the enlarger's setting
    /// All exposures together, in stops from the shortest of the same proportions for full black through
    /// clear film.
    double black_stops;
    std::vector<double> own_black_stops;     ///< each exposure, from the shortest time through its own filter
    Seconds bleach;                          ///< in the bath
    std::optional<double> clearing_percent;  ///< of the clearing dose; nothing where there is no fog
    double iso_range;                        ///< of the finished curve; 0 where it is too short to have one
    TonalExtent extent;
    double lightness_error;  ///< PrintMiss of the fresh print
    double seen_error;       ///< the same as an eye sees it
};

/// The tones of a frame by the places that its masks tell apart, and of each place the levels of all masks.
struct PlacedTones {
    Tones tones;
    std::vector<std::vector<double>> levels;
};

class Printing {
  public:
    /// The fresh print is of a grade that suits the frame, or of the one asked for.
    Printing(Pack, Tones frame, std::optional<double> fresh_grade = std::nullopt);

    /// From now on local work and the fog of the sheet's edges are counted: by the figures of a proof, and
    /// the fog by starting exposures as well.
    void count_places(const PlacedTones&);
    /// What is wanted of tones, as so much of each place as has them, where the places that are counted are
    /// treated by these steps, or are fogged. As it stands where they are neither.
    [[nodiscard]] Wanted in_places(const Wanted&, const PrintSteps&) const;

    /// From now on searches look for prints that go into a toner in the end.
    void decide(Toner toner) { toner_ = toner; }
    [[nodiscard]] Toner toner() const { return toner_; }

    /// From now on all doubts are those of today's light, in which the pack stands already (in_light()).
    void print_in(const TodaysLight& today) { today_ = today; }
    [[nodiscard]] const std::optional<TodaysLight>& today() const { return today_; }

    [[nodiscard]] const Pack& pack() const { return pack_; }
    [[nodiscard]] const PaperModel& paper() const { return paper_; }
    [[nodiscard]] const Tones& frame() const { return frame_; }
    [[nodiscard]] const FrameLight& light() const { return light_; }
    /// The frame's tones as searches look at them, gathered into bins.
    [[nodiscard]] const std::vector<Tone>& tones() const { return tones_; }
    [[nodiscard]] const FreshTarget& target() const { return target_; }

    /// The print that fresh paper would have given, as what is wanted.
    [[nodiscard]] Wanted fresh() const;
    /// Where the recipe's exposures in stops start for what is wanted.
    [[nodiscard]] Seconds starting_exposure(const Recipe&, const Wanted&) const;

    /// Works a recipe out; exposures given in stops count from `start`, or from the recipe's own starting
    /// exposure for the fresh print.
    [[nodiscard]] Proof proof(const Recipe&, std::optional<Seconds> start = std::nullopt) const;
    /// The same exposed for these very times, on any pack; the recipe's own amounts are put aside.
    [[nodiscard]] Proof timed_proof(const Recipe&, std::span<const Seconds>) const;
    /// ISO range of the paper before it fogged, through the pack's own filter for a grade; nothing where its
    /// curve is too short to have one.
    [[nodiscard]] std::optional<double> unfogged_range(double grade) const;
    /// The print of these steps, ready for the picture's tones.
    [[nodiscard]] PrintModel print(const PrintSteps&, std::optional<BathLayer> bath = std::nullopt) const;
    /// The print over the places that are counted; where nothing tells them apart, the plain print.
    [[nodiscard]] PrintModel print_in_places(const PrintSteps&) const;
    /// The print that fresh paper would have given: the target itself.
    [[nodiscard]] PrintModel fresh_print() const;

  private:
    [[nodiscard]] bool has_places(const PrintSteps&) const;
    [[nodiscard]] PrintModel placed_print(const PrintSteps&) const;
    [[nodiscard]] Proof worked(const Recipe&, PrintSteps) const;

    Pack pack_;
    PaperModel paper_;
    Tones frame_;
    FrameLight light_;
    std::vector<Tone> tones_;
    FreshTarget target_;
    Toner toner_ = Toner::none;
    std::optional<TodaysLight> today_;
    std::vector<Tone> placed_tones_;        // gathered; none where no places are told apart
    std::vector<double> placed_lightness_;  // of the fresh print, without local work
    std::vector<std::vector<double>> places_;
    std::vector<std::vector<double>> place_shares_;  // of the pixels of each of tones_' bins
};

}  // namespace fogproof::choose
