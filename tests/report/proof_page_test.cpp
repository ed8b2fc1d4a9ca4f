// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Pages and worksheets as text: escaping, policy, sums. What a browser makes of them is tested in page/.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdio>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "choose/wanted.hpp"
#include "fogproof/base/error.hpp"
#include "report/html_text.hpp"
#include "report/proof_page_script.hpp"
#include "report/proof_page_style.hpp"
#include "report/tone_chart.hpp"
#include "report/work_sheets.hpp"
#include "report/worksheet_style.hpp"
#include "support/examples.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;
using testing::Not;

TEST(Html, NamesCannotBreakOutOfWordsOrAttributes) {
    const std::string hostile = "\"><script>alert('1')</script>&";
    const std::string text = html::worded("p", hostile) + html::picture("image/png", "x", hostile, 1, 1);
    EXPECT_THAT(text, Not(HasSubstr("<script>")));
    EXPECT_THAT(text, HasSubstr("&lt;script&gt;"));
    EXPECT_THAT(text, HasSubstr("alt=\"&quot;&gt;"));
}

TEST(Html, PicturesAreBase64) {
    // RFC 4648, section 10.
    EXPECT_THAT(html::picture("image/png", "foobar", "", 1, 1), HasSubstr("base64,Zm9vYmFy\""));
    EXPECT_THAT(html::picture("image/png", "fooba", "", 1, 1), HasSubstr("base64,Zm9vYmE=\""));
}

TEST(Html, PolicyHashesAreThoseThatSha256sumFinds) {
    // FIPS 180-4 by the example "abc", and GNU coreutils as a witness over the page's own style and script.
    EXPECT_EQ(html::policy_hash("abc"), "'sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0='");
    for (const std::string_view text : {kProofPageStyle, kProofPageScript, kWorksheetStyle}) {
        const std::string file = testing::TempDir() + "policy.txt";
        std::ofstream(file, std::ios::binary) << text;
        const std::string sum =
            Program()
                .shell("sha256sum " + file + " | cut -c1-64 | tr a-f A-F | basenc --base16 -d | base64")
                .out;
        EXPECT_EQ(html::policy_hash(text), "'sha256-" + sum.substr(0, 44) + "'");
    }
}

TEST(Html, APageNamesNothingOutsideItself) {
    const std::string page =
        html::page({"title", kProofPageStyle, kProofPageScript, html::worded("p", "words")});
    EXPECT_THAT(page, HasSubstr("default-src 'none'; img-src data:; style-src 'sha256-"));
    EXPECT_THAT(page, HasSubstr(std::string(kProofPageScript)));
    for (const char* outside : {"http:", "https:", "url(", "@import", "//cdn", "unsafe-inline"})
        EXPECT_THAT(page, Not(HasSubstr(outside)));
}

PlannedPrint planned(const std::string& name, const Tones& frame, const WorkTerms& terms) {
    Printing printing(examples::fogged_pack(0.3), frame);
    StartingPoint point = starting_points(printing, as_fresh(printing), usual_bounds(printing)).best;
    return planned_print(name, "this paper before it fogged", std::move(printing), std::move(point),
                         {false, 0.4, 0.55, 1.0}, 1.5, terms);
}

TEST(Worksheet, SumsOfTheSessionAddUp) {
    WorkTerms terms;
    terms.litres = 1.5;
    const std::vector<SessionPrint> prints{
        session_print(planned("one", examples::ordinary_frame(), terms)),
        session_print(planned("two", examples::ordinary_frame(0.2, 0.9), terms))};
    const Pack pack = examples::fogged_pack(0.3);
    const Session session = planned_session(prints, pack, terms);
    const auto json = nlohmann::json::parse(plan_json(prints, session, pack, terms));
    double sheets = 0, bleaching = 0;
    for (const auto& print : json["prints"]) {
        const auto& developer = print["developer"];
        // 1+9 of 1.5 L is 150 ml of concentrate; whatever goes in, the tray holds 1500 ml.
        EXPECT_DOUBLE_EQ(developer["concentrate_ml"], 150);
        EXPECT_DOUBLE_EQ(developer["restrainer_ml"], 1.5 * double(print["restrainer_ml_l"]));
        EXPECT_NEAR(double(developer["concentrate_ml"]) + double(developer["restrainer_ml"]) +
                        double(developer["water_ml"]),
                    1500, 1e-9);
        sheets += double(print["sheets"]);
    }
    EXPECT_DOUBLE_EQ(json["sheets"], sheets);
    for (const auto& load : json["session"]["loads"]) {
        EXPECT_NEAR(double(load["concentrate_ml"]) * 51, 1500, 1e-9);
        bleaching += double(load["time_now_s"]) + SessionTerms{}.between_s;
    }
    EXPECT_NEAR(json["session"]["bleaching_s"], bleaching, 1e-9);
}

