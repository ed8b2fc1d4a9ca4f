// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/print_spread.hpp"

#include <cmath>
#include <vector>

#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/uncertainty.hpp"

namespace fogproof::choose {
namespace {

constexpr std::size_t kSpreadNodes = 48;

}  // namespace

PrintSpread print_spread(const Easel& easel, const Proof& proof) {
    const double thinnest = easel.frame().quantile(0).value;
    const double densest = std::max(easel.frame().quantile(1).value, thinnest + 0.01);
    std::vector<double> density(kSpreadNodes);
    for (std::size_t i = 0; i < kSpreadNodes; ++i)
        density[i] = thinnest + (densest - thinnest) * double(i) / double(kSpreadNodes - 1);

    Recipe recipe = proof.recipe;
    recipe.bleach = proof.bleach;
    const double mean = easel.frame().mean_transmitted(easel.pack().enlarger.callier);
    const PackAnswers lightness = [&](const Pack& pack) {
        const PaperModel paper = paper_model(pack);
        const PrintModel print(paper, pack.enlarger, timed_steps(pack, paper, recipe, proof.exposures), mean);
        std::vector<double> answers;
        for (const double at : density) answers.push_back(print.patch({at}).lab.l);
        answers.push_back(print.border().lab.l);
        return answers;
    };
    const std::vector<double> likely = lightness(easel.pack());
    const PrintDensity scatter{unexplained_scatter(easel.pack())};
    std::vector<double> half = deviations(lightness, easel.pack());
    for (std::size_t i = 0; i < half.size(); ++i)
        half[i] = kWithin95Percent * std::hypot(half[i], likely[i] - darkened(likely[i], scatter));
    const double border = half.back();
    half.pop_back();
    return {MonotoneCurve(std::move(density), std::move(half)), border};
}

}  // namespace fogproof::choose
