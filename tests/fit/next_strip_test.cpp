// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Which strip to print next.
#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "fit/next_strip.hpp"
#include "fogproof/fit/pack_fit.hpp"
#include "fogproof/print/silver_path.hpp"
#include "pack/from_slips.hpp"
#include "pack/uncertainty.hpp"
#include "print/clearing.hpp"
#include "support/own_strips.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

namespace {

Pack described() {
    Slips slips;
    slips.white_density = 0.08;
    slips.blank_density = 0.40;
    Pack pack = pack_from_slips(slips);
    pack.darkroom.anchored = true;
    return pack;
}

// What its owner does not know of it.
Pack truth_of(const Pack& described) {
    Pack truth = described;
    truth.black_density = 1.98;
    truth.speed_log_s = 0.62;
    truth.grains.spread = 0.175;
    truth.restrainer = {12, 1.05, 0.35};
    truth.bleach.per_second = 0.0045;
    truth.bleach.starvation = 0.12;
    return truth;
}

PackFit fit_of(const Pack& prior, const Pack& truth, double noise, unsigned seed,
               const std::vector<own::Strip>& strips) {
    return fitted_pack(prior, own::read(truth, own::patches_of(strips, prior.contrast), noise, seed),
                       "made by a test");
}

}  // namespace

// The strip that the arithmetic names is really the one that helps: read, it leaves less doubt than the
// others tried.
TEST(NextStrip, NamedStripNarrowsTheNextPrintMoreThanAnother) {
    const Pack prior = described(), truth = truth_of(prior);
    const PackFit slips =
        fit_of(prior, truth, 0.01, 8, {{"fixed", 1, 0, 2, 0, 0}, {"blank", 1, 0, 2, 0, 90}});
    const auto next = next_strip(WorkedPacks(slips.pack));
    ASSERT_TRUE(next);
    EXPECT_LT(next->doubt_then, next->doubt_now);
    EXPECT_GT(next->bleach_s, 0) << "how the paper bleaches is what nobody knows of it";
    const auto doubt_after = [&](double grade, double restrainer, double bleach_s) {
        const auto patches =
            own::patches_of({{"next", 11, 40, grade, restrainer, 90, bleach_s}}, prior.contrast);
        return next_strip(
                   WorkedPacks(fitted_pack(slips.pack, own::read(truth, patches, 0.01, 9), "next").pack))
            ->doubt_now;
    };
    const double named = doubt_after(*next->grade, next->restrainer_ml_l, next->bleach_s);
    EXPECT_LT(named, next->doubt_now);
    EXPECT_LT(named, doubt_after(4, 25, 0));
}

// What the arithmetic tabulates is the silver path: the doubt of the next print is that of seven patches, a
// stop and a half apart, developed, bleached to clearing and seen in full, by linear propagation (JCGM
// 100:2008, 5.2.2).
TEST(NextStrip, DoubtOfTheNextPrintIsThatOfTheSilverPath) {
    const WorkedPacks worked(described());
    const Pack& pack = worked.likeliest().pack();
    const PaperModel& paper = worked.likeliest().paper();
    const auto clearing_s = bleach_time(paper.bleach, pack.darkroom.bath,
                                        clearing_dose(paper, nominal_step(pack.development)).value());
    constexpr std::size_t kPatches = 7;
    const auto asked = worked.asked([&](const WorkedPack& moved) {
        std::array<double, kPatches> densities{};
        const PaperModel& its = moved.paper();
        const Developer developer = moved.developer(its, 0);
        const FilteredGrains grains(developer.population(), moved.filter(moved.grades().size() / 2).value());
        const double dose = bleach_dose(its.bleach, moved.pack().darkroom.bath, clearing_s);
        for (std::size_t i = 0; i < kPatches; ++i) {
            const double log_h = pack.speed_log_s + 1.3 - 0.45 * double(i) - developer.log_threshold();
            densities[i] =
                visual_density(its.sheet.reflectance(finished(
                                   its, developer.with_share(grains.developable(log_h)), {dose, Seconds{0}})))
                    .value;
        }
        return densities;
    });
    double square = 0;
    for (std::size_t i = 0; i < kPatches; ++i)
        square += std::pow(asked.deviation([i](const auto& densities) { return densities[i]; }), 2);
    const double half_width = kWithin95Percent * std::sqrt(square / kPatches);
    EXPECT_NEAR(next_strip(worked).value().doubt_now, half_width, 0.002 * half_width);
}

// An owner who states it is believed, one fit after the other.
TEST(FitHonesty, SheetScatterStaysAsItsOwnerStatesIt) {
    Pack prior = described();
    const std::vector<own::Strip> slips{{"fixed", 1, 0, 2, 0, 0}, {"blank", 1, 0, 2, 0, 90}};
    prior.sheet_scatter = 0.02;
    prior.knowledge["scatter.sheet"] = {Origin::given, std::nullopt};
    const Pack once = fit_of(prior, truth_of(prior), 0.01, 3, slips).pack;
    const Pack twice = fit_of(once, truth_of(prior), 0.01, 4, slips).pack;
    EXPECT_EQ(twice.sheet_scatter, 0.02);
    EXPECT_EQ(twice.known("scatter.sheet").origin, Origin::given);
}

}  // namespace
}  // namespace fogproof::tests