TEST(Worksheet, CautionsStandWhereverBleachIsNamed) {
    const WorkTerms terms;
    const PlannedPrint print = planned("one", examples::ordinary_frame(), terms);
    ASSERT_GT(print.point.bleach_s.value, 0);
    const Pack pack = examples::fogged_pack(0.3);
    const std::vector<SessionPrint> prints{session_print(print)};
    for (const Document& sheet : {print_sheet(print, terms),
                                  session_sheet(prints, planned_session(prints, pack, terms), pack, terms)}) {
        const std::string text = document_text(sheet);
        // IPCS ICSC 1132: poisonous gas with acids and heat; ammonia, sun: see the source in cautions.cpp.
        for (const char* word : {"acid", "heat", "sun", "ammonia", "Gloves", "Fresh air", "collection",
                                 "Labels", "local rules", "licensed practice"})
            EXPECT_THAT(text, HasSubstr(word)) << word;
        EXPECT_THAT(document_page(sheet), HasSubstr("class=\"caution\""));
        // Acid that the paper carries along is acid in the bleach.
        const std::string page = document_page(sheet);
        EXPECT_THAT(page, HasSubstr("5 minutes, several changes of water): stop bath or acid fixer left in"));
        // Unfixed prints and bright light do not go together.
        EXPECT_THAT(page, Not(HasSubstr("white light")));
    }
}

TEST(Worksheet, APrintReachesTheSessionFromAnotherProcessUnchanged) {
    const WorkTerms terms;
    const SessionPrint print = session_print(planned("one", examples::ordinary_frame(), terms));
    const SessionPrint arrived = SessionPrint::unpacked(print.packed());
    const Pack pack = examples::fogged_pack(0.3);
    EXPECT_EQ(plan_json({arrived}, planned_session({arrived}, pack, terms), pack, terms),
              plan_json({print}, planned_session({print}, pack, terms), pack, terms));
    EXPECT_THROW(static_cast<void>(SessionPrint::unpacked(print.packed().substr(0, 40))), Error);
}

TEST(Worksheet, TextStaysWithinAHundredColumns) {
    const WorkTerms terms;
    const PlannedPrint print = planned("one", examples::ordinary_frame(), terms);
    std::istringstream lines(document_text(print_sheet(print, terms)));
    for (std::string line; std::getline(lines, line);) EXPECT_LE(line.size(), 100u) << line;
}

TEST(Worksheet, AStripIsMadeWhereItSavesPaper) {
    // A quarter of a sheet against one sheet in so many.
    EXPECT_TRUE(sheet_cost(0.5).strip);
    EXPECT_DOUBLE_EQ(sheet_cost(0.5).expected, 1.25);
    EXPECT_FALSE(sheet_cost(0.9).strip);
    EXPECT_NEAR(sheet_cost(0.9).expected, 1.1, 1e-12);
}

TEST(Plan, OneBadNegativeDoesNotStopTheRest) {
    const Program program;
    ASSERT_EQ(program.run("demo . --megapixels 0.3").code, 0);
    std::filesystem::create_directory(program / "out");
    const auto answer = program.run("plan missing.tif negative.tif --pack pack.toml -o out --json --quiet");
    EXPECT_EQ(answer.code, 66);
    EXPECT_THAT(answer.err, HasSubstr("missing.tif"));
    ASSERT_THAT(answer.out, HasSubstr("\"prints\""));
    EXPECT_EQ(nlohmann::json::parse(answer.out)["prints"].size(), 1u);
    const auto first = program.files();
    for (const char* name :
         {"negative.html", "negative.txt", "negative-proofs.html", "session.html", "session.txt"})
        EXPECT_TRUE(first.contains(std::string("out/") + name)) << name;

    // Existing sheets are safe without --force, and with it come out the same, byte for byte.
    EXPECT_EQ(program.run("plan negative.tif --pack pack.toml -o out").code, 73);
    EXPECT_EQ(program.files(), first);
    EXPECT_EQ(program.run("plan negative.tif --pack pack.toml -o out --force --quiet").code, 0);
    EXPECT_EQ(program.files(), first);
}

TEST(ToneChart, HeldRangeEndsAtTheReferencePointsOfIso6846) {
    // T at 0.04 above the border, S at 0.90 of the net density (Focal Encyclopedia of Photography, p. 679).
    const Printing printing(examples::fogged_pack(0.3), examples::ordinary_frame());
    const PrintModel print = printing.fresh_print();
    const auto range = held_range("fresh", print);
    ASSERT_TRUE(range);
    const double minimum = print.border().density.value;
    const double net = print.lit({1e9, 1e9}).density.value - minimum;
    constexpr double kSearch = 1e-3;  // print density over 0.0001 of the negative's
    EXPECT_NEAR(print.patch(range->dense).density.value, minimum + 0.04, kSearch);
    EXPECT_NEAR(print.patch(range->thin).density.value, minimum + 0.90 * net, kSearch);
}

}  // namespace
}  // namespace fogproof::tests
