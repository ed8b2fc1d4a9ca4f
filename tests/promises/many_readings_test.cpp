// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A readings file may hold 20,000 rows. Of many, the program asks memory in proportion, not in squares, and
// finds the strip out of line by some of the others.
#include <gtest/gtest.h>

#include <map>
#include <nlohmann/json.hpp>
#include <string>

#include "fogproof/pack/readings.hpp"
#include "pack/uncertainty.hpp"
#include "support/own_strips.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using Json = nlohmann::json;

// KB that the program and its threads may address. A square of 20,000 readings alone is 3.2 GB.
#ifdef __SANITIZE_ADDRESS__  // it reserves terabytes
const std::string kLimited;
#else
const std::string kLimited = "ulimit -v " + std::to_string(500 * 1024) + " && ";
#endif
constexpr std::size_t kMany = 20000;
constexpr double kManyScatter = 0.012, kManyNoise = 0.01;
// Of a wedge; the more patches of a sheet err together, the more a fit can be drawn off by that.
constexpr int kSteps = 41;
// A normal number is farther off once in 16,000 times.
constexpr double kMostSigmas = 4;

// Wedges on sheets of their own, in turn through filters, doses and bleach times.
std::vector<Reading> many_readings() {
    const Pack truth = own::old_paper(Contrast::variable);
    auto strips = own::slips();
    for (std::size_t i = 0; strips.size() < 6 + kMany / kSteps; ++i)
        strips.push_back({"s" + std::to_string(i), kSteps, 40 + double(i), double(1 + i % 4),
                          double(i / 4 % 2 * 20), 90, double(i / 8 % 2 * 40)});
    const auto patches = own::patches_of(strips, truth.contrast);
    const auto readings = own::read_unlike(truth, patches, kSheetInLight * kManyScatter, kManyNoise, 1);
    return own::on_own_sheets(readings, kManyScatter, 4);
}

TEST(ManyReadings, AreFittedInMemoryInProportionToThemAndGiveBackWhatTheyWereMadeFrom) {
    const Program program;
    program.write("many.csv", readings_text(many_readings(), "made"));
    const auto fit =
        program.shell(kLimited + "exec \"$FOGPROOF\" pack fit many.csv --carrier empty -o many.toml --json");
    ASSERT_EQ(fit.code, 0) << fit.err;
    const Json said = Json::parse(fit.out);
    EXPECT_EQ(said["readings"], many_readings().size());
    EXPECT_TRUE(said["converged"]) << said["ending"];
    // So many leave a number little doubt: one that is pulled to a side shows.
    const Pack truth = own::old_paper(Contrast::variable);
    const std::map<std::string, double> made_from{{"paper.white", truth.sheet.white_density},
                                                  {"fog.blank", truth.blank_density},
                                                  {"paper.black", truth.black_density},
                                                  {"scatter.sheet", kManyScatter}};
    std::size_t told = 0;
    for (const auto& number : said["numbers"]) {
        const auto made = made_from.find(number["name"].get<std::string>());
        if (made == made_from.end()) continue;
        EXPECT_NEAR(number["value"].get<double>(), made->second, kMostSigmas * number["sd"].get<double>())
            << made->first;
        ++told;
    }
    EXPECT_EQ(told, made_from.size());
}

// One of 487 strips says another filter than it was exposed through.
TEST(ManyReadings, NameTheStripsThatAreOutOfLine) {
    auto readings = many_readings();
    for (auto& reading : readings)
        if (reading.strip == "s199") reading.filter = *reading.filter < 3 ? 4 : 1;
    const Program program;
    program.write("many.csv", readings_text(readings, "made"));
    const auto fit = program.run("pack fit many.csv --carrier empty -o many.toml");
    ASSERT_EQ(fit.code, 0) << fit.err;
    EXPECT_NE((fit.out + fit.err).find("strip \"s199\""), std::string::npos) << fit.out;
}

}  // namespace
}  // namespace fogproof::tests
