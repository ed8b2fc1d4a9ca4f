// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/density_scale.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "reading/light_density.hpp"

namespace fogproof::reading {
namespace {

// D: nobody tells a density to less.
constexpr double kToldTo = 0.001;
// Reflectance of the whites whose doubt is told.
constexpr double kWhite = 0.8;
// What a patch may be off the scale through all of them, in standard deviations, before it is worth a word.
constexpr double kContradicts = 3;

double reflectance_of(double density) {
    return std::pow(10.0, -density);
}

void refuse_contradiction(std::span<const Reference> known, const std::string& place) {
    for (const Reference& one : known)
        for (const Reference& other : known)
            if (one.density - other.density > kContradicts * std::hypot(one.doubt, other.doubt) &&
                one.light >= other.light)
                throw Error(Fault::data, place,
                            "known patches contradict each other: " + one.what + " looks no darker than " +
                                other.what,
                            Advice{"the denser one must be the darker one"});
}

void note_misfit(DensityScale& made, std::span<const Reference> known) {
    for (const Reference& one : known) {
        const double reflected = made.of_light.reflectance(one.light);
        if (!(reflected > 0)) continue;
        const double read = density_of_light(reflected),
                     limit = kContradicts *
                             std::hypot(one.doubt, kWhitesBesideAPatch, made.doubt.share * one.density);
        if (std::abs(read - one.density) > limit)
            made.notes.push_back("known patch " + one.what + " reads " + fixed(read, 2) +
                                 " on the scale through all of them: another density, or --encoding");
    }
}

// Codes made for the eye that are taken as linear bend the scale as if much light strayed, and linear ones
// taken as such as if light were lost. Scanners stray little, and lose none; the rest is left to densities
// read roughly. Judgement.
void warn_of_bent_scale(DensityScale& made, double added) {
    constexpr double kMostStray = 0.03, kMostLost = 0.01;
    if (added <= kMostStray && added >= -kMostLost) return;
    made.warnings.push_back("the known patches lie on one scale only if the scanner " +
                            std::string(added > 0 ? "adds " : "takes away ") +
                            decimal(100 * std::abs(added), added > 0 ? 0 : 1) +
                            " % of full light everywhere, which none does: the codes are read by the wrong "
                            "encoding (--encoding settles that), the scanner's program altered the tones "
                            "(automatic levels), or a density is wrong");
}

}  // namespace

DensityScale density_scale(std::span<const Reference> known, const std::string& place) {
    DensityScale made;
    if (known.empty()) return made;
    refuse_contradiction(known, place);
    // reflectance = gain light - added, over gain and added; what stray light adds is little beforehand.
    double ll = 0, l = 0, one = 1 / (kStrayLight * kStrayLight), lr = 0, r = 0;
    for (const Reference& patch : known) {
        const double told = reflectance_of(patch.density),
                     spread = told * std::numbers::ln10 * std::max(patch.doubt, kToldTo),
                     weight = 1 / (spread * spread);
        ll += weight * patch.light * patch.light, l -= weight * patch.light, one += weight;
        lr += weight * patch.light * told, r -= weight * told;
    }
    const double determinant = ll * one - l * l, gain = (lr * one - l * r) / determinant,
                 added = (ll * r - l * lr) / determinant;
    if (!(gain > 0) || !std::isfinite(gain) || !std::isfinite(added))
        throw Error(Fault::data, place, "known patches tell no scale of densities",
                    Advice{"the denser one must be the darker one"});
    made.of_light = {gain, added / gain};
    const double light = (kWhite + added) / gain,
                 white = (light * light * one + 2 * light * l + ll) / determinant;
    made.doubt.whites =
        std::hypot(kWhitesBesideAPatch, std::sqrt(std::max(white, 0.0)) / (kWhite * std::numbers::ln10));
    made.doubt.stray = std::sqrt(ll / determinant);
    note_misfit(made, known);
    warn_of_bent_scale(made, added);
    return made;
}

}  // namespace fogproof::reading
