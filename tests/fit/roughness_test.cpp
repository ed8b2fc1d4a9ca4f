// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Readings of dark patches jump about more than those of light ones: the shape is taken for granted, the size
// learnt.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "fit/roughness.hpp"
#include "fogproof/fit/pack_fit.hpp"
#include "support/own_strips.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

// 0.012 + 0.008 D, times a size.
double noise_at(double density, double size) {
    return size * (0.012 + 0.008 * density);
}

std::vector<Reading> noisy(double size, unsigned seed) {
    const Pack truth = own::old_paper(Contrast::variable);
    auto strips = own::usual_strips();
    strips.push_back({"soft again", 21, 40, 2, 20});
    auto readings = own::read(truth, own::patches_of(strips, truth.contrast), 0, seed);
    std::mt19937 random(seed);
    for (Reading& reading : readings)
        reading.density += std::normal_distribution<>(0, noise_at(reading.density, size))(random);
    return readings;
}

}  // namespace

TEST(RisingNoise, SizeIsLearnt) {
    for (const double size : {0.5, 1.0, 2.0}) {
        const auto readings = noisy(size, 7);
        const PackFit fit = fitted_pack(own::nothing_known(Contrast::variable), readings, "x");
        // Of some 70 readings a deviation is known to a tenth, and what was usual before counts a little.
        EXPECT_NEAR(fit.reading_error / noise_at(kRoughAt, size), 1, 0.3) << size;
    }
}

TEST(RisingNoise, ShapeIsThatOfTheNoise) {
    for (const double density : {0.0, 0.3, 1.2, 2.2})
        EXPECT_NEAR(roughness(density) * noise_at(kRoughAt, 1), noise_at(density, 1), 1e-12) << density;
    EXPECT_GT(roughness(2.0), 1.8 * roughness(0.1));
    EXPECT_EQ(roughness(-0.02), roughness(0)) << "a reading below the instrument's nought";
}

}  // namespace fogproof::tests
