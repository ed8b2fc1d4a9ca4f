// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Whose word counts: an option that is typed, then the file that is named beside it, then the settings of the
// darkroom. Settings never stop a command that they have no part in.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>

#include "fogproof/pack/readings.hpp"
#include "support/patches.hpp"
#include "support/read_strips.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using nlohmann::json;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

void settle(const Program& program, const std::string& text) {
    std::filesystem::create_directories(program / "set/fogproof");
    program.write("set/fogproof/darkroom.toml", "fogproof_darkroom = 1\n" + text);
}

Program::Answer settled(const Program& program, const std::string& words) {
    return program.run(words, "XDG_CONFIG_HOME=\"$PWD/set\"");
}

TEST(SettingsOrder, ARecipeGoesBeforeThemAndTheCommandLineBeforeBoth) {
    const PatchPrints prints;
    const Program& program = prints.program;
    settle(program, "[work]\ndevelop = 120\ndilution = \"1+20\"\n");
    program.write("told.toml",
                  "fogproof_recipe = 1\n[develop]\ntime_s = 75\n[bleach]\ntime_s = 40\nparts = 60\n");
    program.write("silent.toml", "fogproof_recipe = 1\n[bleach]\ntime_s = 40\n");
    const std::string scan = " neg.tif --pack pack.toml --whole --clear 1 --force ";
    const auto print = [&](const std::string& words, bool with_settings) {
        const std::string all = "print --json -o out.png" + scan + words;
        const auto answer = with_settings ? settled(program, all) : program.run(all);
        EXPECT_EQ(answer.code, 0) << answer.err;
        return json::parse(answer.out)["prints"][0];
    };
    ASSERT_EQ(program.run("print -o made.png" + scan + "--recipe told.toml").code, 0);
    for (const std::string recipe : {"--recipe told.toml", "--recipe made.png"}) {
        EXPECT_EQ(double(print(recipe, true)["develop_s"]), 75) << recipe;
        EXPECT_EQ(print(recipe, true)["clearing_percent"], print(recipe, false)["clearing_percent"])
            << recipe;
    }
    const std::string typed = "--recipe told.toml --develop 100 --dilution 1+30";
    EXPECT_EQ(double(print(typed, true)["develop_s"]), 100);
    EXPECT_EQ(print(typed, true)["clearing_percent"], print(typed, false)["clearing_percent"]);
    // What no recipe says they do.
    for (const std::string silent : {"--recipe silent.toml", "--bleach 40s"}) {
        EXPECT_EQ(double(print(silent, true)["develop_s"]), 120) << silent;
        EXPECT_EQ(print(silent, true)["clearing_percent"],
                  print(silent + " --develop 120 --dilution 20", false)["clearing_percent"]);
    }
    ASSERT_EQ(
        settled(
            program,
            "grid --cell 80 -o grid.png --across restrainer=0 --down redevelop=0 --recipe told.toml" + scan)
            .code,
        0);
    EXPECT_EQ(double(json::parse(content_of(program / "grid.png.json"))["cells"][0]["develop_s"]), 75);
}

// A print made as nothing but the pack says is the same print again, whatever the settings say by then.
TEST(SettingsOrder, APrintAsARecipeTellsAllOfItsTreatment) {
    const PatchPrints prints;
    const Program& program = prints.program;
    const std::string print =
        "print neg.tif --pack pack.toml --whole --clear 1 --force --exposure 12s --json ";
    const auto made = program.run(print + "--bleach 30s -o made.tif");
    ASSERT_EQ(made.code, 0) << made.err;
    settle(program, "[work]\ndevelop = 120\ndilution = \"1+100\"\n");
    const auto again = settled(program, print + "--recipe made.tif -o again.tif");
    ASSERT_EQ(again.code, 0) << again.err;
    const json first = json::parse(made.out)["prints"][0], second = json::parse(again.out)["prints"][0];
    for (const char* key :
         {"develop_s", "bleach_s", "clearing_percent", "density_lightest", "density_darkest"})
        EXPECT_EQ(first[key], second[key]) << key;
}

// What is typed brings its own usual companion: a condenser its Callier Q of 1.35, benzotriazole a stock of 1
// % (ranges from memory; common practice, no source).
TEST(SettingsOrder, WhatIsTypedBringsItsOwnCompanions) {
    const PatchPrints prints;
    const Program& program = prints.program;
    settle(program,
           "[enlarger]\ncallier = 1.0\n[work]\nrestrainer-agent = \"bromide\"\nrestrainer-stock = 10\n");
    const auto print = [&](const std::string& words, bool with_settings) {
        const std::string all =
            "print neg.tif --pack pack.toml --whole --clear 1 --force --exposure 12s -o out.tif " + words;
        EXPECT_EQ((with_settings ? settled(program, all) : program.run(all)).code, 0);
        return patches_of(program, "out.tif", int(PatchPrints::kLight.size()));
    };
    expect_same_print(print("--head condenser", true), print("--head condenser", false));
    expect_same_print(print("--head condenser --callier 1.2", true), print("--callier 1.2", false));
    EXPECT_NE(print("", true), print("--head condenser", true));
    const std::string pack = "pack new --white 0.09 --blank 0.42 --force -o new.toml --restrainer-agent ";
    ASSERT_EQ(settled(program, pack + "benzotriazole").code, 0);
    EXPECT_THAT(content_of(program / "new.toml"),
                HasSubstr("stock_percent = { value = 1, from = \"assumed\" }"));
    ASSERT_EQ(settled(program, pack + "benzotriazole --restrainer-stock 2").code, 0);
    EXPECT_THAT(content_of(program / "new.toml"), HasSubstr("stock_percent = 2\n"));
}

