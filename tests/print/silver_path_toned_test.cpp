// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Toned prints. What a toner must do is the trade's: handbooks say that a full bleach gives full sepia and a
// bleach that is cut short leaves black in the darks, browns in the lights (darkroom handbooks on sepia
// toning), that sepia is full after 2 to 3 minutes, and that selenium deepens the black while the lights
// hardly change (Amateur Photographer, "Darkroom toning tips"). No measured colour was found; bounds of
// colour are judgement.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

constexpr double kFullBleach = 20;  // dose, in layer densities; far more than any black has

std::vector<Pack> papers() {
    std::mt19937 random(18);
    std::vector<Pack> all{examples::fogged_pack(0.35), examples::random_pack(random),
                          examples::random_pack(random)};
    // Bleaches that take thin silver first; one that takes the same share of all, as a large starvation does,
    // splits nothing.
    for (Pack& pack : all) pack.bleach.starvation = std::min(pack.bleach.starvation, 0.08);
    return all;
}

double chroma(const Lab& colour) {
    return std::hypot(colour.a, colour.b);
}

// What stands on a sheet of so much silver.
struct Toned {
    FinishedSilver silver;
    Lab lab;
    double density;
};

Toned toned(const PaperModel& paper, double silver, double dose, Toner toner, double seconds = 180) {
    const FinishedSilver done = finished(paper, {{silver}}, {dose, Seconds{seconds}, toner});
    const Spectrum seen = paper.sheet.reflectance(done);
    return {done, lab(xyz_under_d50(seen)), visual_density(seen).value};
}

// Of the paper's own black.
double black_of(const PaperModel& paper) {
    return paper.emulsion.grains.max_density;
}

}  // namespace

TEST(TonedPrint, FullBleachThenSepiaLeavesNoBlackSilver) {
    for (const Pack& pack : papers()) {
        const PaperModel paper = paper_model(pack);
        for (const Toner toner : {Toner::sulphide, Toner::thiourea}) {
            const Toned dark = toned(paper, 0.9 * black_of(paper), kFullBleach, toner),
                        middle = toned(paper, 0.2, kFullBleach, toner);
            EXPECT_LT(dark.silver.left.value, 0.01);
            // Judgement: a brown is warm both ways, between red and yellow.
            EXPECT_GT(middle.lab.a, 3);
            EXPECT_LT(middle.lab.a, 12);
            EXPECT_GT(middle.lab.b, 10);
            EXPECT_LT(middle.lab.b, 35);
        }
    }
}

TEST(TonedPrint, PartialBleachTonesTheLightsAndLeavesTheDarksNeutral) {
    for (const Pack& pack : papers()) {
        const PaperModel paper = paper_model(pack);
        const double light = 0.04, dark = 0.5 * black_of(paper);
        // The dose that takes half of a light tone.
        const double dose = dose_between({light}, {light / 2}, paper.bleach);
        const auto shift = [&](double silver) {
            const Lab plain = toned(paper, silver, 0, Toner::none, 0).lab,
                      brown = toned(paper, silver, dose, Toner::sulphide).lab;
            return std::hypot(brown.a - plain.a, brown.b - plain.b);
        };
        EXPECT_GT(shift(light), 1.2 * shift(dark));
        const Toned lights = toned(paper, light, dose, Toner::sulphide),
                    darks = toned(paper, dark, dose, Toner::sulphide);
        EXPECT_GT(lights.silver.toned.value / light, 2 * darks.silver.toned.value / dark);
    }
}

TEST(TonedPrint, MoreBleachNeverTonesLess) {
    for (const Pack& pack : papers()) {
        const PaperModel paper = paper_model(pack);
        for (const double silver : {0.02, 0.1, 0.4, 0.8}) {
            double last = -1, last_chroma = 0;
            for (double dose = 0; dose < 2; dose += 0.05) {
                const Toned now = toned(paper, silver, dose, Toner::thiourea);
                EXPECT_GE(now.silver.toned.value, last);
                last = now.silver.toned.value;
                if (dose > 0) {
                    EXPECT_GT(chroma(now.lab), last_chroma - 0.3);
                }
                last_chroma = chroma(now.lab);
            }
        }
    }
}

