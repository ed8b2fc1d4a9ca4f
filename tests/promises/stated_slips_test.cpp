// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The slips that `pack new` is told of were read by the instrument that reads the strips, once each: what one
// such reading errs by is not laid on all strips.
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "support/own_strips.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using Json = nlohmann::json;

// D; of one reading, and of the instrument in all of them.
constexpr double kNoise = 0.015, kInstrument = 0.02;

std::vector<Reading> read_by_one_instrument(unsigned seed) {
    auto strips = own::usual_strips();
    std::erase_if(strips, [](const own::Strip& strip) { return strip.label == "fixed"; });
    auto readings = own::read(own::old_paper(Contrast::variable), own::patches_of(strips, Contrast::variable),
                              kNoise, seed);
    for (Reading& reading : readings) {
        reading.density = std::round(100 * reading.density) / 100;
        reading.density_error = kNoise;
        reading.common_error = kInstrument;
        reading.instrument = "flatbed";
    }
    // Every slip is a sheet of its own.
    for (std::size_t i = 0; i < readings.size(); ++i)
        if (readings[i].strip == "blank" || readings[i].strip == "b20")
            readings[i].strip += std::to_string(i);
    return readings;
}

// What the strips are off the fit by as a whole, mean of all that were lit.
double off_as_a_whole(const Json& fit) {
    double sum = 0, count = 0;
    for (const Json& strip : fit.at("strips"))
        if (int(strip.at("readings")) > 1) sum += double(strip.at("mean")), ++count;
    return sum / count;
}

TEST(StatedSlips, ErrAsReadingsOfTheirInstrumentDo) {
    const Program program;
    double square = 0;
    constexpr int kPacks = 3;
    for (unsigned seed = 1; seed <= kPacks; ++seed) {
        program.write("strips.csv", readings_text(read_by_one_instrument(seed), "strips"));
        // The white is 0.10 D and the blank 0.45 D; both came out lighter in one reading of one slip.
        ASSERT_EQ(program.run("pack new --white 0.07 --blank 0.41 --surface gloss -o pack.toml --force").code,
                  0);
        const auto said = program.run("pack fit strips.csv --pack pack.toml -o fitted.toml --force --json");
        ASSERT_EQ(said.code, 0) << said.err;
        square += std::pow(off_as_a_whole(Json::parse(said.out)), 2) / kPacks;
    }
    // D; what three sheets that differ by the usual 0.02 D are off in the mean.
    constexpr double kOfSheets = 0.012;
    EXPECT_LT(std::sqrt(square), kOfSheets) << "D; the strips agree, whatever one slip was read as";
}

TEST(StatedSlips, GiveWayToSlipsThatWereReadOtherwise) {
    const Program program;
    auto readings = read_by_one_instrument(1);
    for (const double white : {0.09, 0.10, 0.11}) {
        Reading fixed = readings.front();
        fixed.strip = "fixed" + std::to_string(readings.size());
        fixed.develop_s = 0;
        fixed.density = white;
        readings.push_back(fixed);
    }
    program.write("strips.csv", readings_text(readings, "strips"));
    // 0.25 for 0.10 D is no reading but a wrong number.
    ASSERT_EQ(program.run("pack new --white 0.25 --blank 0.45 --surface gloss -o pack.toml").code, 0);
    const auto said = program.run("pack fit strips.csv --pack pack.toml -o fitted.toml --all --json");
    ASSERT_EQ(said.code, 0) << said.err;
    const Json fit = Json::parse(said.out);
    for (const Json& number : fit.at("numbers"))
        if (number.at("name") == "paper.white") {
            EXPECT_GT(double(number.at("value")), 0.10 - kInstrument);
            EXPECT_LT(double(number.at("value")), (0.10 + 0.25) / 2) << "nearer to what three slips say";
            return;
        }
    FAIL() << "no white";
}

}  // namespace
}  // namespace fogproof::tests
