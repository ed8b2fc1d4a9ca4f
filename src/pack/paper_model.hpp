// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The model of a paper beside that of a pack much like it. What papers have in common is judged here alone,
// so that whoever keeps what was worked out for the pack before asks the same.
#pragma once

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"
#include "pack/fresh_curve.hpp"

namespace fogproof::pack {

/// What a model takes from its sheet alone, which is the most of its work.
struct SheetLayers {
    LayerDensity black, blank;
    ReferenceShares at;
};

/// A paper_model() that keeps its layers.
struct LayeredPaper {
    PaperModel model;
    SheetLayers layers;
};
/// Throws what paper_model() throws.
[[nodiscard]] LayeredPaper layered_paper(const Pack&);
/// The same, sooner where the layers of another pack's paper serve this one too.
[[nodiscard]] LayeredPaper layered_paper(const Pack&, const Pack& other, const LayeredPaper& of_other);

/// Whether both answer light alike but for where they begin and how much silver they make: the threshold
/// moves a population as a whole, and its maximum is no part of the share that light makes developable.
[[nodiscard]] bool same_population(const Grains&, const Grains&);

}  // namespace fogproof::pack
