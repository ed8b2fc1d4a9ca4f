// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Words as people type and copy them: several amounts behind one option, names with blanks, remarks in a
// list, lengths with their unit, and options that change nothing where they stand.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>

#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

constexpr char kPrintTo[] = "print --pack pack.toml --whole --clear 1 --force ";

TEST(SeveralAmounts, EndBeforeTheNegative) {
    const PatchPrints prints;
    const auto wanted = prints.codes("--split 4s@0 7s@5");
    for (const char* words :
         {"-o out.tif --split 4s@0 7s@5 neg.tif", "-o out.tif --split '4s@0 7s@5' neg.tif",
          "-o out.tif --split=4s@0 7s@5 neg.tif", "-o out.tif --split 4s@0 7s@5 -- neg.tif",
          "-o out.tif --split 4s@0 --split 7s@5 neg.tif", "neg.tif --split 4s@0 7s@5 -o out.tif"}) {
        const auto answer = prints.program.run(std::string(kPrintTo) + words);
        EXPECT_EQ(answer.code, 0) << words << '\n' << answer.err;
        EXPECT_EQ(patches_of(prints.program, "out.tif", int(PatchPrints::kLight.size())), wanted) << words;
    }
    const auto flashed = prints.codes("--exposure 12s --flash 1s@0 1s@5");
    EXPECT_EQ(
        prints.program.run(std::string(kPrintTo) + "--exposure 12s -o out.tif --flash 1s@0 1s@5 neg.tif")
            .code,
        0);
    EXPECT_EQ(patches_of(prints.program, "out.tif", int(PatchPrints::kLight.size())), flashed);
}

TEST(SeveralAmounts, ASlipInOneIsNamedAndANameWithAnAtSignIsNone) {
    const PatchPrints prints;
    save_patches(prints.program, "neg@2x.tif", PatchPrints::kLight);
    EXPECT_EQ(prints.program.run(std::string(kPrintTo) + "-o out.tif --split 4s@0 neg@2x.tif").code, 0);
    EXPECT_THAT(prints.program.run(std::string(kPrintTo) + "-o out.tif --split 4s@0 7q@5 neg.tif").err,
                AllOf(HasSubstr("--split: "), HasSubstr("7q")));
    EXPECT_EQ(prints.codes("--split '4s@1 1/2 7s@5'"), prints.codes("--split 4s@1.5 7s@5"));
    // A flash has no exposure that stops could count from, so they are not offered.
    const auto flash = prints.program.run(std::string(kPrintTo) + "-o out.tif --flash x neg.tif");
    EXPECT_THAT(flash.err, AllOf(HasSubstr("--flash: \"x\" is no time"), Not(HasSubstr("stops"))));
}

TEST(DoubleDash, EndsTheOptionsAndIsNeverCalledUnknown) {
    const PatchPrints prints;
    EXPECT_EQ(prints.program.run(std::string(kPrintTo) + "-o out.tif -- neg.tif").code, 0);
    EXPECT_THAT(prints.program.run("print -- neg.tif").err,
                AllOf(HasSubstr("--output: is missing"), Not(HasSubstr("unknown word"))));
}

TEST(Lists, MayEndTheirLinesInRemarks) {
    const PatchPrints prints;
    save_patches(prints.program, "roll#3.tif", PatchPrints::kLight);
    prints.program.write("list.txt", "# this week\nneg.tif   # the hut\n\troll#3.tif\t# the pond\n");
    std::filesystem::create_directory(prints.program / "prints");
    const auto answer = prints.program.run(std::string(kPrintTo) + "--list list.txt -o prints");
    EXPECT_EQ(answer.code, 0) << answer.err;
    for (const char* name : {"prints/neg.tif", "prints/roll#3.tif"})
        EXPECT_TRUE(std::filesystem::exists(prints.program / name)) << name;
}

// What a shell makes of the command in the head of a labels file.
TEST(CommandsToCopy, HoldNamesWithBlanksAndQuotes) {
    const PatchPrints prints;
    for (const std::string name : {"the hut", "it's $HOME; \"x\""}) {
        save_patches(prints.program, name + ".tif", PatchPrints::kLight);
        const std::string quoted = name == "the hut" ? "'the hut.tif'" : "'it'\\''s $HOME; \"x\".tif'";
        const auto planned =
            prints.program.run("plan " + quoted + " --pack pack.toml --whole --clear 1 -o sheets --force");
        ASSERT_EQ(planned.code, 0) << planned.err;
        std::istringstream lines(content_of(prints.program / ("sheets/" + name + "-labels.csv")));
        std::string line, command;
        while (std::getline(lines, line))
            if (const auto at = line.find("--labels "); at != std::string::npos && command.empty())
                command = line.substr(at + 9, line.find(" --known") - at - 9);
        EXPECT_EQ(prints.program.shell("printf %s " + command).out, name + "-labels.csv");
    }
}

