// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The program as it is typed: the way through it, and every wrong turn we could think of.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "base/words.hpp"
#include "support/folded.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/typed_files.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::StartsWith;
using vips::VImage;

// Said by CMakeLists.txt alone.
std::string version_of_build() {
    const std::string text = content_of(std::filesystem::path(FOGPROOF_SOURCE_DIR) / "CMakeLists.txt");
    const auto at = text.find("VERSION ", text.find("project(")) + 8;
    return text.substr(at, text.find_first_of(" \n)", at) - at);
}

TEST(CommandLine, TellsTheVersionOfTheBuild) {
    const auto answer = Program().run("--version");
    EXPECT_EQ(answer.code, 0);
    EXPECT_THAT(answer.out, StartsWith("fogproof " + version_of_build() + "\n"));
    EXPECT_THAT(answer.out,
                AllOf(HasSubstr("libvips 8."), HasSubstr("Little CMS 2."), HasSubstr("libtiff 4."),
                      HasSubstr("libdeflate 1."), HasSubstr("Ceres 2.")));
    EXPECT_EQ(answer.err, "");
}

TEST(CommandLine, HelpsWithEveryVerb) {
    const Program program;
    const std::string top = program.run("--help").out;
    for (const char* verb : {"demo", "grid", "print", "pack", "pack new", "pack check", "pack show"}) {
        EXPECT_THAT(top, HasSubstr(std::string(verb).substr(0, 4)));
        const auto answer = program.run(std::string(verb) + " --help");
        EXPECT_EQ(answer.code, 0) << verb;
        EXPECT_EQ(answer.err, "") << verb;
        EXPECT_THAT(answer.out, HasSubstr("--help")) << verb;
    }
    for (const char* word : {"--pack", "--grade", "--exposure", "--restrainer", "--develop", "--bleach",
                             "--dilution", "--redevelop", "--recipe"})
        EXPECT_THAT(program.run("print --help").out, HasSubstr(word));
}

TEST(CommandLine, LeadsFromTheDemoToItsGridItsPrintsAndItsPack) {
    vips_ready();
    const Program program;
    const auto works = [&](const std::string& words) {
        const auto answer = program.run(words);
        EXPECT_EQ(answer.code, 0) << words << "\n" << answer.err;
        return answer;
    };
    works("demo attic --megapixels 0.3");
    for (const char* name :
         {"negative.tif", "print.jpg", "print-labels.csv", "pack.toml", "readings.csv", "README.txt"})
        EXPECT_TRUE(std::filesystem::is_regular_file(program / "attic" / name)) << name;

    const auto drawn = works("grid attic/negative.tif --pack attic/pack.toml -o grid.png --cell 120");
    // Guesses taken are said.
    EXPECT_THAT(drawn.err, AllOf(HasSubstr("linear transmittance"), HasSubstr("the frame was found")));
    const VImage grid = VImage::new_from_file((program / "grid.png").c_str());
    EXPECT_GT(grid.width(), 4 * 120);
    const auto numbers = nlohmann::json::parse(content_of(program / "grid.png.json"));
    EXPECT_TRUE(numbers.is_object());

    works("print attic/negative.tif --pack attic/pack.toml -o print.tif --grade 3 --bleach 100%");
    const VImage print = VImage::new_from_file((program / "print.tif").c_str());
    EXPECT_EQ(print.format(), VIPS_FORMAT_USHORT);
    EXPECT_EQ(print.bands(), 3);
    std::filesystem::create_directory(program / "prints");
    std::filesystem::copy_file(program / "attic/negative.tif", program / "second.tif");
    works("print attic/negative.tif second.tif --pack attic/pack.toml -o prints --format jpg");
    EXPECT_TRUE(std::filesystem::exists(program / "prints/negative.jpg"));
    EXPECT_TRUE(std::filesystem::exists(program / "prints/second.jpg"));

    EXPECT_THAT(works("pack check attic/pack.toml").out, HasSubstr("attic/pack.toml is valid"));
    EXPECT_THAT(works("pack show attic/pack.toml").out, AllOf(HasSubstr("measured"), HasSubstr("assumed")));
    const auto shown =
        works("pack show attic/pack.toml --json --at grade=3,restrainer=20,bleach=40s --at grade=0");
    EXPECT_TRUE(nlohmann::json::accept(shown.out)) << shown.out;
    works("pack show attic/pack.toml --curves curves.svg");
    EXPECT_THAT(content_of(program / "curves.svg"), HasSubstr("<svg"));
}

