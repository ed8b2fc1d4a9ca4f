// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// From the strip that `start` tells to the next start: printed on a paper that is slower than the pack says,
// scanned, read, fitted.
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "fogproof/pack/file.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "support/patches.hpp"
#include "support/read_strips.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using nlohmann::json;

// The bands on a paper, printed through the clear edge of the film: from dark to light, as a strip is drawn.
std::vector<double> bands_on(const Pack& pack, const json& best, const json& exposures) {
    const PaperModel paper = paper_model(pack);
    std::vector<double> densities;
    for (const auto& exposure : exposures) {
        PrintSteps steps;
        steps.exposures = {{filter_for(pack, paper, double(best["grade"])), Seconds{double(exposure)}}};
        steps.develop = {double(best["restrainer_ml_l"]), double(best["develop_s"]),
                         pack.development.nominal_c};
        Enlarger contact = pack.darkroom.enlarger;
        contact.flare = 0;
        densities.insert(densities.begin(), PrintModel(paper, contact, steps, 0).patch({0}).density.value);
    }
    return densities;
}

TEST(TestStripLoop, AStripThatIsReadMovesTheNextStartAsTheSlowerPaperWants) {
    const PatchPrints prints;
    const std::string ask = "start neg.tif --whole --clear 1 --no-bleach --json --pack ";
    const auto start = [&](const std::string& words) {
        const auto answer = prints.program.run(ask + words);
        EXPECT_EQ(answer.code, 0) << answer.err;
        return json::parse(answer.out);
    };
    const json before = start("pack.toml");
    constexpr double kSlowerStops = 1;
    Pack slower = parse_pack(content_of(prints.program / "pack.toml"), "pack.toml");
    slower.speed_log_s += kSlowerStops * std::log10(2.0);

    const json &best = before["best"], &exposures = before["test_strip"]["exposures_s"];
    plain_scan(bands_on(slower, best, exposures)).linear().tiffsave((prints.program / "strip.tif").c_str());
    std::string seconds;
    for (const auto& each : exposures) seconds += (seconds.empty() ? "" : ",") + each.dump();
    const auto read = prints.program.run("read strip.tif --white 312,312,136,56=0.12 --exposures " + seconds +
                                         " --filter " + best["grade"].dump() + " --restrainer " +
                                         best["restrainer_ml_l"].dump() + " --develop " +
                                         best["develop_s"].dump() + " --strip bands -o bands.csv");
    ASSERT_EQ(read.code, 0) << read.err;
    const auto fit = prints.program.run("pack fit bands.csv --pack pack.toml -o learnt.toml");
    ASSERT_EQ(fit.code, 0) << fit.err;
    const json after = start("learnt.toml --grade " + best["grade"].dump() + " --restrainer " +
                             best["restrainer_ml_l"].dump() + " --develop " + best["develop_s"].dump());
    const double moved = std::log2(double(after["best"]["exposure_s"]) / double(best["exposure_s"]));
    EXPECT_NEAR(moved, kSlowerStops, double(before["test_strip"]["step_stops"]) / 2);
    EXPECT_LT(double(after["best"]["exposure_s_high"]) / double(after["best"]["exposure_s"]),
              double(best["exposure_s_high"]) / double(best["exposure_s"]));
}

}  // namespace
}  // namespace fogproof::tests
