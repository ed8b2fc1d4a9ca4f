// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/paper_model.hpp"

#include <algorithm>
#include <cmath>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/emulsion/paper_numbers.hpp"

namespace fogproof::pack {
namespace {

// D; two slips of unfogged paper may read this far the wrong way round. Common practice, no source.
constexpr double kDensitometer = 0.02;
// D; the least net density that has a speed point: 0.60 must lie well below 0.90 of it.
constexpr double kLeastNetDensity = 0.70;
// D; a black this close under the surface's limit is still told apart from it.
constexpr double kNearestToLimit = 0.01;
// Of the light; what the silver of a full black sends back at the least.
constexpr double kLeastLight = 1e-4;

std::string d(double density) {
    return decimal(density, 3) + " D";
}

[[noreturn]] void refuse(const Pack& pack, const std::string& found, const std::string& allowed) {
    throw Error(Fault::config, "pack \"" + pack.name + "\"", found, allowed);
}

void check_densities(const Pack& pack, const Sheet& sheet) {
    const double white = sheet.white().value;
    if (pack.blank_density < white - kDensitometer)
        refuse(pack, "blank " + d(pack.blank_density) + " is below paper white " + d(white),
               d(white) + " or more");
    if (pack.black_density < white + kLeastNetDensity)
        refuse(pack, "black " + d(pack.black_density) + " with paper white " + d(white),
               d(white + kLeastNetDensity) + " or more");
    const double darkest = -std::log10(pack.sheet.surface + kLeastLight) - kNearestToLimit;
    if (pack.black_density > darkest) {
        const double most =
            std::floor(1e4 * (std::pow(10.0, -pack.black_density - kNearestToLimit) - kLeastLight)) / 1e4;
        refuse(pack,
               "black " + d(pack.black_density) + " under a surface that sends back " +
                   decimal(100 * pack.sheet.surface, 2) + " % of the light",
               "up to " + d(darkest) + ", or surface_light up to " + decimal(most, 4) + " in [paper]");
    }
    if (pack.blank_density >= pack.black_density)
        refuse(pack, "blank " + d(pack.blank_density) + " with black " + d(pack.black_density),
               "a blank below the black");
    if (pack.blank_density + pack.edge_fog.density > pack.black_density)
        refuse(pack,
               "fog " + d(pack.edge_fog.density) + " at the edge over a blank of " + d(pack.blank_density) +
                   " with black " + d(pack.black_density),
               "up to " + d(pack.black_density - pack.blank_density));
}

bool appears_in_time(const Development& development) {
    return development.induction_s < development.nominal_s;
}

// All that the layers depend on. A pack that layered_paper() refuses has none to share.
bool has_layers_of(const Pack& pack, const Pack& other) {
    return pack.sheet == other.sheet && pack.black_density == other.black_density &&
           pack.blank_density == other.blank_density && appears_in_time(pack.development);
}

SheetLayers sheet_layers(const Pack& pack, const Sheet& sheet) {
    const LayerDensity black = sheet.layer_showing({pack.black_density});
    return {black, sheet.layer_showing({pack.blank_density}), reference_shares(sheet, black)};
}

PaperModel model_of(const Pack& pack, const Sheet& sheet, const SheetLayers& layers) {
    Emulsion emulsion{pack.grains,
                      {layers.blank.value / layers.black.value, pack.fog_time_exponent},
                      pack.restrainer,
                      pack.development};
    Grains& grains = emulsion.grains;
    grains.max_density = layers.black.value;
    if (pack.contrast == Contrast::graded) {
        grains.spread = 1;
        grains.spread = pack.iso_range / iso_range_of_spread(grains, layers.at);
    }
    if (pack.edge_fog.is_there()) {
        const LayerDensity edge = sheet.layer_showing({pack.blank_density + pack.edge_fog.density});
        emulsion.fog.edge = std::max(0.0, (edge.value - layers.blank.value) / layers.black.value);
    }
    // White light counts as blue here; a filter's scale makes up for what its colour adds or takes.
    grains.log_threshold = pack.speed_log_s - grains.spread * grain_quantile(layers.at.speed, grains);
    return {emulsion, pack.bleach, pack.redevelop, sheet};
}

}  // namespace

ReferenceShares reference_shares(const Sheet& sheet, LayerDensity all_developed) {
    const double white = sheet.white().value;
    const double net = sheet.density({all_developed}).value - white;
    const auto share_at = [&](double above_white) {
        return sheet.layer_showing({white + above_white}).value / all_developed.value;
    };
    return {share_at(kIsoToe), share_at(kIsoSpeed), share_at(kIsoShoulder * net)};
}

double iso_range_of_spread(const Grains& grains, const ReferenceShares& at) {
    return 100 * grains.spread * (grain_quantile(at.shoulder, grains) - grain_quantile(at.toe, grains));
}

LayeredPaper layered_paper(const Pack& pack) {
    Sheet sheet(pack.sheet);
    check_densities(pack, sheet);
    if (!appears_in_time(pack.development))
        refuse(pack,
               "the image appears only after " + decimal(pack.development.induction_s, 1) + " s of " +
                   decimal(pack.development.nominal_s, 1) + " s of development",
               "an earlier time");
    const SheetLayers layers = sheet_layers(pack, sheet);
    return {model_of(pack, sheet, layers), layers};
}

LayeredPaper layered_paper(const Pack& pack, const Pack& other, const LayeredPaper& of_other) {
    if (!has_layers_of(pack, other)) return layered_paper(pack);
    return {model_of(pack, of_other.model.sheet, of_other.layers), of_other.layers};
}

PaperModel paper_model(const Pack& pack) {
    return layered_paper(pack).model;
}

bool same_population(const Grains& one, const Grains& other) {
    Grains moved = one;
    moved.log_threshold = other.log_threshold;
    moved.max_density = other.max_density;
    return moved == other;
}

PaperModel before_fog(PaperModel paper) {
    paper.emulsion.fog.share = paper.emulsion.fog.edge = 0;
    return paper;
}

}  // namespace fogproof::pack
