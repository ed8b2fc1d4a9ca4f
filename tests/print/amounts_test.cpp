// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Amounts and axes as people type them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "fogproof/base/error.hpp"
#include "print/amounts.hpp"
#include "print/axis.hpp"
#include "support/refusal.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;

TEST(Amounts, ExposureIsSecondsOrSignedStops) {
    const auto seconds = [](const char* text) { return std::get<Seconds>(exposure_amount(text, "x")).value; };
    const auto stops = [](const char* text) { return std::get<Stops>(exposure_amount(text, "x")).value; };
    EXPECT_EQ(seconds("12s"), 12);
    EXPECT_EQ(seconds(" 8.5 s "), 8.5);
    EXPECT_EQ(seconds("1:30"), 90);
    EXPECT_EQ(seconds("2min"), 120);
    EXPECT_EQ(stops("+1"), 1);
    EXPECT_EQ(stops("-0.5"), -0.5);
    EXPECT_EQ(stops("+0"), 0);
    EXPECT_EQ(stops("0"), 0);
    EXPECT_DOUBLE_EQ(stops("+1/3"), 1.0 / 3);
    EXPECT_DOUBLE_EQ(stops("-2/3"), -2.0 / 3);
    EXPECT_EQ(stops("1stop"), 1);
    EXPECT_EQ(stops("-1.5 stop"), -1.5);
}

TEST(Amounts, ABareNumberIsAskedAboutBecauseItMayBeSecondsOrStops) {
    for (const std::string text : {"1", "12", "0.5"})
        EXPECT_THAT(refusal(Fault::usage, [&] { (void)exposure_amount(text, "--exposure"); }),
                    AllOf(HasSubstr(text + "s for seconds"), HasSubstr("+" + text + " for stops")));
}

TEST(Amounts, ADecimalCommaIsNamedWithTheNumberThatWasMeant) {
    EXPECT_THAT(refusal(Fault::usage, [] { (void)bleach_amount("1,5s", "--bleach"); }),
                HasSubstr("write 1.5s"));
    EXPECT_THAT(refusal(Fault::usage, [] { (void)plain_amount("2,5", "", "grade"); }),
                HasSubstr("write 2.5"));
}

TEST(Amounts, BleachIsSecondsOrPercentOfClearing) {
    EXPECT_EQ(std::get<Seconds>(bleach_amount("40s", "x")).value, 40);
    EXPECT_EQ(std::get<Seconds>(bleach_amount("40", "x")).value, 40);
    EXPECT_EQ(std::get<Seconds>(bleach_amount("1:40", "x")).value, 100);
    EXPECT_EQ(std::get<ClearingPercent>(bleach_amount("100%", "x")).value, 100);
    EXPECT_EQ(std::get<ClearingPercent>(bleach_amount("62.5 %", "x")).value, 62.5);
}

TEST(Amounts, PlainNumbersMayCarryTheirUnit) {
    EXPECT_EQ(plain_amount("20", "ml", "x"), 20);
    EXPECT_EQ(plain_amount("20ml", "ml", "x"), 20);
    EXPECT_EQ(plain_amount("2.5", "", "x"), 2.5);
    EXPECT_EQ(plain_amount("1min30s", "s", "x"), 90);
}

TEST(Amounts, WhatIsNoAmountIsNamedWithWhatIsAllowed) {
    for (const char* text :
         {"", "s", "twelve", "12 h", "12s 4", "1:5", "+1:30", "1e999", "nan", "inf", "+1s", "-4s", "--1"})
        EXPECT_THAT(refusal(Fault::usage, [&] { (void)exposure_amount(text, "--exposure"); }),
                    AllOf(HasSubstr("--exposure: \"" + std::string(text) + "\" is no amount"),
                          HasSubstr("12s"), HasSubstr("+1")))
            << text;
    for (const char* text : {"", "%", "4%s", "40 %%", "half", "nan%"})
        EXPECT_THAT(refusal(Fault::usage, [&] { (void)bleach_amount(text, "--bleach"); }),
                    AllOf(HasSubstr("--bleach: \""), HasSubstr("100%")))
            << text;
    EXPECT_THAT(refusal(Fault::usage, [&] { (void)plain_amount("20l", "ml", "restrainer"); }),
                HasSubstr("restrainer: \"20l\" is no amount; expected: a number in ml"));
}

