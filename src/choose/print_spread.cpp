// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/print_spread.hpp"

#include <cmath>
#include <functional>
#include <vector>

#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/doubted.hpp"
#include "pack/uncertainty.hpp"

namespace fogproof::choose {
namespace {

constexpr std::size_t kSpreadNodes = 48;

struct Lightness {
    std::vector<double> tones;
    double border;
};

}  // namespace

PrintSpread print_spread(const Printing& printing, const Proof& proof) {
    const double thinnest = printing.frame().quantile(0).value;
    const double densest = std::max(printing.frame().quantile(1).value, thinnest + 0.01);
    std::vector<double> density(kSpreadNodes);
    for (std::size_t i = 0; i < kSpreadNodes; ++i)
        density[i] = thinnest + (densest - thinnest) * double(i) / double(kSpreadNodes - 1);

    Recipe recipe = proof.recipe;
    recipe.bleach = proof.bleach;
    const double mean = printing.light().mean_transmitted();
    const Doubted<Lightness> asked(printing.pack(), [&](const Pack& pack) {
        const PaperModel paper = paper_model(pack);
        const PrintModel print(paper, pack.darkroom.enlarger,
                               timed_steps(pack, paper, recipe, proof.exposures), mean);
        Lightness answer{{}, print.border().lab.l};
        for (const double at : density) answer.tones.push_back(print.patch({at}).lab.l);
        return answer;
    });
    const PrintDensity in_all_tones{unexplained_scatter(printing.pack(), 0)};
    const double in_light = kSheetInLight * printing.pack().sheet_scatter;
    // `fall`: L* per log10 of light.
    const auto half = [&](const auto& lightness, double fall) {
        const double likely = lightness(asked.likeliest());
        return kWithin95Percent * std::hypot(asked.deviation(lightness),
                                             likely - darkened(likely, in_all_tones), fall * in_light);
    };
    const std::vector<double>& tones = asked.likeliest().tones;
    const auto fall_at = [&](std::size_t i) {
        const std::size_t from = i > 0 ? i - 1 : i, to = std::min(i + 1, kSpreadNodes - 1);
        return (tones[to] - tones[from]) / (density[to] - density[from]) /
               printing.pack().darkroom.enlarger.callier;
    };
    std::vector<double> halves;
    for (std::size_t i = 0; i < kSpreadNodes; ++i)
        halves.push_back(half([&](const Lightness& answer) { return answer.tones[i]; }, fall_at(i)));
    return {MonotoneCurve(std::move(density), std::move(halves)), half(std::mem_fn(&Lightness::border), 0)};
}

}  // namespace fogproof::choose
