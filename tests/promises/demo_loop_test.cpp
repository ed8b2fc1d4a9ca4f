// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The loop from a print back to the next one, run from the demo's files as its README.txt says.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "demo/demo.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/pack/readings.hpp"
#include "fogproof/print/print_model.hpp"
#include "reading/piece_labels.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;

// The commands of the story, in order, lines that end in a backslash joined.
std::vector<std::string> commands_of_the_story() {
    std::string story = demo_story();
    for (auto at = story.find("\\\n"); at != std::string::npos; at = story.find("\\\n"))
        story.replace(at, 2, " ");
    std::istringstream lines(story);
    std::vector<std::string> commands;
    const std::string head = "  fogproof ";
    for (std::string line; std::getline(lines, line);)
        if (line.starts_with(head)) commands.push_back(line.substr(head.size()));
    return commands;
}

// What the paper makes of a density over it.
double paper_density(double over_paper, double bleach_s) {
    const Pack pack = true_paper();
    const PaperModel paper = paper_model(pack);
    PrintSteps steps;
    steps.exposures = {{filter_for(pack, paper, kPrintFilter), Seconds{kPrintExposure}}};
    steps.develop = {kPrintRestrainer, kPrintDevelop, pack.development.nominal_c};
    steps.finishing.bleach_dose = bleach_dose(paper.bleach, pack.darkroom.bath, Seconds{bleach_s});
    Enlarger contact = pack.darkroom.enlarger;
    contact.flare = 0, contact.callier = 1;
    const PrintModel model(paper, contact, steps, 0);
    return over_paper > 90 ? model.border().density.value : model.patch({over_paper}).density.value;
}

TEST(DemoLoop, ReadsThePrintLearnsFromItAndFindsTheNextStart) {
    const Program program;
    ASSERT_EQ(program.run("demo . --megapixels 1").code, 0);
    EXPECT_LT(std::filesystem::file_size(program / "print.jpg"), 1'000'000u);
    int run = 0;
    std::string said;
    for (const std::string& command : commands_of_the_story())
        if (command.starts_with("read ") || command.find("prints.csv") != std::string::npos ||
            command.find("learnt.toml") != std::string::npos) {
            const auto answer = program.run(command);
            EXPECT_EQ(answer.code, 0) << command << "\n" << answer.err;
            said += answer.out;
            ++run;
        }
    EXPECT_THAT(said, HasSubstr("first sheet expected off by")) << "how much surer the negative became";
    EXPECT_EQ(run, 3) << "read, pack fit, plan";
    EXPECT_THAT(content_of(program / "sheets/negative.txt"), HasSubstr("Expose a sheet"));
    EXPECT_TRUE(std::filesystem::exists(program / "sheets/negative-labels.csv"));

    int tones = 0, borders = 0;
    double sum = 0;
    for (const Reading& row : parse_readings(content_of(program / "prints.csv"), "prints.csv")) {
        if (row.strip == "print-fixed") continue;  // the slip beside it
        const double bleach_s = row.strip == "print-before" ? 0 : kPrintBleach;
        EXPECT_EQ(row.bleach_s, bleach_s);
        if (row.exposure_s == 0) {
            EXPECT_NEAR(row.density, paper_density(99, bleach_s), 0.02) << row.strip;
            ++borders;
        } else {
            sum += std::pow(row.density - paper_density(*row.wedge_density, bleach_s), 2);
            ++tones;
        }
    }
    EXPECT_EQ(borders, 2);
    ASSERT_GE(tones, 20);
    EXPECT_LE(std::sqrt(sum / tones), 0.02);
}

TEST(DemoLoop, PrintIsLabelledAsTheStorySays) {
    const std::string story = demo_story();
    const auto all = parse_labels(demo_print_labels(), "print-labels.csv");
    ASSERT_EQ(all.size(), 1U);
    const Reading& row = all[0].strip.common;
    EXPECT_EQ(row.exposure_s, kPrintExposure);
    EXPECT_EQ(row.filter, kPrintFilter);
    EXPECT_EQ(row.restrainer_ml_l, kPrintRestrainer);
    EXPECT_EQ(row.develop_s, kPrintDevelop);
    EXPECT_EQ(row.bleach_s, kPrintBleach);
    EXPECT_TRUE(all[0].halves);
    EXPECT_THAT(story, HasSubstr("bleached for " + std::to_string(int(kPrintBleach)) + " s"));
    EXPECT_NEAR(kFixedDensity, 0.085, 0.025) << "within what counts as fixed";
}

}  // namespace
}  // namespace fogproof::tests
