// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a pack says that readings should be: the rooms in order for every patch, with nothing worked out
// twice. The wedge lies on the paper, so neither flare nor Callier factor act on it, and the head stands as
// at the anchor.
#pragma once

#include <memory>
#include <span>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// A reading with every blank filled in for one kind of paper.
struct Patched {
    double wedge_density = 0;  ///< with what lay in the carrier beyond that of the pack's anchor
    double exposure_s = 0;
    std::optional<double> filter;  ///< nothing: white light on graded paper
    double restrainer_ml_l = 0, develop_s = 0, bleach_s = 0, bleach_parts = 0, redevelop_s = 0;
};

/// An empty filter is grade 2 on variable-contrast paper; an empty exposure is none, or under a wedge the
/// pack's own nominal exposure (its speed point and 1.2 more, so that a wedge shows its whole range).
[[nodiscard]] Patched patched(const Reading&, const Pack& nominal);
/// True where patched() has to guess the exposure: a wedge lay over the patch and no time is told.
[[nodiscard]] bool exposure_guessed(const Reading&);

class Predictor {
  public:
    Predictor(const Pack& nominal, std::span<const Reading>);
    ~Predictor();
    Predictor(Predictor&&) noexcept;
    Predictor& operator=(Predictor&&) noexcept;

    /// Visual density of every reading on a pack; throws what paper_model() and filter_for() throw. What
    /// the pack has in common with the one asked before is not worked out again; a detour is not remembered.
    [[nodiscard]] std::vector<double> densities(const Pack&, bool is_detour = false);

  private:
    struct Work;
    std::unique_ptr<Work> work_;
};

}  // namespace fogproof::fit
