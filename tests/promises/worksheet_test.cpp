// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The worksheet and the proofs beside it say what start says: when the print is due out of the bleach, at
// which restrainer and development it is made, which print is the one recommended, what contrast the pack
// has.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cctype>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>
#include <string_view>

#include "report/pull_rule.hpp"
#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using nlohmann::json;
using testing::HasSubstr;

// One line of words, whatever the markup and the line breaks.
std::string plain(std::string_view page) {
    std::string words;
    bool in_tag = false;
    for (const char each : page) {
        const bool blank = in_tag || each == '<' || std::isspace(static_cast<unsigned char>(each));
        in_tag = each == '<' || (in_tag && each != '>');
        if (!blank)
            words.push_back(each);
        else if (words.empty() || words.back() != ' ')
            words.push_back(' ');
    }
    return words;
}

// Plans the patches and says what start says of them.
json planned(const PatchPrints& prints, const std::string& options) {
    const std::string how = " neg.tif --pack pack.toml --whole --clear 1 " + options;
    const auto start = prints.program.run("start --json" + how);
    EXPECT_EQ(start.code, 0) << start.err;
    const auto plan = prints.program.run("plan --force -o ." + how);
    EXPECT_EQ(plan.code, 0) << plan.err;
    return json::parse(start.out);
}

}  // namespace

TEST(Worksheet, LeadsWithThePictureAndMarksThePlacesThatItsWordsName) {
    const Program program;
    ASSERT_EQ(program.run("demo . --megapixels 0.3").code, 0);
    ASSERT_EQ(program.run("plan negative.tif --pack pack.toml -o sheets").code, 0);
    const std::string page = content_of(program / "sheets/negative.html");
    EXPECT_LT(page.find("<svg class=\"marked\""), page.find("<h2>Expose</h2>"));
    EXPECT_GT(page.find("<h2>The print</h2>"), page.find("class=\"onscreen\""))
        << "charts are for the screen";

    struct Rect {
        double x, y, width, height;
    };
    std::vector<Rect> marks;
    const std::regex mark(
        "rect class=\"mark\" x=\"([0-9.]+)\" y=\"([0-9.]+)\" width=\"([0-9.]+)\" height=\"([0-9.]+)\"");
    for (std::sregex_iterator found(page.begin(), page.end(), mark), end; found != end; ++found)
        marks.push_back(
            {std::stod((*found)[1]), std::stod((*found)[2]), std::stod((*found)[3]), std::stod((*found)[4])});
    ASSERT_EQ(marks.size(), 2u);
    const std::string words = plain(page);
    std::smatch strip, square;
    ASSERT_TRUE(std::regex_search(
        words, strip, std::regex("the whole width, between ([0-9]+) and ([0-9]+) % of the height")));
    ASSERT_TRUE(std::regex_search(
        words, square,
        std::regex(
            "the area from ([0-9]+) to ([0-9]+) % of the width and ([0-9]+) to ([0-9]+) % of the height")));
    // A row goes over the whole width of the frame; its words are whole percents.
    const auto share = [](const std::smatch& told, int i) { return std::stod(told[std::size_t(i)]) / 100; };
    const double frame = marks[0].width, left = marks[0].x,
                 height = marks[0].height / (share(strip, 2) - share(strip, 1)),
                 top = marks[0].y - share(strip, 1) * height;
    EXPECT_NEAR(marks[1].x, left + share(square, 1) * frame, 0.006 * frame);
    EXPECT_NEAR(marks[1].width, (share(square, 2) - share(square, 1)) * frame, 0.011 * frame);
    EXPECT_NEAR(marks[1].y, top + share(square, 3) * height, 0.02 * height);
    EXPECT_NEAR(marks[1].height, (share(square, 4) - share(square, 3)) * height, 0.02 * height);
}

