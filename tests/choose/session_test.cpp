// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Sums of the tray and the order of a bleaching session.
#include "choose/session.hpp"

#include <gtest/gtest.h>

#include "bleach/mixing.hpp"
#include "fogproof/base/error.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

constexpr double kArithmetic = 1e-9;  // sums of a few doubles

TEST(Mixing, OneLitreFillsATrayForTwentyFourByThirty) {
    // Common practice, no source.
    EXPECT_DOUBLE_EQ(usual_litres(240, 300), 1.0);
    EXPECT_DOUBLE_EQ(usual_litres(300, 240), 1.0);
    EXPECT_DOUBLE_EQ(usual_litres(300, 400), 1.7);  // 1.667 L, a tenth up
    EXPECT_DOUBLE_EQ(usual_litres(90, 140), 0.5);
}

TEST(Mixing, ATrayHoldsAreaTimesDepth) {
    // 1 L = 1 dm3 by definition: 2.5 dm x 4 dm x 0.1 dm.
    EXPECT_NEAR(tray_litres(250, 400, 10), 1.0, kArithmetic);
}

TEST(Mixing, OnePlusNIsOnePartInNPlusOne) {
    // By definition of 1+N: 1+9 of a litre is 100 ml and 900 ml, 1+50 of 1.02 L is 20 ml and 1 L.
    const DilutedBath developer = diluted(1, 9);
    EXPECT_NEAR(developer.concentrate_ml, 100, kArithmetic);
    EXPECT_NEAR(developer.water_ml, 900, kArithmetic);
    const DilutedBath bleach = diluted(1.02, 50);
    EXPECT_NEAR(bleach.concentrate_ml, 20, kArithmetic);
    EXPECT_NEAR(bleach.water_ml, 1000, kArithmetic);
}

TEST(Mixing, RestrainerTakesThePlaceOfWater) {
    const DilutedBath developer = diluted(1.5, 9, 20);
    EXPECT_NEAR(developer.additive_ml, 30, kArithmetic);
    EXPECT_NEAR(developer.concentrate_ml, 150, kArithmetic);
    EXPECT_NEAR(developer.concentrate_ml + developer.additive_ml + developer.water_ml, 1500, kArithmetic);
    EXPECT_THROW(static_cast<void>(diluted(1, 1, 501)), Error);
}

TEST(Mixing, PowdersGiveTheStrengthOfTheDilutedConcentrate) {
    // 100 g/L diluted 1+50 is 1.961 g/L, near the 2.25 g/L of the classic print reducer (from memory).
    const BleachPowders powders = bleach_powders(BleachBath{}, 2);
    EXPECT_NEAR(powders.ferricyanide_g, 2 * 100.0 / 51, kArithmetic);
    EXPECT_NEAR(powders.bromide_g, 2 * 40.0 / 51, kArithmetic);
}

TEST(BathUse, AGramOfSilverTakesThreeGramsOfFerricyanide) {
    // Stoichiometry from standard atomic weights: 1 g Ag needs 3.052 g K3[Fe(CN)6] and 1.103 g KBr. A bath of
    // 18 g/L ferricyanide, 27 g/L bromide (Cyclopedia of Photography, "Registration of Photographs") thus
    // holds 5.90 g of silver a litre: 114 sheets of 20.32 x 25.4 cm with 1 g/m2.
    const BleachBath bath{18, 27, 0, 20};
    BathUse use(bath, 1);
    constexpr double kRounded = 0.5;  // sheets
    EXPECT_NEAR(use.usable_silver_g() / kUsableShare / (0.2032 * 0.254), 114, kRounded);
    EXPECT_TRUE(use.takes(use.usable_silver_g()));
    use.take(1);
    EXPECT_NEAR(use.used(), 3.052 / 18, 1e-4);
    EXPECT_FALSE(use.takes(use.usable_silver_g()));
    EXPECT_NEAR(use.as_it_is().ferricyanide_g_l, 18 - 3.052, 1e-3);
    use.renew();
    EXPECT_DOUBLE_EQ(use.as_it_is().ferricyanide_g_l, 18);
}

Recipe cleared(double percent) {
    Recipe recipe;
    recipe.bleach = ClearingPercent{percent};
    return recipe;
}

TEST(Bleaching, SilverLostIsWhatTheTonesLose) {
    const Printing printing(examples::fogged_pack(0.3), examples::ordinary_frame());
    const Proof proof = printing.proof(cleared(100));
    const LostSilver lost = lost_silver(printing, proof);
    // Sum over every tone of the histogram, one by one.
    const PrintModel print = printing.print(proof.steps);
    double mean = 0;
    for (const Tone& tone : printing.frame().all())
        mean += tone.share * print.patch(tone.density).silver.gone.value;
    constexpr double kGathered = 1e-3;  // relative: tones are gathered into bins
    EXPECT_NEAR(lost.picture.value, mean, kGathered * mean);
    EXPECT_DOUBLE_EQ(lost.border.value, print.border().silver.gone.value);

    // 24 x 30 cm with 1 cm of border holds a 2:3 picture of 18.67 x 28 cm.
    const SheetLayout sheet;
    constexpr double kPicture_m2 = 0.28 * 0.28 / 1.5;
    EXPECT_NEAR(sheet.picture_m2(1.5), kPicture_m2, 1e-12);
    EXPECT_NEAR(sheet.picture_m2(1 / 1.5), kPicture_m2, 1e-12);
    EXPECT_NEAR(lost_silver_g(lost, sheet, 1.5),
                1.03 * (lost.picture.value * kPicture_m2 + lost.border.value * (0.072 - kPicture_m2)), 1e-9);
}