TEST(CommandLine, IsQuietWhenAskedAndTellsTheTablesErrorWhenAsked) {
    const Program program;
    make_typed_files(program);
    const std::string print = "print scan.tif --pack pack.toml --force -o out.tif ";
    EXPECT_EQ(program.run(print + "--quiet").err, "");
    EXPECT_THAT(program.run(print + "--verbose").err, HasSubstr("L*"));
}

TEST(CommandLine, GivesTheSamePixelsTwice) {
    const Program program;
    make_typed_files(program);
    for (const char* name : {"a.tif", "b.tif"})
        ASSERT_EQ(program.run("print scan.tif --pack pack.toml -o " + std::string(name)).code, 0);
    EXPECT_EQ(content_of(program / "a.tif"), content_of(program / "b.tif"));
}

TEST(CommandLine, OneBadNegativeDoesNotKeepTheOthersFromTheirPrints) {
    const Program program;
    make_typed_files(program);
    const auto answer = program.run("print text.tif scan.tif --pack pack.toml -o folder --quiet");
    EXPECT_EQ(answer.code, 65);
    EXPECT_THAT(answer.err, AllOf(HasSubstr("text.tif"), HasSubstr("not all negatives could be printed")));
    EXPECT_TRUE(std::filesystem::exists(program / "folder/scan.tif"));
    EXPECT_FALSE(std::filesystem::exists(program / "folder/text.tif"));
}

TEST(CommandLine, AValueOfThousandsOfLettersIsNotRepeatedInFull) {
    const Program program;
    make_typed_files(program);
    const std::string letters(3000, 'x');
    for (const std::string& words :
         {"start scan.tif --pack pack.toml --black-time " + letters,
          "grid scan.tif --pack pack.toml -o " + letters, "print scan.tif -o out.tif --pack " + letters,
          "pack show pack.toml --json=" + letters,
          "print scan.tif --pack pack.toml -o out.tif --flare " + letters, letters}) {
        const auto answer = program.run(words);
        EXPECT_NE(answer.code, 0) << words;
        EXPECT_THAT(answer.err, AllOf(HasSubstr("xxx ... xxx"), testing::StartsWith("fogproof: "))) << words;
        EXPECT_LT(answer.err.size(), 1000u) << words;
    }
}

TEST(CommandLine, EveryOutputMayBeNamedInFull) {
    const Program program;
    make_typed_files(program);
    std::filesystem::create_directory(program / "sheets");
    for (const char* words : {"print scan.tif --pack pack.toml --output print.tif",
                              "grid scan.tif --pack pack.toml --output grid.png --cell 80",
                              "plan scan.tif --pack pack.toml --output sheets",
                              "read strip.tif --white 20,190,120,50=0.09 --steps 7 --output rows.csv",
                              "pack new --white 0.08 --blank 0.3 --output new.toml",
                              "pack fit readings.csv --pack new.toml --output fitted.toml"}) {
        const auto answer = program.run(words);
        EXPECT_EQ(answer.code, 0) << words << "\n" << answer.err;
        const std::string name = std::string(words).substr(std::string(words).find("--output ") + 9);
        EXPECT_TRUE(std::filesystem::exists(program / name.substr(0, name.find(' ')))) << name;
    }
}

TEST(CommandLine, OnlyForceReplacesADemoOrManualPages) {
    const Program program;
    std::filesystem::create_directory(program / "pages");
    for (const char* words : {"demo attic --megapixels 0.3", "manual pages"}) {
        EXPECT_EQ(program.run(words).code, 0) << words;
        EXPECT_NE(program.run(words).code, 0) << words;
        EXPECT_EQ(program.run(std::string(words) + " --force").code, 0) << words;
    }
}

// A shell tells the end by a signal as more than 128 (POSIX.1-2017, XCU 2.8.2); the usual ones add its
// number.
TEST(CommandLine, AnInterruptedRunEndsWithTheSignalsCode) {
    const Program program;
    const auto cut = program.shell("timeout --preserve-status -s INT 0.4 \"$FOGPROOF\" demo attic --quiet");
    EXPECT_EQ(cut.code, 130);
    ASSERT_EQ(program.run("manual pages").code, 0);
    EXPECT_THAT(folded(content_of(program / "pages/fogproof-demo.1")), HasSubstr("130 interrupted"));
}

}  // namespace
}  // namespace fogproof::tests