TEST(Worksheet, WithoutAnAnchorBandsCountFromTheLikelyExposure) {
    const PatchPrints prints;
    prints.program.write("stops.toml", "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.35\n");
    const std::string how = " neg.tif --pack stops.toml --whole --clear 1 ";
    const auto plan = prints.program.run("plan" + how + "-o .");
    ASSERT_EQ(plan.code, 0) << plan.err;
    const std::string words = plain(content_of(prints.program / "neg.html"));
    EXPECT_THAT(words, HasSubstr("Band From the likely exposure Seen"));
    EXPECT_THAT(words, HasSubstr("0.00 stop"));
    EXPECT_THAT(words, testing::Not(HasSubstr("Added to")));
    EXPECT_THAT(prints.program.run("start" + how).out,
                HasSubstr(" stop from this exposure; across the whole"));
}

TEST(Worksheet, PullRuleIsThatOfTheShareOfClearing) {
    EXPECT_THAT(pull_rule(61, 7.3, Toner::none, false),
                AllOf(HasSubstr("still a shade greyer than the fixed slip"), HasSubstr("61 % of clearing"),
                      HasSubstr("7.3 L*")));
    EXPECT_THAT(pull_rule(100, 0.8, Toner::none, false),
                HasSubstr("Take it out when the border stops getting brighter"));
    EXPECT_THAT(pull_rule(130, 0.2, Toner::none, false),
                AllOf(HasSubstr("Leave it in for the full time"), HasSubstr("130 % of clearing")));
    EXPECT_THAT(pull_rule(std::nullopt, 0, Toner::none, false), HasSubstr("by the clock"));
    EXPECT_THAT(pull_rule(61, 7.3, Toner::none, true),
                AllOf(HasSubstr("by the clock, 61 % of clearing"), HasSubstr("more fog than the picture")));
}

// The border has more fog than the picture: judged by it, a print would be bleached far too long.
TEST(Worksheet, ABorderWithMoreFogThanThePictureDoesNotTellWhenToPull) {
    const PatchPrints prints;
    prints.program.write("edged.toml", content_of(prints.program / "pack.toml") +
                                           "[edge_fog]\ndensity = 0.3\nreach_mm = 30\n");
    const auto said = [&](const std::string& verb, const std::string& pack) {
        const auto answer =
            prints.program.run(verb + " neg.tif --whole --clear 1 --bleach 60% --pack " + pack);
        EXPECT_EQ(answer.code, 0) << answer.err;
        return answer.out;
    };
    EXPECT_THAT(said("start", "pack.toml"), HasSubstr("unexposed border becomes"));
    for (const char* verb : {"start", "plan"})
        EXPECT_THAT(said(verb, "edged.toml"), AllOf(HasSubstr("Take it out by the clock, 60 % of clearing"),
                                                    testing::Not(HasSubstr("unexposed border"))))
            << verb;
}

// The depth of a bleach is known to some percent of clearing, never to tenths of one.
// Whatever a page is printed on, its rim may be white or black.
TEST(Worksheet, ProofsSayWhyTheirPrintIsRecommended) {
    const PatchPrints prints;
    static_cast<void>(planned(prints, ""));
    const std::string words = plain(content_of(prints.program / "neg-proofs.html"));
    EXPECT_NE(words.find("The framed print is the recommended one: it is expected to come closest when the "
                         "doubt about the pack"),
              std::string::npos);
    EXPECT_EQ(words.find("white rim"), std::string::npos);
}

TEST(Worksheet, ProofsHeadTheirRowsInWholePercent) {
    const PatchPrints prints;
    const json answer = planned(prints, "");
    ASSERT_GT(double(answer["best"]["bleach_s"]), 0);
    const std::string page = plain(content_of(prints.program / "neg-proofs.html"));
    const std::string own = std::to_string(std::lround(double(answer["best"]["clearing_percent"])));
    EXPECT_THAT(page, HasSubstr(own + " % of clearing"));
    EXPECT_FALSE(std::regex_search(page, std::regex("[0-9]\\.[0-9]+ % of clearing"))) << page;
}

