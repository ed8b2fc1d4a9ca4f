// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a printer does on one evening with a foreign paper: wants a picture of a negative, prints it as told,
// reads the print and asks again.
#pragma once

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "choose/choice.hpp"
#include "choose/starting_point.hpp"
#include "choose/wanted.hpp"
#include "reading/flatbed_doubt.hpp"
#include "reading/known_patch.hpp"
#include "reading/known_slip.hpp"
#include "sheets/closest_print.hpp"
#include "sheets/true_prints.hpp"
#include "support/foreign_owner.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests::sheets {

inline double between(double low, double high, std::mt19937& random) {
    return std::uniform_real_distribution(low, high)(random);
}

/// L* of a tone in a print, exposed as told.
inline double lightness_of(const foreign::Owner& owner, const Tones& frame, const ToldRecipe& recipe,
                           NegativeDensity tone) {
    return lightness({owner.paper.density(
        {owner.acting(recipe.exposure.value), owner.over_paper(tone, frame.mean_transmitted(owner.callier)),
         recipe.grade, recipe.restrainer_ml_l, recipe.develop_s, recipe.bleach.value})});
}

/// Bleached by a share of clearing and exposed so that the frame's middle tone comes to an L*.
inline ToldRecipe exposed_for(double middle, double share_of_clearing, ToldRecipe recipe,
                              const foreign::Owner& owner, const Tones& frame) {
    recipe.bleach.value =
        std::round(share_of_clearing * owner.paper.clearing_seconds(recipe.restrainer_ml_l, 0.03));
    // log10; nobody exposes longer than a quarter of an hour for a tone that the bleach takes away again.
    double short_s = -3, long_s = 3;
    while (long_s - short_s > 1e-3) {
        recipe.exposure.value = std::pow(10.0, (short_s + long_s) / 2);
        const bool is_light = lightness_of(owner, frame, recipe, frame.quantile(0.5)) > middle;
        (is_light ? short_s : long_s) = (short_s + long_s) / 2;
    }
    return recipe;
}

/// What is wanted of a frame: the print of another hand, within what the paper reaches once it is bleached.
struct Picture {
    std::vector<MatchedTone> tones;
    ToldRecipe closest{};  ///< of all prints on this paper
    double least = 1e9;    ///< rms L* by which that one misses it

    Picture(const foreign::Owner& owner, ClosestPrint& search, const Tones& frame, std::mt19937& random) {
        // L*; what no print comes near is not wanted, if that can be helped.
        constexpr double kReachable = 2.5;
        for (int tries = 0; tries < 4 && least > kReachable; ++tries) {
            const std::vector<MatchedTone> drawn = another_hand(owner.paper, frame, random);
            const auto [recipe, off] = search.of(frame, drawn);
            if (off < least) least = off, closest = recipe, tones = drawn;
        }
    }

    /// L* of the middle tone of all.
    [[nodiscard]] double middle() const {
        double below = 0;
        for (const MatchedTone& tone : tones)
            if (below += tone.share; below >= 0.5) return tone.lightness;
        return tones.back().lightness;
    }

  private:
    static std::vector<MatchedTone> another_hand(const foreign::Paper& paper, const Tones& frame,
                                                 std::mt19937& random) {
        const double darkest = lightness({paper.density({1e6, 0, 2, 0, 90, 0})}) + between(1, 10, random),
                     lightest = lightness({paper.density({0, 0, 2, 0, 0, 0})}) - between(2, 10, random),
                     bend = between(0.75, 1.2, random), steepness = between(0.3, 1, random);
        const double thin = frame.quantile(0.001).value, dense = frame.quantile(0.999).value;
        std::vector<MatchedTone> tones;
        for (const Tone& tone : frame.all()) {
            const double place =
                std::pow(std::clamp((tone.density.value - thin) / (dense - thin), 0.0, 1.0), bend);
            const double curved = std::lerp(place, place * place * (3 - 2 * place), steepness);
            tones.push_back({std::lerp(darkest, lightest, curved), tone.share});
        }
        return tones;
    }
};

