// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Tones that matter most come out closer to what is wanted, and the others farther from it. Asked of the
// program on patches of a negative; no published source.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

// Codes of the best print on paper that is too soft for what is wanted, so that lights and darks cannot both
// come out.
std::vector<double> too_soft(const PatchPrints& prints, const std::string& minded) {
    const auto answer = prints.program.run(
        "start neg.tif --pack pack.toml --json --whole --clear 1 --no-bleach --grade 1 --fresh 4 " + minded);
    EXPECT_EQ(answer.code, 0) << answer.err;
    const auto best = nlohmann::json::parse(answer.out)["best"];
    const auto number = [&](const char* key) { return std::to_string(double(best[key])); };
    return prints.codes("--grade 1 --bleach 0s --exposure " + number("exposure_s") + "s --restrainer " +
                        number("restrainer_ml_l") + " --develop " + number("develop_s"));
}

TEST(StartOptions, TonesThatAreMindedComeOutCloser) {
    const PatchPrints prints;
    const auto plain = too_soft(prints, ""), lights = too_soft(prints, "--mind 70%-100%=90%"),
               darks = too_soft(prints, "--mind 0%-30%=90%"), less = too_soft(prints, "--mind 70%-100%=55%");
    // Lights come out too dark and darks too light: whoever minds the lights gets a lighter print, whoever
    // minds the darks a darker one, and the more so the more they count.
    for (std::size_t i = 0; i < plain.size(); ++i) {
        EXPECT_GE(lights[i], less[i]) << i;
        EXPECT_GE(less[i], plain[i]) << i;
        EXPECT_LE(darks[i], plain[i]) << i;
    }
    EXPECT_GT(lights[3], less[3]);
    EXPECT_GT(less[3], plain[3]);
    EXPECT_LT(darks[3], plain[3]);
}

}  // namespace
}  // namespace fogproof::tests