TEST(Worksheet, PullRuleIsThatOfStartOnEverySheet) {
    const PatchPrints prints;
    // Placed greys want a border that is not cleared, and whites one that is.
    for (const char* wanted : {"", "--place 0.3@90%", "--mind 80%-100%=95%"}) {
        const json answer = planned(prints, wanted);
        if (double(answer["best"]["bleach_s"]) <= 0) continue;
        const std::string rule = answer["pull"]["rule"];
        const double percent = answer["best"]["clearing_percent"];
        EXPECT_EQ(percent < 95, rule.find("still a shade greyer") != std::string::npos) << rule;
        EXPECT_EQ(percent >= 95 && percent <= 105,
                  rule.starts_with("Take it out when the border stops getting brighter"))
            << rule;
        for (const char* sheet : {"neg.html", "neg.txt", "session.html", "session.txt"})
            EXPECT_THAT(plain(content_of(prints.program / sheet)), HasSubstr(rule)) << sheet << wanted;
        const auto text =
            prints.program.run(std::string("start neg.tif --pack pack.toml --whole --clear 1 ") + wanted);
        EXPECT_THAT(plain(text.out), HasSubstr(rule));
    }
}

TEST(Worksheet, ProofsAreMadeAsThePlanSaysAndMarkItsPrint) {
    const PatchPrints prints;
    // A paper whose fog wants restrainer.
    prints.program.write(
        "pack.toml",
        "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.6\n[anchor]\nknown = true\n"
        "[restrainer]\nhalf_ml_l = 8\n");
    const json answer = planned(prints, "--dilution 33");
    const json& best = answer["best"];
    ASSERT_GT(double(best["restrainer_ml_l"]), 0) << "the pack does not ask what it is here for";
    const std::string page = content_of(prints.program / "neg-proofs.html"), words = plain(page);
    EXPECT_THAT(words,
                HasSubstr("restrainer " +
                          best["restrainer_ml_l"].dump().substr(0, best["restrainer_ml_l"].dump().find('.')) +
                          " ml/L"));
    EXPECT_THAT(words, HasSubstr("bleach bath 1+33"));
    // The print with the mark is the one that start tells.
    const auto cell = page.find("<td class=\"closest\">");
    ASSERT_NE(cell, std::string::npos);
    const std::string marked = plain(std::string_view(page).substr(cell, page.find("</td>", cell) - cell));
    EXPECT_THAT(marked, HasSubstr("Recommended"));
    const auto two_digits = [](double value) {
        const double unit = std::pow(10, std::floor(std::log10(value)) - 1);
        std::ostringstream text;
        text << std::round(value / unit) * unit;
        return text.str();
    };
    EXPECT_THAT(marked, HasSubstr("grade " + (std::ostringstream() << double(best["grade"])).str() + ","));
    EXPECT_THAT(marked, HasSubstr(two_digits(best["exposure_s"]) + " s, bleach " +
                                  two_digits(best["bleach_s"]) + " s"));
}

// Headings tell the range that `pack show` has for the paper before it fogged, not that of the grade's
// number.
TEST(Worksheet, HeadingsTellThePacksOwnContrast) {
    const PatchPrints prints;
    prints.program.write(
        "fitted.toml",
        "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.35\n[anchor]\nknown = true\n"
        "[[filter]]\ngrade = 1\nbalance = 0.1\n[[filter]]\ngrade = 4\nbalance = -0.5\n");
    const auto grid = prints.program.run(
        "grid neg.tif --pack fitted.toml --whole --clear 1 --html -o grid.png --cell 80 --across grade=1,4 "
        "--down bleach=0");
    ASSERT_EQ(grid.code, 0) << grid.err;
    const auto show = prints.program.run("pack show fitted.toml --json");
    ASSERT_EQ(show.code, 0) << show.err;
    const std::string page = plain(content_of(prints.program / "grid.png.html"));
    const std::map<double, double> by_number{{1, 127.5}, {4, 72.5}};
    int told = 0;
    const json shown = json::parse(show.out);
    for (const auto& grade : shown["grades"]) {
        const double range = grade["iso_range_fresh"];
        EXPECT_THAT(page, HasSubstr("ISO R " + std::to_string(std::lround(range)) + " unfogged"));
        EXPECT_GT(std::abs(range - by_number.at(grade["grade"])), 3) << "no other than the number's own";
        ++told;
    }
    EXPECT_EQ(told, 2);
}

}  // namespace fogproof::tests
