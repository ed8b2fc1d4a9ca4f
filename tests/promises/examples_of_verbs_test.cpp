// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The examples of help and manual work as they stand, in the order of the verbs, in a folder with the demo.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>
#include <vector>

#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;

// A print is read before a pack learns from it.
const std::vector<std::string> kVerbs{"",         "demo",      "grid",     "print",      "start",
                                      "plan",     "read",      "pack",     "pack new",   "pack check",
                                      "pack fit", "pack show", "darkroom", "completion", "manual"};

std::vector<std::string> examples_in(const std::string& help) {
    std::vector<std::string> commands;
    std::istringstream lines(help.substr(std::min(help.find("Examples, in a folder"), help.size())));
    for (std::string line; std::getline(lines, line);)
        if (line.starts_with("  fogproof ")) commands.push_back(line.substr(11));
    return commands;
}

TEST(ExamplesOfVerbs, AreTwoEachAndRun) {
    const Program program;
    ASSERT_EQ(program.run("demo . --megapixels 0.3").code, 0);
    for (const std::string& verb : kVerbs) {
        const auto commands = examples_in(program.run(verb + " --help").out);
        EXPECT_EQ(commands.size(), 2u) << verb;
        for (const std::string& command : commands) {
            EXPECT_TRUE(verb.empty() || verb == "pack" || command.starts_with(verb)) << command;
            // The larger negative is made by the demo's own test.
            const std::string words =
                command == "demo ." || command == "demo . --force"
                    ? command + " --megapixels 0.3" + (command == "demo ." ? " --force" : "")
                    : command;
            const auto answer = program.run(words, "XDG_CONFIG_HOME=\"$PWD/settings\"");
            EXPECT_EQ(answer.code, 0) << command << '\n' << answer.err;
        }
    }
}

TEST(ExamplesOfVerbs, StandInTheManualWithADescription) {
    const Program program;
    std::filesystem::create_directory(program / "man");
    ASSERT_EQ(program.run("manual man").code, 0);
    for (const std::string& verb : kVerbs) {
        std::string name = verb.empty() ? "fogproof" : "fogproof-" + verb;
        std::ranges::replace(name, ' ', '-');
        std::string page = content_of(program / ("man/" + name + ".1"));
        std::erase(page, '\\');
        EXPECT_THAT(page, HasSubstr(".SH DESCRIPTION\n.PP\n")) << name;
        for (const std::string& command : examples_in(program.run(verb + " --help").out))
            EXPECT_THAT(page, HasSubstr(".B fogproof " + command)) << name;
    }
}

}  // namespace
}  // namespace fogproof::tests