TEST(SettingsOrder, LabelsOfAPrintGoBeforeThem) {
    const Program program;
    ASSERT_EQ(program.run("demo . --megapixels 1").code, 0);
    program.write("labels.csv",
                  "piece,kind,strip,negative,halves,bleach_s,callier\n,print,p,negative.tif,yes,40,1.3\n");
    settle(program, "[enlarger]\ncallier = 1.1\nhead = \"diffuser\"\n");
    const auto callier = [&](const std::string& words) {
        std::filesystem::remove(program / "rows.csv");
        const auto answer = settled(program, "read print.jpg --labels labels.csv -o rows.csv " + words);
        EXPECT_EQ(answer.code, 0) << answer.err;
        return parse_readings(content_of(program / "rows.csv"), "rows.csv").front().callier.value_or(0);
    };
    EXPECT_EQ(callier(""), 1.3);
    EXPECT_EQ(callier("--callier 1.2"), 1.2);
    program.write("labels.csv", "piece,kind,strip,negative,halves,bleach_s\n,print,p,negative.tif,yes,40\n");
    EXPECT_EQ(callier(""), 1.1);
}

class SettledReads : public Reads {
  protected:
    void SetUp() override {
        StripScan scan = plain_scan(printed_wedge(21, 0.15, 0.12, 1.9));
        scan.linear().tiffsave((program_ / "scan.tif").c_str());
        scan.srgb().jpegsave((program_ / "scan.jpg").c_str(), vips::VImage::option()->set("Q", 95));
    }
    std::string read(const std::string& words) {
        std::filesystem::remove(program_ / "rows.csv");
        const auto answer = settled(program_, "read --force -o rows.csv --strip s " + words);
        EXPECT_EQ(answer.code, 0) << answer.err;
        return answer.err;
    }
    [[nodiscard]] std::string rows() const { return content_of(program_ / "rows.csv"); }
    Program program_;
};

TEST_F(SettledReads, EncodingOfNegativesIsNoneOfPrints) {
    const std::string strip = "scan.jpg --white 312,312,136,56=0.12 ";
    settle(program_, "");
    read(strip);
    const std::string as_it_is = rows();
    settle(program_, "[scanner]\nencoding = \"linear\"\n");
    EXPECT_THAT(read(strip), Not(HasSubstr("settings")));
    EXPECT_EQ(rows(), as_it_is);
    // Those of prints have a setting of their own, and a note says that it decides.
    settle(program_, "[scanner]\nprint-encoding = \"linear\"\n");
    EXPECT_THAT(read(strip), HasSubstr("settings of this darkroom say what the codes stand for: linear"));
    EXPECT_NE(rows(), as_it_is);
    EXPECT_THAT(read(strip + "--encoding srgb"), Not(HasSubstr("settings")));
    EXPECT_EQ(rows(), as_it_is);
    settle(program_, "[scanner]\nencoding = \"linear\"\nprint-encoding = \"loud\"\n");
    EXPECT_THAT(settled(program_, "read -o no.csv " + strip).err, HasSubstr("darkroom.toml:4: --encoding"));
}

TEST(SettingsOrder, ANoteSaysThatTheyDecideHowANegativeIsRead) {
    const PatchPrints prints;
    settle(prints.program, "[scanner]\nencoding = \"gamma22\"\n");
    const std::string words = "print neg.tif --pack pack.toml --whole --clear 1 --force -o out.png";
    EXPECT_THAT(settled(prints.program, words).err,
                HasSubstr("settings of this darkroom say what the codes stand for: gamma 2.2"));
    EXPECT_THAT(settled(prints.program, words + " --encoding linear").err, Not(HasSubstr("settings")));
}

TEST_F(SettledReads, NeverStopACommandThatTheyHaveNoPartIn) {
    settle(program_,
           "[enlarger]\ncallier = 1.2\nflare = 0.01\nhead = \"condenser\"\n[scanner]\nencoding = \"linear\"\n"
           "black = \"0.001\"\nwhite = \"312,312,136,56=0.12\"\n");
    read("scan.tif");
    const auto pieces = settled(program_, "read scan.tif --labels-out labels.csv");
    EXPECT_EQ(pieces.code, 0) << pieces.err;
    std::ofstream(program_ / "spots.txt") << cgats({"SAMPLE_ID", "D_VIS"}, {{"1", "0.31"}, {"2", "1.50"}});
    read("spots.txt --exposure 0");
    ASSERT_EQ(program_.run("demo demo --megapixels 0.3").code, 0);
    const auto fit = settled(program_, "pack fit demo/readings.csv --pack demo/pack.toml -o fitted.toml");
    EXPECT_EQ(fit.code, 0) << fit.err;
    // What is typed is refused as before.
    EXPECT_THAT(settled(program_, "read scan.tif -o no.csv --callier 1.1").err,
                HasSubstr("--callier: describes a negative"));
}

}  // namespace
}  // namespace fogproof::tests
