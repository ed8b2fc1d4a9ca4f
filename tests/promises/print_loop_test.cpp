// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// From a plan to its print and back in three commands: read, pack fit, plan. The print is the program's own,
// on the paper that the demo's pack really is.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "demo/demo.hpp"
#include "fogproof/pack/file.hpp"
#include "fogproof/pack/readings.hpp"
#include "reading/piece_labels.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;
using testing::Not;

class PrintLoop : public ::testing::Test {
  protected:
    std::string run(const std::string& words) {
        const auto answer = program_.run(words);
        EXPECT_EQ(answer.code, 0) << words << "\n" << answer.err;
        return answer.out;
    }
    [[nodiscard]] PieceLabels planned(const std::string& file) const {
        const auto all = parse_labels(content_of(program_ / file), file);
        EXPECT_EQ(all.size(), 1U);
        return all.at(0);
    }
    Program program_;
};

TEST_F(PrintLoop, IsThreeCommandsAndTheNextSheetIsSurer) {
    run("demo . --megapixels 1");
    program_.write("true.toml", written(true_paper()));
    run("plan negative.tif --pack pack.toml -o sheets");
    const PieceLabels labels = planned("sheets/negative-labels.csv");
    const Reading& told = labels.strip.common;
    EXPECT_EQ(labels.negative, "../negative.tif");
    const auto sheet = content_of(program_ / "sheets/negative.txt");
    EXPECT_THAT(sheet, HasSubstr(std::to_string(int(told.exposure_s.value())) + " s ("))
        << "the seconds of the worksheet";
    EXPECT_THAT(sheet, HasSubstr("The file negative-labels.csv holds this print's labels"));
    EXPECT_THAT(content_of(program_ / "sheets/negative.html"), HasSubstr("negative-labels.csv"));
    EXPECT_THAT(run("plan negative.tif --pack pack.toml"), Not(HasSubstr("labels.csv"))) << "none is written";
    const auto text = [](double number) { return std::to_string(number); };
    run("print negative.tif --pack true.toml -o scan.png --bits 8 --size 1100 --border 8 --exposure " +
        text(*told.exposure_s) + "s --grade " + text(*told.filter) + " --restrainer " +
        text(*told.restrainer_ml_l) + " --develop " + text(*told.develop_s) + " --bleach " +
        text(told.bleach_s) + "s --dilution " + text(*told.bleach_parts));

    run("read scan.png --labels sheets/negative-labels.csv -o prints.csv");
    const auto rows = parse_readings(content_of(program_ / "prints.csv"), "prints.csv");
    EXPECT_GE(rows.size(), 10U);
    for (const Reading& row : rows) {
        EXPECT_EQ(row.strip, "negative");
        EXPECT_EQ(row.bleach_s, told.bleach_s);
        if (row.wedge_density) {
            EXPECT_EQ(row.exposure_s, told.exposure_s);
            EXPECT_EQ(row.filter, told.filter);
        }
    }
    const auto fit = nlohmann::json::parse(
        run("pack fit prints.csv --pack pack.toml --negative negative.tif -o better.toml --json"));
    const auto& surer = fit["negatives"][0];
    EXPECT_EQ(surer["negative"], "negative");
    EXPECT_LT(double(surer["now"]["exposure_stops_either_way"]),
              0.7 * double(surer["before"]["exposure_stops_either_way"]));
    EXPECT_LT(double(surer["now"]["lightness_error"]), double(surer["before"]["lightness_error"]));
    run("plan negative.tif --pack better.toml -o again");
    EXPECT_NE(planned("again/negative-labels.csv").strip.common, told);
}

TEST_F(PrintLoop, FitSaysInWordsHowMuchSurerEachNegativeBecame) {
    run("demo . --megapixels 1");
    std::filesystem::copy_file(program_ / "negative.tif", program_ / "other.tif");
    const std::string said = run(
        "pack fit readings.csv --pack pack.toml -o better.toml --negative negative.tif --negative other.tif");
    EXPECT_THAT(said, HasSubstr("first sheet expected off by"));
    EXPECT_THAT(said, HasSubstr("  negative          before  grade "));
    EXPECT_THAT(said, HasSubstr("  other             before  grade "));
    EXPECT_NE(program_.run("pack fit readings.csv --pack pack.toml -o no.toml --negative readings.csv").code,
              0);
    EXPECT_FALSE(std::filesystem::exists(program_ / "no.toml"));
}

// Readings count as at the anchor, whatever the head was set to and however bright today's light is.
TEST_F(PrintLoop, LabelsCountSecondsAsAtTheAnchor) {
    run("demo . --megapixels 0.5");
    // One recipe for both: between two that are as good, longer seconds may decide otherwise.
    const std::string plan =
        "plan negative.tif --pack pack.toml --grade 2 --restrainer 10 --develop 60 --no-bleach -o ";
    run(plan + "near");
    run(plan + "far --f-number 16");
    run(plan + "dim --light -1");
    const Pack pack = described_paper();
    const double ratio = std::pow(16 / pack.darkroom.enlarger.setting.f_number, 2);
    const double near = planned("near/negative-labels.csv").strip.common.exposure_s.value(),
                 far = planned("far/negative-labels.csv").strip.common.exposure_s.value(),
                 dim = planned("dim/negative-labels.csv").strip.common.exposure_s.value();
    EXPECT_NE(ratio, 1);
    EXPECT_NEAR(far / near, 1, 0.06) << "two digits are told";
    EXPECT_NEAR(dim / near, 1, 0.06);
    EXPECT_THAT(content_of(program_ / "far/negative-labels.csv"),
                HasSubstr("write your seconds (as planned 100 s) times 0.25"));
}

}  // namespace
}  // namespace fogproof::tests
