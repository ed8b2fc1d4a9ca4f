// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The examples of help and manual work as they stand, in a folder with the demo and nothing else.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <regex>
#include <sstream>
#include <vector>

#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;

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

// Nothing is there that another verb's examples would have left.
TEST(ExamplesOfVerbs, RunInTheirOrderInAFolderWithTheDemo) {
    const Program demo;
    ASSERT_EQ(demo.run("demo . --megapixels 0.3").code, 0);
    for (const std::string& verb : kVerbs) {
        const Program program;
        for (const auto& [name, content] : demo.files()) program.write(name, content);
        const auto commands = examples_in(program.run(verb + " --help").out);
        EXPECT_GE(commands.size(), 2u) << verb;
        EXPECT_TRUE(verb.empty() ||
                    std::ranges::any_of(
                        commands, [&](const std::string& command) { return command.starts_with(verb); }))
            << verb;
        for (const std::string& command : commands) {
            // The larger negative is made by the demo's own test.
            const bool makes_demo =
                command.starts_with("demo ") && command.find("--megapixels") == std::string::npos;
            const auto answer = program.run(command + (makes_demo ? " --megapixels 0.3" : ""),
                                            "XDG_CONFIG_HOME=\"$PWD/settings\"");
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
        // Quotes and hyphens as roff writes them, read back.
        page = std::regex_replace(page, std::regex(R"(\\\(dq)"), "\"");
        std::erase(page, '\\');
        EXPECT_THAT(page, HasSubstr(".SH DESCRIPTION\n.PP\n")) << name;
        for (const std::string& command : examples_in(program.run(verb + " --help").out))
            EXPECT_THAT(page, HasSubstr(".B fogproof " + command)) << name;
    }
}

// Each column of the help with the lowest value that it allows, or a word where it allows no numbers.
std::pair<std::string, std::string> columns_told(const std::string& help) {
    std::istringstream lines(help.substr(std::min(help.find("Columns of a readings file"), help.size())));
    std::string names, values, line;
    std::getline(lines, line);
    while (std::getline(lines, line) && line.starts_with("  ")) {
        const auto range = line.rfind('('), unit = line.find(" to ", range);
        const bool is_number = line.ends_with(')') && unit != std::string::npos;
        names += (names.empty() ? "" : ",") + line.substr(2, line.find(' ', 2) - 2);
        values +=
            (values.empty() ? "" : ",") + (is_number ? line.substr(range + 1, unit - range - 1) : "one");
    }
    return {names, values};
}

TEST(ColumnsOfReadings, AreToldByHelpAndManualAndTaken) {
    const Program program;
    const auto [names, values] = columns_told(program.run("pack fit --help").out);
    EXPECT_THAT(names, HasSubstr("strip,wedge_density,exposure_s,filter,restrainer_ml_l,develop_s,bleach_s,"
                                 "bleach_parts,redevelop_s,density"));
    program.write("all.csv", names + "\n" + values + "\n");
    const auto answer = program.run("pack fit all.csv -o learnt.toml");
    EXPECT_EQ(answer.code, 0) << names << '\n' << values << '\n' << answer.err;
    // Whatever `read` writes beyond the usual columns stands there too.
    ASSERT_EQ(program.run("demo . --megapixels 1 --force").code, 0);
    ASSERT_EQ(program.run("read print.jpg --labels print-labels.csv --known 3=fixed -o prints.csv").code, 0);
    std::istringstream lines(content_of(program / "prints.csv"));
    std::string head;
    while (std::getline(lines, head) && head.starts_with('#')) continue;
    std::istringstream written(head);
    const std::string told = "," + names + ",";
    for (std::string name; std::getline(written, name, ',');) EXPECT_THAT(told, HasSubstr("," + name + ","));
    std::filesystem::create_directory(program / "man");
    ASSERT_EQ(program.run("manual man").code, 0);
    const std::string page = content_of(program / "man/fogproof-pack-fit.1");
    std::istringstream each(names);
    for (std::string name; std::getline(each, name, ',');) EXPECT_THAT(page, HasSubstr(".B " + name + "\n"));
}

}  // namespace
}  // namespace fogproof::tests
