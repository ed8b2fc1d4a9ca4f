// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/coding_doubt.hpp"

#include <algorithm>
#include <vector>

#include "base/quantile.hpp"
#include "base/words.hpp"
#include "negative/density_scale.hpp"
#include "reading/light_density.hpp"

namespace fogproof::reading {
namespace {

// Share of the scan that may be darker, or lighter, by dust and edges.
constexpr double kSpecks = 0.005;
// Density of blacks over whites: prints go deeper than the first, and the second is the least that is taken
// for a black. Judgement.
constexpr double kShallow = 1.1, kBlack = 1.2;

}  // namespace

std::optional<LinearDoubt> doubt_of_linear(const ReflectionImage& image) {
    if (!image.linear_is_guess || image.light.empty()) return std::nullopt;
    std::vector<float> light = image.light;
    const auto at_share = [&](double share) { return std::clamp(double(quantile(light, share)), 1e-6, 1.0); };
    const double dark = at_share(kSpecks), white = at_share(1 - kSpecks);
    const auto reach = [](double from, double to) { return density_of_light(from) - density_of_light(to); };
    const double as_linear = reach(dark, white),
                 as_made_for_the_eye = reach(std::max(light_of_value(Encoding::srgb, dark), 1e-6),
                                             light_of_value(Encoding::srgb, white));
    if (as_linear >= kShallow) return std::nullopt;
    if (as_made_for_the_eye < kBlack)
        return LinearDoubt{
            "the scan is taken as linear, and no black on it tells whether it is: if the scanner's program "
            "gave codes with gamma, densities differ by about twice as much; --encoding linear, srgb or "
            "gamma22 settles it",
            false};
    return LinearDoubt{
        "the scan is taken as linear, but its darkest places are only " + fixed(as_linear, 2) +
            " denser than its whites, as codes with gamma are when taken as linear: then they are " +
            fixed(as_made_for_the_eye, 2) +
            " denser, and all readings come out too thin; --encoding srgb or gamma22 if the scanner's "
            "program "
            "gave such codes, --encoding linear if not",
        true};
}

}  // namespace fogproof::reading
