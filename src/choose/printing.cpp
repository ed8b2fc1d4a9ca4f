// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/printing.hpp"

#include <cmath>

#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "fogproof/print/working_curve.hpp"
#include "print/clearing.hpp"
#include "print/response.hpp"

namespace fogproof::choose {
namespace {

// Tones that a search looks at; an exact histogram gathered this finely moves the rms by less than 0.01 L*.
constexpr std::size_t kToneBins = 256;
constexpr std::size_t kPlacedToneBins = 48;  // of each place

}  // namespace

Printing::Printing(Pack pack, Tones frame, std::optional<double> fresh_grade)
    : pack_(std::move(pack)),
      paper_(paper_model(pack_)),
      frame_(std::move(frame)),
      light_(frame_, pack_.darkroom.enlarger),
      tones_(frame_.gathered(kToneBins)),
      target_(fresh_target(frame_, tones_, pack_, paper_, fresh_grade)) {}

void Printing::count_places(const PlacedTones& placed) {
    placed_tones_ = placed.tones.gathered(kPlacedToneBins);
    places_ = placed.levels;
    const PrintModel fresh = fresh_print().for_many_patches();
    for (const Tone& tone : placed_tones_) placed_lightness_.push_back(fresh.patch(tone.density).lab.l);
}

Wanted Printing::fresh() const {
    return {tones_, target_.lightness, true, target_.white_lightness};
}

Seconds Printing::starting_exposure(const Recipe& recipe, const Wanted& wanted) const {
    return choose::starting_exposure(frame_, wanted, target_.exposure, pack_, paper_, recipe);
}

Proof Printing::proof(const Recipe& recipe, std::optional<Seconds> start) const {
    if (!start && needs_start(recipe)) start = starting_exposure(recipe, fresh());
    return worked(recipe, print_steps(pack_, paper_, recipe, start));
}

Proof Printing::timed_proof(const Recipe& recipe, std::span<const Seconds> times) const {
    return worked(recipe, timed_steps(pack_, paper_, recipe, times));
}

Proof Printing::worked(const Recipe& recipe, PrintSteps steps) const {
    Proof proof;
    proof.recipe = recipe;
    proof.steps = std::move(steps);
    for (const auto& exposure : proof.steps.exposures) proof.exposures.push_back(exposure.time);

    const Exposure& first = proof.steps.exposures.front();
    proof.black_stops = std::log2(first.time.value / shortest_black(pack_, paper_, first.filter).value);
    const BleachStep bleach = bleach_step(pack_, paper_, recipe);
    proof.bleach = bleach.time;
    proof.clearing_percent = bleach.clearing_percent;

    const auto numbers = Response(paper_, pack_.darkroom.enlarger, proof.steps).numbers();
    proof.iso_range = numbers ? numbers->iso_range : 0;
    if (!places_.empty() && (!proof.steps.local.empty() || paper_.emulsion.fog.edge > 0)) {
        const PrintModel placed =
            PrintModel(paper_, pack_.darkroom.enlarger, proof.steps, light_.mean_transmitted(), places_)
                .for_many_patches();
        proof.extent = tonal_extent(placed_tones_, placed);
        proof.lightness_error = lightness_error({placed_tones_, placed_lightness_}, placed);
        return proof;
    }
    const PrintModel model = print(proof.steps).for_many_patches();
    proof.extent = tonal_extent(frame_, model);
    proof.lightness_error = lightness_error(fresh(), model);
    return proof;
}

std::optional<double> Printing::unfogged_range(double grade) const {
    Recipe recipe;
    recipe.exposures.front().grade = grade;
    const auto numbers = working_numbers(pack_, before_fog(paper_), recipe);
    if (!numbers) return std::nullopt;
    return numbers->iso_range;
}

PrintModel Printing::print(const PrintSteps& steps, std::optional<BathLayer> bath) const {
    return {paper_, pack_.darkroom.enlarger, steps, light_.mean_transmitted(), bath};
}

PrintModel Printing::fresh_print() const {
    const FreshSheet sheet = target_.own_filter
                                 ? FreshSheet{before_fog(paper_), filter_for(pack_, paper_, target_.grade)}
                                 : fresh_graded(pack_, target_.grade);
    PrintSteps steps;
    steps.exposures = {{sheet.filter, target_.time}};
    steps.develop = nominal_step(pack_.development);
    return {sheet.paper, pack_.darkroom.enlarger, steps, light_.mean_transmitted()};
}

}  // namespace fogproof::choose