TEST(TonedPrint, IsNeverLighterThanTheBleachedOne) {
    for (const Pack& pack : papers()) {
        const PaperModel paper = paper_model(pack);
        for (const double silver : {0.02, 0.1, 0.4, 0.8})
            for (const double dose : {0.02, 0.1, 0.5, 3.0})
                for (const Toner toner : {Toner::sulphide, Toner::thiourea, Toner::selenium})
                    for (const double seconds : {5.0, 60.0, 600.0})
                        EXPECT_GE(toned(paper, silver, dose, toner, seconds).density,
                                  toned(paper, silver, dose, Toner::none, 0).density - 1e-3)
                            << silver << " " << dose << " " << seconds;
    }
}

TEST(TonedPrint, SepiaIsFullAfterTwoToThreeMinutesAndSomewhatLighterThanThePrintWas) {
    // Full after 2 to 3 minutes: handbooks. Prints for sepia are to be made slightly darker than others: US
    // Army subcourse SS0509. That it takes no more than 0.35 D off a black is judgement.
    for (const Pack& pack : papers()) {
        const PaperModel paper = paper_model(pack);
        for (const Toner toner : {Toner::sulphide, Toner::thiourea}) {
            const double whole = toned(paper, 0.4, kFullBleach, toner, 3600).silver.toned.value;
            EXPECT_GT(toned(paper, 0.4, kFullBleach, toner, 150).silver.toned.value, 0.95 * whole);
            EXPECT_LT(toned(paper, 0.4, kFullBleach, toner, 10).silver.toned.value, 0.5 * whole);
            const double before = toned(paper, black_of(paper), 0, Toner::none, 0).density,
                         after = toned(paper, black_of(paper), kFullBleach, toner, 3600).density;
            EXPECT_LT(after, before);
            EXPECT_GT(after, before - 0.35);
        }
    }
}

TEST(TonedPrint, SeleniumDeepensTheBlackALittleAndLeavesTheLights) {
    for (const Pack& pack : papers()) {
        const PaperModel paper = paper_model(pack);
        const auto gained = [&](double silver) {
            return toned(paper, silver, 0, Toner::selenium, 120).density -
                   toned(paper, silver, 0, Toner::none, 0).density;
        };
        // Judgement: a densitometer sees it on the black; nobody sees it on the lights.
        EXPECT_GT(gained(black_of(paper)), 0.002);
        EXPECT_LT(gained(black_of(paper)), 0.15);
        EXPECT_NEAR(gained(0.03), 0, 0.01);
        const Lab before = toned(paper, 0.03, 0, Toner::none, 0).lab,
                  after = toned(paper, 0.03, 0, Toner::selenium, 120).lab;
        EXPECT_LT(std::hypot(after.l - before.l, after.a - before.a, after.b - before.b), 1);
        const Lab dark = toned(paper, 0.4, 0, Toner::none, 0).lab,
                  purple = toned(paper, 0.4, 0, Toner::selenium, 120).lab;
        EXPECT_GT(purple.a, dark.a) << "to aubergine";
        EXPECT_LT(purple.b, dark.b);
    }
}

TEST(TonedPrint, WithoutATonerOrWithoutTimeIsThePlainPrint) {
    const PaperModel paper = paper_model(examples::fogged_pack(0.35));
    for (const double dose : {0.0, 0.1, 1.0}) {
        const Toned plain = toned(paper, 0.3, dose, Toner::none, 0);
        for (const Toner toner : {Toner::sulphide, Toner::thiourea, Toner::selenium})
            EXPECT_EQ(toned(paper, 0.3, dose, toner, 0).density, plain.density);
    }
}

TEST(TonedPrint, QuickDensityKnowsToners) {
    constexpr double kQuick = 2e-5;  // D, as sheet.hpp promises
    const Sheet sheet({});
    for (const Toner toner : {Toner::sulphide, Toner::thiourea, Toner::selenium})
        for (const double silver : {0.02, 0.2, 0.8}) {
            const FinishedSilver print{{0.05}, {}, {0.02}, {silver}, toner};
            EXPECT_NEAR(sheet.quick_density(print).value, visual_density(sheet.reflectance(print)).value,
                        kQuick);
        }
}

}  // namespace fogproof::tests
