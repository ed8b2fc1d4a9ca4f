// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/printing.hpp"

#include <algorithm>
#include <array>
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

std::size_t bin_of(double density, double thinnest, double densest) {
    const double place = (density - thinnest) / std::max(densest - thinnest, 1e-9) * double(kToneBins);
    return std::size_t(std::clamp(place, 0.0, double(kToneBins - 1)));
}

// Of each bin of density the shares of all places; a bin without pixels is like the one before it.
std::vector<std::vector<double>> shares_of_places(const Tones& tones, std::size_t places) {
    const double thinnest = tones.quantile(0).value, densest = tones.quantile(1).value;
    std::vector<std::vector<double>> shares(kToneBins, std::vector<double>(places, 0.0));
    for (const Tone& tone : tones.all())
        shares[bin_of(tone.density.value, thinnest, densest)][tone.place] += tone.share;
    for (std::size_t bin = 0; bin < shares.size(); ++bin) {
        double sum = 0;
        for (const double share : shares[bin]) sum += share;
        if (sum <= 0) {
            shares[bin] = shares[bin - 1];  // the first holds the thinnest pixel
            continue;
        }
        for (double& share : shares[bin]) share /= sum;
    }
    return shares;
}

// Fog in sixteenths of the edge's, so that places much alike share their curves.
double shared_fog(double level) {
    constexpr double kParts = 16;
    return std::round(level * kParts) / kParts;
}

PlaceWork place_work(const Pack& pack, const PaperModel& paper, const PrintSteps& steps,
                     std::span<const double> levels) {
    constexpr double kLeastLight = 1e-3;  // of the exposure, where all of it is held back
    PlaceWork work;
    if (paper.emulsion.fog.edge > 0) work.fog = shared_fog(levels.back());
    if (steps.local.empty()) return work;
    const double all = exposed(steps).value;
    double ratio = 1, dose = 0;
    for (std::size_t i = 0; i < steps.local.size(); ++i) {
        const LocalStep& local = steps.local[i];
        const double part = local_time(steps, local, levels[i]).value / all;
        if (local.kind == LocalWork::Kind::bleach)
            dose += levels[i] * local.dose;
        else if (local.kind == LocalWork::Kind::dodge)
            ratio -= part;
        else if (!local.grade)
            ratio += part;
        else if (part > 0)
            work.burns.push_back({*local.grade, part});
    }
    const Enlarger& enlarger = pack.darkroom.enlarger;
    work.log_light = exposure_of(std::log10(all * std::max(ratio, kLeastLight)), enlarger).value -
                     exposure_of(std::log10(all), enlarger).value;
    work.bleach = bleach_time(paper.bleach, pack.darkroom.bath, dose);
    return work;
}

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
    placed_lightness_.clear();
    for (const Tone& tone : placed_tones_) placed_lightness_.push_back(fresh.patch(tone.density).lab.l);
    place_shares_ = shares_of_places(placed.tones, places_.size());
}

Wanted Printing::in_places(const Wanted& wanted, const PrintSteps& steps) const {
    if (!has_places(steps)) return wanted;
    Wanted local{{}, {}, wanted.fresh, wanted.white, {}};
    for (const auto& levels : places_) local.places.push_back(place_work(pack_, paper_, steps, levels));
    const double thinnest = frame_.quantile(0).value, densest = frame_.quantile(1).value;
    for (std::size_t i = 0; i < wanted.tones.size(); ++i) {
        const Tone& tone = wanted.tones[i];
        const auto& shares = place_shares_[bin_of(tone.density.value, thinnest, densest)];
        for (std::size_t place = 0; place < shares.size(); ++place) {
            if (shares[place] <= 0) continue;
            local.tones.push_back({tone.density, tone.share * shares[place], place});
            local.lightness.push_back(wanted.lightness[i]);
        }
    }
    return local;
}

Wanted Printing::fresh() const {
    return {tones_, target_.lightness, true, target_.white_lightness};
}

Seconds Printing::starting_exposure(const Recipe& recipe, const Wanted& wanted) const {
    return choose::starting_exposure(frame_, wanted.places.empty() ? in_places(wanted, {}) : wanted,
                                     target_.exposure, pack_, paper_, recipe);
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
    // Without a filter the paper prints as through this one; answers and files name it.
    if (pack_.contrast == Contrast::variable)
        for (auto* exposures : {&proof.recipe.exposures, &proof.recipe.flashes})
            for (PlannedExposure& each : *exposures) each.grade = each.grade.value_or(kUnfilteredGrade);
    proof.steps = std::move(steps);
    for (const auto& exposure : proof.steps.exposures) proof.exposures.push_back(exposure.time);

    proof.black_stops = black_stops(pack_, paper_, proof.steps.exposures);
    for (const Exposure& each : proof.steps.exposures)
        proof.own_black_stops.push_back(black_stops(pack_, paper_, std::array{each}));
    const BleachStep bleach = bleach_step(pack_, paper_, recipe);
    proof.bleach = bleach.time;
    proof.clearing_percent = bleach.clearing_percent;

    const auto numbers = Response(paper_, pack_.darkroom.enlarger, proof.steps).numbers();
    proof.iso_range = numbers ? numbers->iso_range : 0;
    const bool placed = has_places(proof.steps);
    const PrintModel model = print_in_places(proof.steps).for_many_patches();
    proof.extent = placed ? tonal_extent(placed_tones_, model) : tonal_extent(frame_, model);
    const PrintMiss miss = miss_of(
        placed ? Wanted{placed_tones_, placed_lightness_, true, target_.white_lightness} : fresh(), model);
    proof.lightness_error = miss.lightness;
    proof.seen_error = miss.seen;
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

PrintModel Printing::print_in_places(const PrintSteps& steps) const {
    return has_places(steps) ? placed_print(steps) : print(steps);
}

bool Printing::has_places(const PrintSteps& steps) const {
    return !places_.empty() && (!steps.local.empty() || paper_.emulsion.fog.edge > 0);
}

PrintModel Printing::placed_print(const PrintSteps& steps) const {
    return {paper_, pack_.darkroom.enlarger, steps, light_.mean_transmitted(), places_};
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
