// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One of the papers that a pack may be, asked what becomes of recipes that are carried out on it as they are
// told: in seconds under the enlarger and in the bath. What its recipes share is tabulated.
#pragma once

#include <array>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "choose/lightness_curve.hpp"
#include "choose/printed_tones.hpp"
#include "choose/printing.hpp"
#include "choose/quick_print.hpp"
#include "choose/read_ways.hpp"
#include "choose/todays_light.hpp"
#include "choose/told_recipe.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/rooms.hpp"
#include "pack/draws.hpp"

namespace fogproof::choose {

/// Usual steps of a test strip, in stops.
inline constexpr std::array kStripSteps{1.0 / 6, 1.0 / 4, 1.0 / 3, 1.0 / 2, 2.0 / 3, 1.0};

/// Bands of a test strip on either side of the exposure as told.
inline constexpr int kBandsEachSide = 3;

/// What becomes of it on one paper.
struct Outcome {
    double first_sheet;  ///< rms L* from what is wanted, exposed as told
    /// The same with the exposure chosen on a strip of this paper, by the steps of the strip. One of its
    /// bands is the exposure as told.
    std::array<double, kStripSteps.size()> after_strip;
    /// log10 seconds whose print comes closest to what is wanted, the bleach counted that the exposure makes
    /// up for.
    double right_log_s;
};

/// What is wanted with neighbouring tones taken together; by 40 of them the exposure moves by less than 0.002
/// in log10.
[[nodiscard]] Wanted gathered(const Wanted&, std::size_t most);

class DrawnPaper {
  public:
    /// `few` is what is wanted, gathered(). A fresh print that is wanted moves with the paper, held where
    /// readings know its curve: the exposure that prints 0.60 above white goes on printing so. Tone by tone
    /// it is wanted as the pack's own enlarger prints it: were the negative denser to the paper, a softer
    /// grade would suit it, and more light. `held` is the speed_point() of the pack as it is; nothing where
    /// this is that very pack.
    DrawnPaper(PackDraw, const Printing&, const Wanted& few, const ReadWays&, std::optional<double> held);

    /// From now on all light is today's: so bright that a tone of the strip has this lightness, but for what
    /// the strip leaves open.
    void stand_in(const TodaysLight&, double lightness);

    /// A print that comes out `darker` beside its own sheet's scatter.
    [[nodiscard]] Outcome outcome(const ToldRecipe&, PrintDensity darker = {});
    /// L* of its print, exposed as told, by log10 of the light over clear film's.
    [[nodiscard]] std::vector<double> print(const ToldRecipe&, std::span<const double> log_light);
    /// L* by which its print, exposed as told, misses what is wanted.
    [[nodiscard]] std::vector<double> misses(const ToldRecipe&);
    /// What is wanted on this paper.
    [[nodiscard]] const WantedLights& wanted() const { return wanted_; }
    [[nodiscard]] const FrameLight& light() const { return light_; }
    /// log10 seconds in the bath that reach this share of the clearing dose, or, where nothing is to be
    /// cleared, the recipe's own dose. A sheet whose blank is darker needs more.
    [[nodiscard]] double log_bleach_s(const ToldRecipe&, std::optional<double> share_of_clearing,
                                      PrintDensity darker = {});
    /// Log exposure through clear film that prints 0.60 above white on the fresh paper, through the target's
    /// grade.
    [[nodiscard]] double speed_point() const { return speed_point_; }
    /// L* of the fresh print at a tone of the negative.
    [[nodiscard]] double fresh_lightness(NegativeDensity) const;

  private:
    struct WayOfDeveloping {
        Developer developer;
        double departs;  ///< log10 exposure by which it wants more light than the laws say
        double slower;   ///< than the nominal development, log10
    };
    /// Seconds under the enlarger as light of the pack's own, and back.
    [[nodiscard]] double log_h(double log_seconds) const;
    [[nodiscard]] double log_seconds(double log_h) const;
    [[nodiscard]] DevelopStep step_of(const ToldRecipe&) const;
    // One way of working as quick functions of the light, and what places share of it.
    struct WorkedLine {
        const ShareCurve &softer, &harder;
        std::vector<double> thinned;
        double more_fog;  ///< share of the grains
    };
    struct Worked {
        const Developer& developer;
        double departs, slower;
        double beyond;  ///< from the softer to the harder
        std::vector<WorkedLine> lines;
    };
    [[nodiscard]] Worked worked(const ToldRecipe&);
    [[nodiscard]] double lightness_at(const Worked&, double log_h, std::size_t line) const;
    /// L* over the tones' light between two exposures, by line.
    [[nodiscard]] std::vector<LightnessLine> curves(const Worked&, double from, double to) const;
    /// Log exposure whose print comes closest to what is wanted.
    [[nodiscard]] double closest(const Worked&, std::span<const LightnessLine>, PrintDensity darker) const;
    const WayOfDeveloping& way(const DevelopStep&);
    /// Of halves of a grade; in between, in proportion between these.
    const ShareCurve& share_curve(long halves, std::size_t line);
    [[nodiscard]] LightnessCurve fresh_curve(const Printing&) const;
    [[nodiscard]] double found_speed_point() const;

    PackDraw draw_;
    PaperModel paper_;
    std::shared_ptr<const ShareTable> table_;
    GrainPopulation population_;
    FilterSet filters_;
    BleachedLightness lightness_;
    ReadWays read_;
    FrameLight light_, usual_light_;  // by the drawn enlarger, and by the pack's own
    double nominal_threshold_;
    WantedLights wanted_;
    std::vector<PlaceWork> lines_{{}};  // what places share, by line of wanted_
    std::optional<double> white_;
    LightnessCurve fresh_;
    double speed_point_, fresh_at_;
    double brighter_ = 0;                                        // log10, today's light over that of the pack
    std::map<std::pair<long, std::size_t>, ShareCurve> curves_;  // by halves of a grade and line
    std::map<std::pair<double, double>, WayOfDeveloping> ways_;
};

}  // namespace fogproof::choose
