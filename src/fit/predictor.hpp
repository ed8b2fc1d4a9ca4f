// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a pack says that readings should be: the rooms in order for every patch, with nothing worked out
// twice. The wedge lies on the paper, so neither flare nor Callier factor act on it, and the head stands as
// at the anchor. An exposure that no reading tells is the one under which its patches come closest.
#pragma once

#include <memory>
#include <span>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

class Predictor {
  public:
    Predictor(const Pack& nominal, std::span<const Reading>);
    ~Predictor();
    Predictor(Predictor&&) noexcept;
    Predictor& operator=(Predictor&&) noexcept;

    /// Visual density of every reading on a pack; throws what paper_model() and filter_for() throw. What
    /// the pack has in common with the one asked before is not worked out again; a detour is not remembered,
    /// and several threads may be on one each.
    [[nodiscard]] std::vector<double> densities(const Pack&, bool is_detour = false);

  private:
    struct Work;
    class Prediction;
    std::unique_ptr<Work> work_;
};

}  // namespace fogproof::fit
