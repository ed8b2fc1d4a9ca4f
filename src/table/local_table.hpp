// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The model under masks of any level, as small tables that every pixel walks through: level -> time; light ->
// share of the grains; share and dose of bleach -> colour.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "fogproof/base/quantity.hpp"
#include "fogproof/print/print_steps.hpp"
#include "fogproof/print/treated_sheet.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::table {

/// Against the model it errs by less than 0.02 L*, usually by less than 0.002.
class LocalTable {
  public:
    /// The steps have local work, or the paper fog at its edges, which is the last work then.
    LocalTable(const PaperModel&, const Enlarger&, const PrintSteps&, double mean_transmitted,
               std::optional<BathLayer> bath = std::nullopt);

    /// How many works there are, and levels to tell for each.
    [[nodiscard]] std::size_t works() const { return works_.size(); }
    /// What of its light a density of the negative lets through, flare included, as find() asks for it.
    [[nodiscard]] float transmitted(NegativeDensity) const;
    [[nodiscard]] std::vector<float> transmitted(std::span<const NegativeDensity> scale) const;

    /// Places among the nodes: along the shares, along the doses.
    struct Spots {
        std::span<float> share, dose;
    };
    /// Where pixels lie among the nodes: of each what is let through, and the level of each work, from 0
    /// to 1.
    void find(std::span<const float> transmitted, std::span<const float* const> levels, const Spots&) const;

    /// Colours at the nodes: all shares for the first dose, then for the next.
    [[nodiscard]] const std::vector<Lab>& nodes() const { return nodes_; }
    [[nodiscard]] std::size_t shares() const;
    [[nodiscard]] std::size_t doses() const { return doses_; }
    /// The colour between the nodes, for whoever asks for few.
    [[nodiscard]] Lab colour(double share, double dose) const;

  private:
    // What a level of its mask brings, in equal steps of the level.
    struct Work {
        enum class Does { lengthens, adds, bleaches, fogs } does;
        std::vector<float> by_level;
        float blue = 0, green = 0;
    };
    struct Range {
        double low, high;
    };
    void set_works(const PrintSteps&);
    void set_edge_fog(const TreatedSheet&);
    [[nodiscard]] Range green_range() const;
    void set_shares(const TreatedSheet&);
    void set_colours(const TreatedSheet&, double most_dose);
    static constexpr std::size_t kAtOnce = 256;  // pixels
    struct Lit {
        std::array<float, kAtOnce> log_light, ratio, dose, fog;
    };
    void light_up(const float* transmitted, std::span<const float* const> levels, std::size_t from, int count,
                  Lit&) const;
    void grains(const Lit&, int count, float* share) const;

    Enlarger enlarger_;
    double mean_transmitted_;
    std::vector<Work> works_;
    EaselLight all_exposures_, flashes_;  // of what is let through, and beside it
    double longest_ = 1;                  // times of the exposures, of their own
    std::vector<float> power_;            // light by time, up to the longest
    // Shares of grains by log2 of blue + green light, for one ratio of the two after the other.
    std::vector<float> share_;
    double first_light_ = 0, last_light_ = 0;
    Range green_{0, 0};
    std::size_t ratios_ = 1;
    std::vector<Lab> nodes_;
    std::size_t doses_ = 1;
    double most_dose_ = 0;
};

}  // namespace fogproof::table
