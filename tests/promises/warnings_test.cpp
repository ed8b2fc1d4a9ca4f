// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A warning reaches whoever looks at the answer: on stderr even when quiet, in JSON, on sheets and pages.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using Json = nlohmann::json;

// Film whose edge is far denser than base + fog may be.
class Warnings : public ::testing::Test {
  protected:
    Program program;
    void SetUp() override {
        const FilmScan film{.width = 720,
                            .height = 500,
                            .holder = 20,
                            .clear = 0.9,
                            .left = 80,
                            .top = 75,
                            .right = 640,
                            .bottom = 425};
        film.drawn().write_to_file((program / "dense.tif").c_str());
        ASSERT_EQ(program.run("pack new --white 0.08 --blank 0.3 --name box -o box.toml").code, 0);
    }
    static bool names_base(const Json& warnings) {
        return warnings.size() == 1 && warnings[0].get<std::string>().find("base + fog") != std::string::npos;
    }
};

TEST_F(Warnings, StandApartFromNotesAndStayWhenQuiet) {
    const auto loud = program.run("print dense.tif --pack box.toml --size 100 -o loud.tif");
    EXPECT_THAT(loud.err, HasSubstr("fogproof: warning: dense.tif: the clear film edge has density 0.9"));
    EXPECT_THAT(loud.err, HasSubstr("fogproof: dense.tif: the frame was found"));
    const auto quiet = program.run("--quiet print dense.tif --pack box.toml --size 100 -o quiet.tif");
    EXPECT_THAT(quiet.err, HasSubstr("fogproof: warning: dense.tif: the clear film edge"));
    EXPECT_THAT(quiet.err, Not(HasSubstr("the frame was found")));
}

TEST_F(Warnings, GoWhenTheOptionThatTheyNameIsGiven) {
    for (const char* settled : {"--clear 0.126", "--encoding linear"})
        EXPECT_THAT(program.run(std::string("start dense.tif --pack box.toml ") + settled).err,
                    Not(HasSubstr("warning")))
            << settled;
}

TEST_F(Warnings, AreInTheGridsNumbersAndPage) {
    ASSERT_EQ(program
                  .run("grid dense.tif --pack box.toml -o grid.png --html --cell 80 --across grade=2 --down "
                       "bleach=0s")
                  .code,
              0);
    EXPECT_TRUE(names_base(Json::parse(content_of(program / "grid.png.json"))["warnings"]));
    const std::string page = content_of(program / "grid.png.html");
    EXPECT_LT(page.find("Warning: the clear film edge"), page.find("</header>")) << "before all prints";
    EXPECT_LT(page.find("</header>"), page.find("<h2 id=\"prints\">"));
}

TEST_F(Warnings, AreInTheAnswersOfStartAndRescue) {
    const auto start = program.run("start dense.tif --pack box.toml --json --black-time 10");
    ASSERT_EQ(start.code, 0) << start.err;
    EXPECT_TRUE(names_base(Json::parse(start.out)["warnings"]));
    const auto rescue = program.run("start dense.tif --pack box.toml --json --black-time 10 --rescue 140s");
    ASSERT_EQ(rescue.code, 0) << rescue.err;
    EXPECT_TRUE(names_base(Json::parse(rescue.out)["warnings"]));
}

// Two negatives are worked out in processes of their own, which hand their warnings over.
TEST_F(Warnings, AreOnWorksheetsProofsAndSession) {
    std::filesystem::copy_file(program / "dense.tif", program / "other.tif");
    std::filesystem::create_directory(program / "sheets");
    ASSERT_EQ(program.run("plan dense.tif other.tif --pack box.toml -o sheets").code, 0);
    for (const char* page : {"dense.html", "dense.txt", "dense-proofs.html", "other.html"})
        EXPECT_THAT(content_of(program / ("sheets/" + std::string(page))),
                    HasSubstr("Warning: the clear film edge"))
            << page;
    for (const char* page : {"session.html", "session.txt"})
        for (const char* name : {"dense", "other"})
            EXPECT_THAT(content_of(program / ("sheets/" + std::string(page))),
                        HasSubstr("Warning, " + std::string(name) + ": the clear film"))
                << page;
    const auto planned = program.run("plan dense.tif other.tif --pack box.toml --json");
    ASSERT_EQ(planned.code, 0) << planned.err;
    const Json answer = Json::parse(planned.out);
    for (const Json& print : answer["prints"]) EXPECT_TRUE(names_base(print["warnings"]));
}

TEST_F(Warnings, HaveTheirPlaceInEveryJsonAnswer) {
    const auto shown = program.run("pack show box.toml --json");
    ASSERT_EQ(shown.code, 0);
    EXPECT_TRUE(Json::parse(shown.out)["warnings"].is_array());
}

// Of pack and recipe, too: they are said once for all negatives, and each answer holds them.
TEST_F(Warnings, OfPackAndRecipeAreInTheAnswersOfPrintGridAndPlan) {
    ASSERT_EQ(program.run("demo . --megapixels 0.3").code, 0);
    const std::string asked = " negative.tif --pack pack.toml --black-time 1s@2 --force ";
    const auto says = [](const Json& warnings, const std::string& words) {
        return std::ranges::any_of(warnings, [&](const Json& one) {
            return one.get<std::string>().find(words) != std::string::npos;
        });
    };
    const Json print =
        Json::parse(program.run("print -o out.png --bleach 1s --json" + asked).out)["prints"][0]["warnings"];
    EXPECT_TRUE(says(print, "--black-time 1s@2") && says(print, "bleach of 1 s")) << print;
    ASSERT_EQ(program.run("grid -o grid.png --down bleach=1s" + asked).code, 0);
    const Json grid = Json::parse(content_of(program / "grid.png.json"))["warnings"];
    EXPECT_TRUE(says(grid, "--black-time 1s@2") && says(grid, "bleach of 1 s")) << grid;
    const Json plan =
        Json::parse(program.run("plan --json --restrainer 0.1" + asked).out)["prints"][0]["warnings"];
    EXPECT_TRUE(says(plan, "--black-time 1s@2") && says(plan, "restrainer 0.1 ml/L")) << plan;
}

}  // namespace
}  // namespace fogproof::tests
