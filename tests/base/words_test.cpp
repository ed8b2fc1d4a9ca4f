// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <gtest/gtest.h>

// Boost 1.74 asks for isnan without naming std.
#include <math.h>

#include <boost/math/interpolators/pchip.hpp>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "base/interpolation.hpp"
#include "base/markup.hpp"
#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

// RFC 3629, section 3 and 4: well-formed sequences stay; overlong forms, surrogates, lone bytes and what lies
// past U+10FFFF do not.
TEST(Markup, OnlyWellFormedUtf8Stays) {
    const std::string replaced = "\xEF\xBF\xBD";
    for (const std::string good :
         {"plain", "\xC3\xA9", "\xE2\x89\xA2\xCE\x91", "\xF0\xA3\x8E\xB4", "\xF4\x8F\xBF\xBF"})
        EXPECT_EQ(valid_utf8(good), good);
    EXPECT_EQ(valid_utf8("a\xE9z"), "a" + replaced + "z");
    EXPECT_EQ(valid_utf8("\xC0\x80"), replaced + replaced);
    EXPECT_EQ(valid_utf8("\xED\xA0\x80"), replaced + replaced + replaced);
    EXPECT_EQ(valid_utf8("\xF4\x90\x80\x80"), replaced + replaced + replaced + replaced);
    EXPECT_EQ(valid_utf8("\xE2\x89"), replaced + replaced);
}

// XML 1.0 (fifth edition), sections 2.2 and 2.4.
TEST(Markup, ReservedCharactersAreEscapedAndForbiddenOnesBlanked) {
    EXPECT_EQ(escaped_markup("a<b> & \"c\"\x01\td"), "a&lt;b&gt; &amp; &quot;c&quot; \td");
    EXPECT_EQ(escaped_markup("a\xC2\x85\xEF\xBF\xBEz\n"), "a  z\n");
}

// ISO 646 and ISO 6429 (C0, DEL, C1), Unicode 15 (U+2028 to U+202E, U+2066 to U+2069), and their neighbours.
TEST(Markup, WhatActsInsteadOfBeingSeenBecomesAQuestionMark) {
    EXPECT_EQ(plain_line("a\x1b[2J\r\n\t\x7f\xC2\x80\xC2\x9Fz"), "a?[2J??????z");
    EXPECT_EQ(plain_line("\xE2\x80\xA7\xE2\x80\xA8\xE2\x80\xAE\xE2\x80\xAF"),
              "\xE2\x80\xA7?"
              "?\xE2\x80\xAF");
    EXPECT_EQ(plain_line("\xE2\x81\xA5\xE2\x81\xA6\xE2\x81\xA9\xE2\x81\xAA"),
              "\xE2\x81\xA5?"
              "?\xE2\x81\xAA");
    EXPECT_EQ(plain_line("\xEF\xBF\xBD\xEF\xBF\xBE\xEF\xBF\xBF"),
              "\xEF\xBF\xBD?"
              "?");
    EXPECT_EQ(plain_line("\xC2\xA0 \xC3\xBC \xF0\xA3\x8E\xB4"), "\xC2\xA0 \xC3\xBC \xF0\xA3\x8E\xB4");
    EXPECT_EQ(harmless("a\nb\rc"), "a\nb?c");
    EXPECT_TRUE(is_plain_line("Kabinett, 18 \xC3\x97 24"));
    EXPECT_FALSE(is_plain_line("\xFF"));
}

TEST(Markup, WhatIsTooLongKeepsItsBeginningAndItsEndAndNoHalfCharacters) {
    EXPECT_EQ(shortened("abcdefghij", 10), "abcdefghij");
    EXPECT_EQ(shortened("abcdefghijk", 10), "ab ... jk");
    // RFC 3629: u with diaeresis is two bytes.
    for (std::size_t most = 5; most < 60; ++most) {
        std::string text;
        for (int i = 0; i < 50; ++i) text += "\xC3\xBC";
        const std::string shown = shortened(text, most);
        EXPECT_LE(shown.size(), most);
        EXPECT_EQ(valid_utf8(shown), shown) << most;
    }
}

