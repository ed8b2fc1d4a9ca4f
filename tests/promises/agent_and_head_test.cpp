// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the restrainer holds and how the enlarger lights, asked of the program: what is not named is told less
// surely, what is named is named on paper too.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using nlohmann::json;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

std::string text_of(const std::filesystem::path& path) {
    std::ifstream file(path);
    return {std::istreambuf_iterator<char>(file), {}};
}

void make(const Program& program, const std::string& options) {
    const auto answer = program.run("pack new --white 0.09 --blank 0.42 --force -o new.toml " + options);
    EXPECT_EQ(answer.code, 0) << answer.err;
}

json shown(const Program& program) {
    const auto said = program.run("pack show new.toml --json");
    EXPECT_EQ(said.code, 0) << said.err;
    return json::parse(said.out);
}

// Width of the 95 % of the blank that 20 ml/L leave.
double width_at_20(const json& pack) {
    for (const json& row : pack["whites"]["restrained"])
        if (row["restrainer_ml_l"] == 20) return double(row["density_high"]) - double(row["density_low"]);
    return 0;
}

// In stops, how far the 95 % of the exposure reach that places a dense tone of the negative, on paper whose
// speed was measured.
double reach(const Program& program, const std::string& options) {
    program.write(
        "placed.toml",
        "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.35\n[speed]\nlog_seconds = { value = "
        "0.5, sd = 0.01, from = \"measured\" }\n[anchor]\nknown = true\n");
    const auto said = program.run(
        "start neg.tif --whole --clear 1 --pack placed.toml --place 1.4@60% --json --grade 2 --restrainer 0 "
        "--bleach 0s " +
        options);
    EXPECT_EQ(said.code, 0) << said.err;
    const json best = json::parse(said.out)["best"];
    return std::log2(double(best["exposure_s_high"]) / double(best["exposure_s_low"]));
}

TEST(AgentAndHead, AnAgentThatIsNotNamedLeavesMoreOpen) {
    const Program program;
    make(program, "");
    const json unnamed = shown(program);
    EXPECT_EQ(unnamed["restrainer_agent"], "unknown");
    make(program, "--restrainer-agent bromide");
    const json bromide = shown(program);
    EXPECT_EQ(bromide["restrainer_agent"], "bromide");
    EXPECT_GT(width_at_20(unnamed), 1.1 * width_at_20(bromide));
    make(program, "--restrainer-agent benzotriazole");
    const auto text = program.run("pack show new.toml --all");
    EXPECT_THAT(text.out, AllOf(HasSubstr("restrainer.agent"), HasSubstr("benzotriazole")));
    EXPECT_THAT(text_of(program / "new.toml"),
                AllOf(HasSubstr("agent = \"benzotriazole\""), HasSubstr("stock_percent = { value = 1,")));
}

TEST(AgentAndHead, SheetsNameTheAgentAndItsDangers) {
    PatchPrints prints;
    const auto page = [&](const std::string& agent, const std::string& file) {
        make(prints.program, agent);
        const auto said = prints.program.run(
            "plan neg.tif --whole --clear 1 --pack new.toml --black-time 8s --force -o out");
        EXPECT_EQ(said.code, 0) << said.err;
        return text_of(prints.program / ("out/" + file));
    };
    for (const char* file : {"session.html", "neg.html"}) {
        EXPECT_THAT(page("--restrainer-agent benzotriazole", file), HasSubstr("enzotriazole")) << file;
        EXPECT_THAT(page("--restrainer-agent bromide", file),
                    AllOf(HasSubstr("potassium bromide"), Not(HasSubstr("enzotriazole"))))
            << file;
        EXPECT_THAT(page("", file), HasSubstr("agent not named")) << file;
    }
    EXPECT_THAT(page("", "session.html"), HasSubstr(" %, agent not named, taken as potassium bromide"));
    EXPECT_THAT(page("--restrainer-agent benzotriazole", "session.html"), HasSubstr("harmful if swallowed"));
}

TEST(AgentAndHead, AHeadThatIsNamedMakesExposuresSurer) {
    PatchPrints prints;
    const auto asked = prints.program.run("pack new --white 0.09 --blank 0.42 --force -o new.toml");
    EXPECT_THAT(asked.err, HasSubstr("--head diffuser or --head condenser"));
    const double unknown = reach(prints.program, ""), diffuser = reach(prints.program, "--head diffuser");
    EXPECT_GT(unknown, 1.2 * diffuser);
    make(prints.program, "--head diffuser");
    EXPECT_EQ(shown(prints.program)["head"], "diffuser");
}

