// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a print is told to be is all that was done to it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "report/print_words.hpp"
#include "report/proof_json.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using examples::fogged_pack;
using examples::ordinary_frame;
using testing::HasSubstr;
using testing::Not;

TEST(PrintWords, RestrainerAndFlashAreToldToo) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    Recipe recipe;
    recipe.exposures = {{0, Seconds{12}}, {5, Seconds{14}}};
    const std::vector<Seconds> times{{12}, {14}};
    EXPECT_THAT(print_sentence(printing, printing.timed_proof(recipe, times)),
                Not(testing::AnyOf(HasSubstr("flash"), HasSubstr("restrainer"))));
    recipe.restrainer_ml_l = 10;
    recipe.flashes = {{0, Seconds{0.2}}};
    const Proof proof = printing.timed_proof(recipe, times);
    EXPECT_THAT(
        print_sentence(printing, proof),
        HasSubstr("12 s at 0 + 14 s at 5, flash 0.2 s at 0, development 90 s with restrainer 10 ml/L, "));
    const auto json = proof_json(proof, true);
    ASSERT_EQ(json["flashes"].size(), 1u);
    EXPECT_EQ(json["flashes"][0]["grade"], 0);
    EXPECT_EQ(json["flashes"][0]["exposure_s"], 0.2);
}

}  // namespace
}  // namespace fogproof::tests