TEST(Lengths, TakeTheirUnitAndSharesTheirSign) {
    const PatchPrints prints;
    const auto resolution = [&](const std::string& length) {
        static_cast<void>(prints.codes("--long-side " + length));
        return vips::VImage::new_from_file((prints.program / "out.tif").c_str()).xres();
    };
    EXPECT_EQ(resolution("100"), resolution("10cm"));
    EXPECT_EQ(resolution("101.6"), resolution("4in"));
    EXPECT_EQ(prints.codes("--border 5%"), prints.codes("--border 5"));
    const auto planned = [&](const std::string& margin) {
        return prints.program.run("plan neg.tif --pack pack.toml --whole --clear 1 --margin " + margin).out;
    };
    EXPECT_EQ(planned("20"), planned("2cm"));
}

TEST(TimesOnAnAxis, MayBeMinutesBesideSeconds) {
    const PatchPrints prints;
    const auto grid = prints.program.run(
        "grid neg.tif --pack pack.toml --whole --clear 1 --cell 80 --across grade=2 --down "
        "bleach=0,30s,1:30,100% -o grid.png");
    EXPECT_EQ(grid.code, 0) << grid.err;
}

TEST(ValuesOfAnAxis, AreNotTakenTwiceHoweverTheyAreWritten) {
    const PatchPrints prints;
    for (const char* axis : {"grade=0.5,1/2", "grade=2,2.0", "bleach=0,0s", "bleach=0,0%", "bleach=90s,1:30",
                             "exposure=+0.5,+1/2"})
        EXPECT_THAT(
            prints.program.run(std::string("grid neg.tif --pack pack.toml -o grid.png --across ") + axis).err,
            HasSubstr("is the same as"))
            << axis;
}

TEST(IdleOptions, AreTold) {
    const PatchPrints prints;
    const auto said = [&](const std::string& words) {
        const auto answer = prints.program.run(kPrintTo + words);
        EXPECT_EQ(answer.code, 0) << answer.err;
        return answer.err;
    };
    EXPECT_THAT(said("neg.tif -o out.png --quality 20"), HasSubstr("--quality goes with JPEG"));
    EXPECT_THAT(said("neg.tif -o out.jpg --compress"), HasSubstr("--compress goes with TIFF"));
    EXPECT_THAT(said("neg.tif -o out.tif --bath-depth 3"), HasSubstr("--bath-depth goes with --view bath"));
    EXPECT_THAT(said("neg.tif -o out.tif --format png"), HasSubstr("--format is for prints written into a"));
    EXPECT_THAT(said("neg.tif -o out.tif --size 5000"),
                AllOf(HasSubstr("--size 5000"), HasSubstr(std::to_string(7 * kPatch) + " pixels")));
    EXPECT_THAT(said("neg.tif -o out.jpg --quality 20 --size 50"),
                AllOf(Not(HasSubstr("goes with")), Not(HasSubstr("--size"))));
    const auto film = prints.program.run(std::string(kPrintTo) + "neg.tif -o out.tif --film-slope 0.5");
    EXPECT_EQ(film.code, 64);
    EXPECT_THAT(film.err, AllOf(HasSubstr("--film-slope: "), HasSubstr("--as positive")));
}

TEST(EmptyNames, AreCalledSo) {
    const Program program;
    const auto answer = program.run("demo ''");
    EXPECT_EQ(answer.code, 73);
    EXPECT_THAT(answer.err, HasSubstr("DIR: a folder without a name"));
}

TEST(NewPacks, SayWhatWasMeasured) {
    const Program program;
    EXPECT_THAT(program.run("pack new --white 0.09 --blank 0.42 -o a.toml").err,
                HasSubstr("measured: white, blank;"));
    EXPECT_THAT(
        program.run("pack new --white 0.09 --blank 0.42 --black-density 2.1 --tint 0,5 -o b.toml").err,
        HasSubstr("measured: white, blank, black, tint;"));
    EXPECT_THAT(program.run("pack new --white 0.09 --blank 0.42 --tint 0,x -o c.toml").err,
                HasSubstr("A,B in CIELAB"));
}

}  // namespace
}  // namespace fogproof::tests
