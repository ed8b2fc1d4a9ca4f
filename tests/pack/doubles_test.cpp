// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// No reading counts twice, however it comes again; a patch measured twice may. Common practice, no source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;

constexpr int kDataFault = 65;
constexpr const char* kSlips =
    "strip,exposure_s,restrainer_ml_l,develop_s,density\n"
    "fixed,0,0,0,0.1\nblank,0,0,90,0.45\nb20,0,20,90,0.27\n";

TEST(Doubles, AFileFittedTwiceOverThePackIsRefused) {
    const Program program;
    program.write("slips.csv", kSlips);
    ASSERT_EQ(program.run("pack fit slips.csv -o one.toml").code, 0);
    const auto before = program.files();
    const auto twice = program.run("pack fit slips.csv --pack one.toml -o one.toml --force");
    EXPECT_EQ(twice.code, kDataFault) << twice.out;
    EXPECT_THAT(twice.err, AllOf(HasSubstr("slips.csv:2 to 4: 3 readings stand already in "),
                                 HasSubstr("the pack's [readings]:3 to 5"), HasSubstr("without --pack")));
    EXPECT_EQ(program.files(), before) << "nothing is written, no numbered copy either";
}

TEST(Doubles, RowsOfTheFirstFileInASecondOneAreNamedAllInOneGo) {
    const Program program;
    program.write("slips.csv", kSlips);
    program.write("more.csv",
                  "density,strip,develop_s,exposure_s,restrainer_ml_l\n"
                  "0.27,b20,90,0,20\n0.2,b40,90,0,40\n0.1,fixed,0,0,0\n");
    ASSERT_EQ(program.run("pack fit slips.csv -o one.toml").code, 0);
    const auto twice = program.run("pack fit more.csv --pack one.toml -o two.toml");
    EXPECT_EQ(twice.code, kDataFault) << twice.out;
    EXPECT_THAT(twice.err,
                AllOf(HasSubstr("more.csv:2: 1 reading stands"), HasSubstr("more.csv:4: 1 reading stands")));
}

TEST(Doubles, AFileCopiedBehindItselfIsRefused) {
    const Program program;
    program.write("twice.csv", std::string(kSlips) + kSlips);
    const auto twice = program.run("pack fit twice.csv -o one.toml");
    EXPECT_EQ(twice.code, kDataFault) << twice.out;
    EXPECT_THAT(twice.err, HasSubstr("twice.csv:6 to 8: 3 readings stand already in twice.csv:2 to 4"));
}

TEST(Doubles, PatchesMeasuredTwiceAreTaken) {
    const Program program;
    program.write("slips.csv",
                  std::string(kSlips) + "b20,0,20,90,0.27\nb20,0,20,90,0.28\nblank 2,0,0,90,0.45\n");
    const auto fit = program.run("pack fit slips.csv -o one.toml");
    EXPECT_EQ(fit.code, 0) << fit.err;
    EXPECT_THAT(fit.out, HasSubstr("Fit of 6 readings"));
    program.write("more.csv", "strip,exposure_s,restrainer_ml_l,develop_s,density\nblank 3,0,0,90,0.45\n");
    EXPECT_EQ(program.run("pack fit more.csv --pack one.toml -o two.toml").code, 0);
}

TEST(Doubles, OneEqualReadingAmongThoseOfItsStripIsARepeat) {
    const Program program;
    program.write("print.csv",
                  "strip,wedge_density,exposure_s,density\nprint,0.3,20,1.2\nprint,0.6,20,0.8\n"
                  "print,0.3,20,1.2\nother,0.3,30,1.3\n");
    EXPECT_EQ(program.run("pack fit print.csv -o one.toml").code, 0);
    program.write("apart.csv",
                  "strip,wedge_density,exposure_s,density\nprint,0.3,20,1.2\nprint,0.6,20,0.8\n"
                  "other,0.3,30,1.3\nprint,0.3,20,1.2\n");
    EXPECT_EQ(program.run("pack fit apart.csv -o two.toml").code, kDataFault);
}

TEST(Doubles, WhatWasReadIsNotAppendedAgain) {
    const Program program;
    program.write("own.csv", kSlips);
    ASSERT_EQ(program.run("read own.csv -o all.csv").code, 0);
    const std::string before = content_of(program / "all.csv");
    const auto twice = program.run("read own.csv -o all.csv");
    EXPECT_EQ(twice.code, kDataFault);
    EXPECT_THAT(twice.err,
                AllOf(HasSubstr("own.csv"), HasSubstr("3 readings stand already in all.csv:3 to 5")));
    EXPECT_EQ(content_of(program / "all.csv"), before);
}

TEST(Doubles, ARefusedReadLeavesNoEmptyFile) {
    const Program program;
    program.write("own.csv", kSlips);
    program.write("copy.csv", kSlips);
    const auto before = program.files();
    EXPECT_EQ(program.run("read own.csv copy.csv -o all.csv").code, kDataFault);
    EXPECT_EQ(program.files(), before);
}

}  // namespace
}  // namespace fogproof::tests