TEST(Bleaching, NothingIsLostWithoutBleach) {
    const Printing printing(examples::fogged_pack(0.3), examples::ordinary_frame());
    const LostSilver lost = lost_silver(printing, printing.proof(Recipe{}));
    EXPECT_EQ(lost.picture.value, 0);
    EXPECT_EQ(lost.border.value, 0);
}

TEST(Bleaching, LatitudeEndsWhereTheToleranceIsReached) {
    const Printing printing(examples::fogged_pack(0.3), examples::ordinary_frame());
    const Proof proof = printing.proof(cleared(80));
    const BleachLatitude latitude = bleach_latitude(printing, proof, 1.0);
    EXPECT_LT(latitude.shortest, proof.bleach);
    EXPECT_GT(latitude.longest, proof.bleach);
    constexpr double kSearch = 0.02;  // L* moved in the 0.05 s to which times are searched
    EXPECT_NEAR(bleached_otherwise(printing, proof, latitude.shortest), 1.0, kSearch);
    EXPECT_NEAR(bleached_otherwise(printing, proof, latitude.longest), 1.0, kSearch);
    const BleachLatitude wider = bleach_latitude(printing, proof, 2.0);
    EXPECT_LT(wider.shortest, latitude.shortest);
    EXPECT_GT(wider.longest, latitude.longest);
}

// Common practice, no source: a bleach time holds only for negatives of like contrast and tonality.
TEST(Bleaching, OneTimeHoldsOnlyForNegativesOfLikeTonality) {
    const Pack pack = examples::fogged_pack(0.3);
    const auto waiting = [&](const char* name, const Tones& frame, double percent) {
        const Printing printing(pack, frame);
        const Proof proof = printing.proof(cleared(percent));
        return WaitingPrint{name, pack.darkroom.bath, proof.bleach, bleach_latitude(printing, proof, 1.0),
                            0.01};
    };
    const Session session =
        bleaching_session({waiting("soft", examples::ordinary_frame(0.15, 0.9), 60),
                           waiting("ordinary", examples::ordinary_frame(0.15, 1.15), 100),
                           waiting("ordinary too", examples::ordinary_frame(0.20, 1.17), 101)},
                          pack.bleach, {});
    ASSERT_EQ(session.groups, 2u);
    ASSERT_EQ(session.batches.size(), 2u);
    EXPECT_EQ(session.batches[0].prints, std::vector<std::size_t>{0});  // short times first
    EXPECT_EQ(session.batches[1].prints, (std::vector<std::size_t>{1, 2}));
}

WaitingPrint waiting(double time, double latitude, double silver_g = 0.01, double parts = 50) {
    BleachBath bath;
    bath.parts = parts;
    return {"print", bath, {time}, {{time - latitude}, {time + latitude}}, silver_g};
}

TEST(Session, FewestGroupsServeEveryPrint) {
    // By hand: 20..30, 28..40 share 28 to 30,
    // 39..50 and 45..60 share 45 to 50, 90..110 stands alone.
    const std::vector<WaitingPrint> prints{waiting(25, 5), waiting(34, 6), waiting(44.5, 5.5),
                                           waiting(52.5, 7.5), waiting(100, 10)};
    const Session session = bleaching_session(prints, BleachRate{}, {});
    EXPECT_EQ(session.groups, 3u);
    for (const SessionBatch& batch : session.batches)
        for (const std::size_t i : batch.prints) {
            EXPECT_GE(batch.time, prints[i].latitude.shortest);
            EXPECT_LE(batch.time, prints[i].latitude.longest);
        }
}

TEST(Session, StrongBathsComeFirstAndShortTimesBeforeLongOnes) {
    const Session session = bleaching_session(
        {waiting(80, 1, 0.01, 100), waiting(60, 1), waiting(20, 1), waiting(40, 1, 0.01, 100)}, BleachRate{},
        {});
    std::vector<std::size_t> order;
    for (const auto& batch : session.batches) order.push_back(batch.prints.front());
    EXPECT_EQ(order, (std::vector<std::size_t>{2, 1, 3, 0}));
    EXPECT_EQ(session.baths, 2u);
}

TEST(Session, ABathIsRenewedBeforeItHasGivenItsShare) {
    // 1 L of 1+50 holds 100/51/3.052 = 0.642 g of silver; a quarter of it is 0.161 g, three prints of 0.05 g.
    const std::vector<WaitingPrint> prints(8, waiting(40, 3, 0.05));
    SessionTerms terms;
    terms.together = 1;
    const Session session = bleaching_session(prints, BleachRate{}, terms);
    ASSERT_EQ(session.batches.size(), 8u);
    EXPECT_EQ(session.baths, 3u);
    // After one print 0.05 g x 3.052 of the 1.961 g of ferricyanide are gone; the rate goes with strength, so
    // the 35 s after the soak become 35 / 0.9222 = 37.95 s.
    EXPECT_NEAR(session.batches[1].now.value, 5 + 37.95, 0.01);
    for (std::size_t i = 0; i < 8; ++i) {
        EXPECT_EQ(session.batches[i].fresh, i % 3 == 0) << i;
        EXPECT_EQ(session.batches[i].now.value > session.batches[i].time.value + 1, i % 3 != 0) << i;
    }
}

TEST(Session, APrintTooMuchForAnyBathStillGetsAFreshOne) {
    const Session session = bleaching_session({waiting(40, 3, 5), waiting(40, 3, 5)}, BleachRate{}, {});
    ASSERT_EQ(session.batches.size(), 2u);
    EXPECT_TRUE(session.batches[0].fresh && session.batches[1].fresh);
    EXPECT_EQ(session.baths, 2u);
}

}  // namespace
}  // namespace fogproof::tests