/// A print made by eye: half bleached, its filter and restrainer at hand, its middle tone within half a stop
/// of what is wanted.
inline ToldRecipe made_by_eye(const foreign::Owner& owner, const Tones& frame, const Picture& picture,
                              std::mt19937& random) {
    ToldRecipe recipe{random() % 2 ? 2.0 : 3.0, random() % 2 ? 20.0 : 0.0, 90, {}, {}, 0};
    recipe = exposed_for(picture.middle(), between(0.5, 1.0, random), recipe, owner, frame);
    recipe.exposure = std::exp2(between(-0.5, 0.5, random)) * recipe.exposure;
    return recipe;
}

/// Deviations that stand for a normal distribution: of five parts alike the middle one each.
inline constexpr std::array kSheets{-1.2816, -0.5244, 0.0, 0.5244, 1.2816};

/// A print's tones and its border, each half under its own label where it was bleached.
inline std::vector<Reading> read_off(foreign::Owner& owner, TruePrints& prints, const Printing& printing,
                                     const ToldRecipe& told, const std::string& label, double darker) {
    constexpr int kReadTones = 16;
    std::normal_distribution<> noise(0, owner.noise);
    std::vector<Reading> rows;
    const auto read = [&](const std::string& half, double bleach_s) {
        ToldRecipe recipe = told;
        recipe.bleach.value = bleach_s;
        Reading row;
        row.strip = label + half;
        row.restrainer_ml_l = recipe.restrainer_ml_l;
        row.develop_s = recipe.develop_s;
        row.bleach_s = bleach_s;
        row.bleach_parts = 50;
        const auto add = [&](double density) {
            row.density = std::round(1000 * (density + darker + noise(owner.random))) / 1000;
            rows.push_back(row);
        };
        row.exposure_s = 0;
        add(owner.paper.density({0, 0, recipe.grade, recipe.restrainer_ml_l, recipe.develop_s, bleach_s}));
        row.filter = recipe.grade, row.exposure_s = recipe.exposure.value;
        const double thin = printing.frame().quantile(0.002).value,
                     dense = printing.frame().quantile(0.998).value;
        for (int tone = 0; tone < kReadTones; ++tone) {
            const NegativeDensity at{std::lerp(thin, dense, tone / (kReadTones - 1.0))};
            // As its reader believes the enlarger to be.
            row.wedge_density = -printing.light().log_light(at);
            row.callier = printing.pack().darkroom.enlarger.callier;
            add(prints.density(recipe, at));
        }
    };
    read(told.bleach.value > 0 ? "-before" : "", 0);
    if (told.bleach.value > 0) read("-bleached", told.bleach.value);
    return rows;
}

/// What a flatbed makes of readings beside a slip of the paper that was only fixed and never measured: off by
/// what the slip is off the usual one, and by what such scans are said to be. The slip is a reading, too.
inline void off_a_flatbed(std::vector<Reading>& rows, const foreign::Paper& paper, std::mt19937& random) {
    std::normal_distribution<> chance(0, 1);
    FlatbedDoubt doubt;
    const KnownPatch slip = *known_density_in("fixed");
    doubt.whites = std::hypot(slip.doubt, kWhitesBesideAPatch);
    const double off =
                     slip.density - paper.density({0, 0, 2, 0, 0, 0}) + kWhitesBesideAPatch * chance(random),
                 scale = 1 + doubt.share * chance(random);
    for (Reading& row : rows) {
        row.density = std::round(1000 * (scale * row.density + off)) / 1000;
        row.density_error = 0.008;
    }
    tell_flatbed_doubt(rows, doubt);
    rows.push_back(*known_slip({&slip, 1}, rows.front().strip));
}

}  // namespace fogproof::tests::sheets