TEST(Words, NumbersAreShownTheSameEverywhere) {
    EXPECT_EQ(decimal(1.50, 2), "1.5");
    EXPECT_EQ(decimal(-0.0001, 2), "0");
    EXPECT_EQ(decimal(120, 0), "120");
    EXPECT_EQ(fixed(2, 2), "2.00");
    EXPECT_EQ(fixed(-0.001, 1), "0.0");
}

TEST(Words, OnlyAWholeFiniteNumberIsOne) {
    EXPECT_EQ(number_in(" +1.5 "), 1.5);
    EXPECT_EQ(number_in("-3e-2"), -0.03);
    for (const char* text : {"", "1.5x", "nan", "inf", "1,5", "0x10", "--1", "+-1", "1 2"})
        EXPECT_FALSE(number_in(text)) << text;
}

// Damerau (1964): one insertion, deletion, substitution or swap of neighbours is one slip.
TEST(Words, NearestWordIsAtMostTwoSlipsAway) {
    const std::vector<std::string> words{"grade", "bleach", "restrainer"};
    EXPECT_EQ(nearest_word("garde", words), "grade");
    EXPECT_EQ(nearest_word("bleech", words), "bleach");
    EXPECT_EQ(nearest_word("restriner", words), "restrainer");
    EXPECT_FALSE(nearest_word("exposure", words));
    EXPECT_FALSE(nearest_word("xyz", words));
    const std::vector<std::string> options{"--as", "--across"};
    EXPECT_EQ(nearest_word("--sa", options), "--as");
    EXPECT_FALSE(nearest_word("--axis", options)) << "two slips of four letters";
}

TEST(ErrorText, PlaceFoundAllowedOnOneLine) {
    EXPECT_STREQ(Error(Fault::data, "pack.toml:3", "1.9 D", "0 to 0.5 D").what(),
                 "pack.toml:3: 1.9 D; expected: 0 to 0.5 D");
    EXPECT_STREQ(Error(Fault::usage, "--split", "cannot go together with --grade", Advice{"give one"}).what(),
                 "--split: cannot go together with --grade; give one");
    EXPECT_STREQ(Error(Fault::data, "pack.toml", "is empty").what(), "pack.toml: is empty");
}

// Boost.Math's monotone cubic is another implementation of the same construction (Fritsch and Butland 1984);
// inside the table, away from its ends, both are one curve.
TEST(MonotoneCurve, IsTheCurveThatBoostDraws) {
    std::vector<double> x, y;
    for (int i = 0; i < 40; ++i) {
        x.push_back(0.1 * i + 0.03 * std::sin(i));
        y.push_back(std::atan(3 * (x.back() - 2)) + 0.2 * std::sin(5 * x.back()));
    }
    const MonotoneCurve ours(x, y);
    auto their_x = x, their_y = y;
    const boost::math::interpolators::pchip<std::vector<double>> theirs(std::move(their_x),
                                                                        std::move(their_y));
    for (double at = x[2]; at < x[37]; at += 0.007) EXPECT_NEAR(ours(at), theirs(at), 1e-12);
}

TEST(MonotoneCurve, NeverOvershootsItsPoints) {
    const MonotoneCurve curve({0, 1, 2, 3, 4}, {0, 0, 1, 1, 1});
    constexpr double kDecimalRounding = 1e-15;
    for (double at = -1; at < 5; at += 0.01) {
        EXPECT_GE(curve(at), -kDecimalRounding);
        EXPECT_LE(curve(at), 1 + kDecimalRounding);
    }
    EXPECT_EQ(curve(-3), 0);
    EXPECT_EQ(curve(9), 1);
    EXPECT_THROW(MonotoneCurve({0, 1, 1, 2}, {0, 1, 2, 3}), std::invalid_argument);
}

}  // namespace
}  // namespace fogproof::tests
