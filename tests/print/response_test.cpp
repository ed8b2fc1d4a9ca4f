// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The characteristic curve of a way of working, asked quickly, against the same print patch by patch.
#include "print/response.hpp"

#include <gtest/gtest.h>

#include "fogproof/print/print_steps.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

TEST(Response, QuickDensitiesAreThoseOfItsPatches) {
    constexpr double kQuick = 2e-5;  // D, as response.hpp promises
    Pack pack = examples::fogged_pack(0.3);
    pack.edge_fog.density = 0.2;
    const PaperModel paper = paper_model(pack);
    std::vector<LogExposure> exposures;
    for (double at = -3; at < 3; at += 0.05) exposures.push_back({at});
    for (const double edge_fog : {0.0, 0.5})
        for (const double bleach_s : {0.0, 40.0}) {
            Recipe recipe;
            recipe.exposures.front().grade = 3;
            recipe.flashes = {{0, Seconds{0.4}}};
            recipe.bleach = Seconds{bleach_s};
            const PrintSteps steps = print_steps(pack, paper, recipe, Seconds{10});
            ASSERT_FALSE(steps.flashes.empty());
            const Response response(paper, pack.darkroom.enlarger, steps, edge_fog);
            const auto quick = response.quick_densities(exposures);
            ASSERT_EQ(quick.size(), exposures.size());
            for (std::size_t i = 0; i < quick.size(); ++i)
                EXPECT_NEAR(quick[i].value, response.patch(exposures[i]).density.value, kQuick)
                    << exposures[i].value << ", fog of the edge " << edge_fog << ", bleach " << bleach_s;
            EXPECT_GT(quick.back().value, quick.front().value + 0.5);
        }
}

}  // namespace
}  // namespace fogproof::tests
