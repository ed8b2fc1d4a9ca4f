// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/lone_slips.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "base/quantile.hpp"
#include "base/words.hpp"
#include "fit/likeness.hpp"
#include "fit/roughness.hpp"

namespace fogproof::fit {
namespace {

// Fewer patches do not tell which of them is off. Of so many, one may be.
constexpr std::size_t kLeastPatches = 5, kPatchesForOne = 6;
// A density is named that is off its neighbours by so many deviations, and off by so many D at least. Good
// readings of a bent paper are off by less: the laws miss neighbours alike. Judgement.
constexpr double kDeviations = 7, kLeastOff = 0.1;
// D at kRoughAt; readings that scatter less are trusted no further.
constexpr double kLeastScatter = 0.01;

struct LitPatch {
    double log_light;
    std::size_t row;
    double residual;      // fitted minus read, in units of roughness
    double off_both = 0;  // what is left of it beside its neighbours'
};

using LitStrips = std::map<std::pair<std::string, Treatment>, std::vector<LitPatch>>;

LitStrips in_light(std::span<const Reading> readings, std::span<const double> fitted, const Pack& nominal) {
    LitStrips strips;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const TreatedPatch patch = treated(readings[i], nominal);
        if (patch.exposure_s <= 0 || patch.develop_s <= 0) continue;
        const double off = (fitted[i] - readings[i].density) / roughness(fitted[i]);
        strips[{readings[i].strip, treatment_of(patch)}].push_back(
            {std::log10(patch.exposure_s) - patch.wedge_density, i, off});
    }
    std::erase_if(strips, [](const auto& strip) { return strip.second.size() < kLeastPatches; });
    return strips;
}

// The smaller of what a patch is off each neighbour, nothing where it lies between them.
void weigh_beside_neighbours(std::vector<LitPatch>& patches) {
    std::ranges::stable_sort(patches, {}, &LitPatch::log_light);
    for (std::size_t i = 0; i < patches.size(); ++i) {
        const double own = patches[i].residual;
        const double before = own - patches[i == 0 ? 1 : i - 1].residual;
        const double after = own - patches[i + 1 == patches.size() ? i - 1 : i + 1].residual;
        const double less = std::abs(before) < std::abs(after) ? before : after;
        patches[i].off_both = before * after > 0 ? less : 0;
    }
}

double residual_scatter(const LitStrips& strips) {
    std::vector<double> sizes;
    for (const auto& [kind, patches] : strips)
        for (const LitPatch& patch : patches) sizes.push_back(std::abs(patch.residual));
    if (sizes.empty()) return kLeastScatter;
    return std::max(kMadToSigma * median(std::move(sizes)), kLeastScatter);
}

std::string place_on_strip(const Reading& reading) {
    std::string words;
    if (reading.wedge_density) words = "under " + decimal(*reading.wedge_density, 2) + " D";
    if (reading.exposure_s) words += (words.empty() ? "" : ", ") + decimal(*reading.exposure_s, 1) + " s";
    return words;
}

}  // namespace

std::vector<std::string> lone_slips(std::span<const Reading> readings, std::span<const double> fitted,
                                    const Pack& nominal) {
    LitStrips strips = in_light(readings, fitted, nominal);
    for (auto& [kind, patches] : strips) weigh_beside_neighbours(patches);
    const double scatter = residual_scatter(strips);
    std::vector<std::string> warnings;
    for (const auto& [kind, patches] : strips) {
        std::vector<std::size_t> rows;
        for (const LitPatch& patch : patches)
            if (std::abs(patch.off_both) > kDeviations * scatter &&
                std::abs(fitted[patch.row] - readings[patch.row].density) > kLeastOff)
                rows.push_back(patch.row);
        if (rows.size() > std::max<std::size_t>(patches.size() / kPatchesForOne, 1)) continue;
        for (const std::size_t row : rows)
            warnings.push_back("strip \"" + kind.first + "\", " + place_on_strip(readings[row]) +
                               ": a density of " + fixed(readings[row].density, 2) +
                               " was read where its neighbours lead to " + fixed(fitted[row], 2) +
                               ": read it again, it may be mistyped, or dust");
    }
    return warnings;
}

}  // namespace fogproof::fit