// Callier's Q of condensers is 1.2 to 1.5 (from memory): dense tones want more light than through a diffuser.
TEST(AgentAndHead, ACondenserWantsLongerExposures) {
    PatchPrints prints;
    make(prints.program, "");
    const auto seconds = [&](const std::string& head) {
        const auto said = prints.program.run(
            "start neg.tif --whole --clear 1 --pack new.toml --black-time 8s "
            "--json --grade 2 --restrainer 0 --bleach 0s --head " +
            head);
        EXPECT_EQ(said.code, 0) << said.err;
        return double(json::parse(said.out)["best"]["exposure_s"]);
    };
    EXPECT_GT(seconds("condenser"), 1.1 * seconds("diffuser"));
}

// Half the strength is twice the millilitres; grams of agent, and the bath's grams in a litre, are what
// works.
TEST(Stock, OfOtherStrengthIsCountedByItsGrams) {
    const Program program;
    ASSERT_EQ(program.run("demo . --megapixels 0.3").code, 0);
    const std::string slips = "pack new --white 0.09 --blank 0.42 --restrainer-agent bromide ";
    ASSERT_EQ(program.run(slips + "-o usual.toml").code, 0);
    ASSERT_EQ(program.run(slips + "--restrainer-stock 5 --bleach-stock 200 -o own.toml").code, 0);
    const auto densities = [&](const std::string& options) {
        const auto said = program.run(
            "print negative.tif --exposure +0 --bleach 40s --json --force -o print.tif " + options);
        EXPECT_EQ(said.code, 0) << said.err;
        const json print = json::parse(said.out)["prints"][0];
        return std::array{double(print["density_lightest"]), double(print["density_darkest"])};
    };
    const auto usual = densities("--pack usual.toml --restrainer 10 --dilution 1+50"),
               own = densities("--pack own.toml --restrainer 20 --dilution 1+101"),
               other = densities("--pack own.toml --restrainer 10 --dilution 1+50");
    for (const std::size_t end : {0u, 1u}) EXPECT_NEAR(own[end], usual[end], 1e-9);
    EXPECT_GT(std::abs(other[0] - usual[0]), 0.01);
    EXPECT_THAT(program.run("pack show own.toml --all").out, testing::HasSubstr("5 g/100 ml"));
}

// Of the print as on fresh paper: the head changes how dense the negative is to the paper, and so the
// exposure.
TEST(AgentAndHead, AnUnknownHeadLeavesTheFreshPrintsExposureAsOpenAsHeadsDiffer) {
    const PatchPrints prints;
    const Program& program = prints.program;
    program.write(
        "measured.toml",
        "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.35\n[speed]\nlog_seconds = { value "
        "= 0.5, sd = 0.01, from = \"measured\" }\n[anchor]\nknown = true\n");
    const auto exposure = [&program](const std::string& options) {
        const auto said = program.run(
            "start neg.tif --whole --clear 1 --pack measured.toml --json --grade 2 --restrainer 0 --bleach "
            "0s " +
            options);
        EXPECT_EQ(said.code, 0) << said.err;
        return json::parse(said.out)["best"];
    };
    const json unknown = exposure(""), named = exposure("--callier 1"), other = exposure("--callier 1.1");
    ASSERT_GT(double(other["exposure_s"]), 1.02 * double(unknown["exposure_s"]));
    EXPECT_LT(double(unknown["exposure_s_low"]), double(named["exposure_s"]));
    EXPECT_GT(double(unknown["exposure_s_high"]), double(other["exposure_s"]));
    const auto width = [](const json& best) {
        return std::log2(double(best["exposure_s_high"]) / double(best["exposure_s_low"]));
    };
    // Heads of 1 and 1.1 lie a deviation apart.
    const double apart = std::log2(double(other["exposure_s"]) / double(named["exposure_s"]));
    EXPECT_GT(std::hypot(width(unknown), 0.01), std::hypot(width(named), 2 * apart));
}

}  // namespace
}  // namespace fogproof::tests
