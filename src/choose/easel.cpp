// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/choose/easel.hpp"

#include <cmath>

#include "fogproof/pack/grades.hpp"
#include "fogproof/print/clearing.hpp"
#include "fogproof/print/print_steps.hpp"
#include "fogproof/print/response.hpp"

namespace fogproof {
namespace {

// Tones that a search looks at; an exact histogram gathered this finely moves the rms by less than 0.01 L*.
constexpr std::size_t kBins = 256;

double rms_against(const FreshTarget& target, const std::vector<Tone>& tones, const PrintModel& print) {
    double sum = 0;
    for (std::size_t i = 0; i < tones.size(); ++i)
        sum += tones[i].share * std::pow(print.patch(tones[i].density).lab.l - target.lightness[i], 2);
    return std::sqrt(sum);
}

}  // namespace

Easel::Easel(Pack pack, Tones frame)
    : pack_(std::move(pack)),
      paper_(paper_model(pack_)),
      frame_(std::move(frame)),
      tones_(frame_.gathered(kBins)),
      target_(fresh_target(frame_, tones_, pack_, paper_)),
      mean_(frame_.mean_transmitted(pack_.enlarger.callier)) {}

Proof Easel::proof(const Recipe& recipe, std::optional<Seconds> start) const {
    Proof proof;
    proof.recipe = recipe;
    if (!start && needs_start(recipe))
        start = starting_exposure(frame_, tones_, target_, pack_, paper_, recipe);
    proof.steps = print_steps(pack_, paper_, recipe, start);
    for (const auto& exposure : proof.steps.exposures) proof.exposures.push_back(exposure.time);

    const Exposure& first = proof.steps.exposures.front();
    proof.black_stops = std::log2(first.time.value / shortest_black(pack_, paper_, first.filter).value);
    proof.bleach = bleach_seconds(pack_, paper_, recipe);
    if (const auto clearing = clearing_dose(paper_, proof.steps.develop))
        proof.clearing_percent = 100 * proof.steps.bleach_dose / *clearing;

    const auto numbers = Response(paper_, pack_.enlarger, proof.steps).numbers();
    proof.iso_range = numbers ? numbers->iso_range : 0;
    const PrintModel model = print(proof.steps).for_many_patches();
    proof.extent = tonal_extent(frame_, model);
    proof.lightness_error = rms_against(target_, tones_, model);
    return proof;
}

PrintModel Easel::print(const PrintSteps& steps, std::optional<BathLayer> bath) const {
    return {paper_, pack_.enlarger, steps, mean_, bath};
}

PrintModel Easel::fresh_print() const {
    PaperModel fresh = paper_;
    fresh.emulsion.fog.share = 0;
    PrintSteps steps;
    steps.exposures = {{filter_for(pack_, paper_, target_.grade), target_.time}};
    steps.develop = {0, pack_.development.nominal_s, pack_.development.nominal_c};
    return {fresh, pack_.enlarger, steps, mean_};
}

}  // namespace fogproof
