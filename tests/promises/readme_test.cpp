// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// README's commands are run in its order, and what it shows of their output must be what they say.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "support/folded.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/strip_scan.hpp"

namespace fogproof::tests {
namespace {

struct Shown {
    int line;
    std::string command;
    std::vector<std::string> output;  // lines, blanks folded; "..." stands for some left out
};

// Indented blocks: "$ fogproof ..." over as many lines as end in a backslash, then its output.
std::vector<Shown> commands_of_readme() {
    std::ifstream file(std::string(FOGPROOF_SOURCE_DIR) + "/README.md");
    std::vector<Shown> all;
    bool goes_on = false, in_block = false;
    int number = 0;
    for (std::string line; std::getline(file, line);) {
        ++number;
        const bool indented = line.starts_with("    ");
        const std::string words = folded(line);
        if (goes_on) {
            all.back().command += " " + words;
        } else if (indented && words.starts_with("$ fogproof ")) {
            all.push_back({number, words.substr(11), {}});
            in_block = true;
        } else if (indented && in_block && words != "...") {
            all.back().output.push_back(words);
        } else if (!indented && !line.empty()) {
            in_block = false;
        }
        goes_on = !all.empty() && in_block && words.ends_with("\\") && !all.back().command.empty() &&
                  (goes_on || words.starts_with("$ fogproof "));
        if (goes_on) {
            std::string& command = all.back().command;
            command.resize(command.size() - 1);
        }
    }
    return all;
}

// What README says is there: the demo, other negatives, and a flatbed scan of a half-bleached wedge.
void make_ready(const Program& program) {
    ASSERT_EQ(program.run("demo . --quiet").code, 0);
    for (const char* name : {"hut.tif", "pond.tif"})
        std::filesystem::copy_file(program / "negative.tif", program / name);
    StripScan scan;
    DrawnStrip strip;
    strip.densities = printed_wedge(21, 0.15, 0.12, 1.9);
    strip.bleached = 0.7, strip.white = 0.12;
    scan.strips = {strip};
    scan.patches = {{{300, 400, 200, 80}, 0.09}};
    scan.linear().tiffsave((program / "strips.tif").c_str());
}

TEST(Readme, ItsCommandsWorkAndSayWhatItShows) {
    const Program program;
    make_ready(program);
    const auto commands = commands_of_readme();
    ASSERT_GE(commands.size(), 8U);
    for (const Shown& shown : commands) {
        const auto answer = program.run(shown.command);
        EXPECT_EQ(answer.code, 0) << "README, line " << shown.line << ": " << shown.command << "\n"
                                  << answer.err;
        // No hand worked on the demo's print.
        EXPECT_THAT(answer.err, testing::Not(testing::HasSubstr("the print looks")));
        std::vector<std::string> said;
        std::istringstream lines(answer.out + answer.err);
        for (std::string line; std::getline(lines, line);) said.push_back(folded(line));
        for (const auto& line : shown.output)
            EXPECT_TRUE(std::ranges::find(said, line) != said.end())
                << "README, line " << shown.line << ": " << shown.command << "\nsays no longer: " << line;
    }
}

TEST(Readme, TheEveningOnTheDemoIsOneScript) {
    const Program program;
    const auto answer = program.shell("'" FOGPROOF_SOURCE_DIR "/examples/evening.sh' evening 1");
    EXPECT_EQ(answer.code, 0) << answer.out << answer.err;
    EXPECT_THAT(answer.out, testing::HasSubstr("Bleach clears the white from"));
    EXPECT_THAT(answer.out, testing::ContainsRegex("now     grade .*L\\*"));
    for (const char* sheet :
         {"before/negative.html", "after/negative.html", "after/session.html", "seen.jpg"})
        EXPECT_TRUE(std::filesystem::exists(program / ("evening/" + std::string(sheet)))) << sheet;
    EXPECT_NE(content_of(program / "evening/before/negative.txt"),
              content_of(program / "evening/after/negative.txt"));
    EXPECT_EQ(program.shell("'" FOGPROOF_SOURCE_DIR "/examples/evening.sh'").code, 64);
}

TEST(Readme, ItsTwoCommandsAreThereAndCiCallsTheSecond) {
    // A suite cannot build itself anew; it holds that what README names is there and may be run.
    const std::filesystem::path root = FOGPROOF_SOURCE_DIR;
    for (const char* command : {"examples/first-grid.sh", "tests/run.sh"}) {
        const auto rights = std::filesystem::status(root / command).permissions();
        EXPECT_NE(rights & std::filesystem::perms::owner_exec, std::filesystem::perms::none) << command;
        EXPECT_NE(content_of(root / "README.md").find(std::string("    ./") + command), std::string::npos);
    }
    EXPECT_NE(content_of(root / ".ci/run").find("./tests/run.sh"), std::string::npos);
}

}  // namespace
}  // namespace fogproof::tests