TEST(Axis, SetsItsQuantityAndNothingElse) {
    const auto first = [](const char* text) { return axis_in(text, "--down").applied(Recipe{}, 0); };
    Recipe wanted;
    wanted.exposures[0].grade = 2.5;
    EXPECT_EQ(first("grade=2.5,3"), wanted);
    wanted = {};
    wanted.exposures[0].amount = Seconds{12};
    EXPECT_EQ(first("exposure=12s"), wanted);
    wanted.exposures[0].amount = Stops{-0.5};
    EXPECT_EQ(first("exposure= -0.5 , +0"), wanted);
    wanted = {};
    wanted.restrainer_ml_l = 20;
    EXPECT_EQ(first("restrainer=20ml"), wanted);
    wanted = {};
    wanted.develop_s = 120;
    EXPECT_EQ(first("develop=120s"), wanted);
    wanted = {};
    wanted.bleach = ClearingPercent{150};
    EXPECT_EQ(first("bleach=150%"), wanted);
    wanted = {};
    wanted.redevelop_s = 30;
    EXPECT_EQ(first("redevelop=30"), wanted);
}

TEST(Axis, SetsEveryExposureOfASplitGrade) {
    Recipe split;
    split.exposures = {{0.0, Stops{0}}, {5.0, Stops{1}}};
    for (const auto& exposure : axis_in("exposure=9s", "--across").applied(split, 0).exposures)
        EXPECT_EQ(std::get<Seconds>(exposure.amount).value, 9);
}

TEST(Axis, NameAndValuesComeBack) {
    for (const char* text : {"grade", "exposure", "restrainer", "develop", "bleach", "redevelop"}) {
        const Axis axis = axis_in(std::string(text) + "=+1,+2,+3", "--across");
        EXPECT_EQ(name_of(axis), text);
        EXPECT_EQ(axis.in_words(), text + std::string("=+1, +2, +3"));
    }
}

TEST(Axis, AListInWhichADecimalCommaCameApartIsRefused) {
    const auto fault = [](const std::string& text) {
        return refusal(Fault::usage, [&] { (void)axis_in(text, "--down"); });
    };
    EXPECT_THAT(fault("bleach=1,5s,3s"),
                AllOf(HasSubstr("bleach=1 has no unit beside 5s"), HasSubstr("1.5s")));
    EXPECT_THAT(fault("grade=1,5,2,5"), AllOf(HasSubstr("grade=5 is there twice"), HasSubstr("2.5")));
    EXPECT_THAT(fault("bleach=0,0"), HasSubstr("bleach=0 is there twice"));
    EXPECT_THAT(fault("grade=0.5,1/2"), HasSubstr("grade=1/2 is the same as 0.5"));
    EXPECT_NO_THROW((void)axis_in("bleach=0,50%,100%,40s", "--down"));
    EXPECT_NO_THROW((void)axis_in("bleach=0,30s,1:30,100%", "--down"));
    EXPECT_NO_THROW((void)axis_in("exposure=-1,0,+1", "--down"));
}

TEST(Axis, ASpanOfValuesIsToldApartByItsDash) {
    EXPECT_THAT(refusal(Fault::usage, [] { (void)axis_in("grade=1-4", "--across"); }),
                AllOf(HasSubstr("\"1-4\" is no grade"), HasSubstr("1,2,3,4")));
}

TEST(Axis, FaultsNamePlaceFoundAndAllowed) {
    const auto fault = [](const std::string& text) {
        return refusal(Fault::usage, [&] { (void)axis_in(text, "--across"); });
    };
    EXPECT_EQ(fault("bleech=1"),
              "--across: \"bleech\" is no axis, perhaps bleach; expected: grade, exposure, restrainer, "
              "develop, bleach, "
              "redevelop, toner");
    EXPECT_THAT(fault("colour=red"), AllOf(HasSubstr("\"colour\" is no axis;"), HasSubstr("redevelop")));
    EXPECT_THAT(fault("grade"), HasSubstr("0 values for grade; expected: 1 to 20 values (grade=A,B,C)"));
    EXPECT_THAT(fault("grade="), HasSubstr("\"\" is no grade"));
    EXPECT_THAT(fault("grade=1,,2"), HasSubstr("\"\" is no grade"));
    EXPECT_THAT(fault("grade=2s"), HasSubstr("\"2s\" is no grade"));
    EXPECT_EQ(fault("grade=9"), "--across: grade=9; expected: 00 to 6");
    EXPECT_EQ(fault("bleach=50%,-3%"), "--across: bleach=-3%; expected: 0 to 1000 %");
    std::string many = "grade=0";
    for (std::size_t i = 1; i < kMostAxisValues; ++i) many += "," + std::to_string(0.1 * double(i));
    EXPECT_EQ(axis_in(many, "--across").values.size(), kMostAxisValues);
    EXPECT_THAT(fault(many + ",5"), HasSubstr("21 values for grade; expected: 1 to 20 values"));
}

}  // namespace
}  // namespace fogproof::tests
