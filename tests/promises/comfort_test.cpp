// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What makes the program easy to live with: settings, completion, manual pages.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "base/markup.hpp"
#include "base/words.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

// Runs with the settings of the program's own folder.
Program::Answer with_settings(const Program& program, const std::string& words) {
    return program.run(words, "XDG_CONFIG_HOME=\"$PWD/settings\"");
}

void set(const Program& program, const std::string& text) {
    std::filesystem::create_directories(program / "settings" / "fogproof");
    program.write("settings/fogproof/darkroom.toml", "fogproof_darkroom = 1\n" + text);
}

// Every word of a help text that begins with two dashes.
std::set<std::string> options_in(const std::string& help) {
    std::set<std::string> options;
    std::istringstream words(help.substr(0, help.find("Examples, in a folder")));
    for (std::string word; words >> word;) {
        for (const auto& part : split(word, ','))
            if (part.starts_with("--") && part.size() > 3 && part.find_first_of(".;[(=") == std::string::npos)
                options.insert(part);
    }
    return options;
}

std::vector<std::string> verbs_of(const Program& program) {
    std::vector<std::string> verbs;
    std::istringstream help(program.run("--help").out);
    bool listed_now = false;
    for (std::string line; std::getline(help, line);) {
        if (line.starts_with("Examples")) break;
        if (listed_now && line.starts_with("  ")) verbs.push_back(line.substr(2, line.find(' ', 2) - 2));
        if (line.starts_with("Subcommands")) listed_now = true;
    }
    return verbs;
}

TEST(Settings, AreWrittenBlankOnceAndShown) {
    const Program program;
    EXPECT_THAT(with_settings(program, "darkroom").out, HasSubstr("not there"));
    EXPECT_EQ(with_settings(program, "darkroom --new").code, 0);
    EXPECT_THAT(with_settings(program, "darkroom").out, HasSubstr("nothing set"));
    const auto again = with_settings(program, "darkroom --new");
    EXPECT_EQ(again.code, 73);
    EXPECT_THAT(again.err, HasSubstr("exists already"));
    // Every line that is commented out is a setting that works.
    std::string filled;
    std::istringstream blank(content_of(program / "settings/fogproof/darkroom.toml"));
    int count = 0;
    for (std::string line; std::getline(blank, line);) {
        const bool setting = line.starts_with("# ") && line.find(" = ") != std::string::npos;
        if (!setting || line.find("tray") == std::string::npos) {
            filled += (setting ? line.substr(2) : line) + "\n";
            count += setting;
        }
    }
    program.write("settings/fogproof/darkroom.toml", filled);
    const auto shown = with_settings(program, "darkroom");
    EXPECT_EQ(shown.code, 0) << shown.err;
    EXPECT_EQ(std::ranges::count(shown.out, '\n'), count + 1) << shown.out;
}

TEST(Settings, HoldForEveryCommandAndGiveWayToTheCommandLine) {
    const Program program;
    ASSERT_EQ(program.run("demo . --megapixels 0.3").code, 0);
    const std::string start = "start negative.tif --pack pack.toml --json";
    const auto exposure = [](const Program::Answer& answer) {
        EXPECT_EQ(answer.code, 0) << answer.err;
        return double(nlohmann::json::parse(answer.out)["best"]["exposure_s"]);
    };
    const double plain = exposure(program.run(start)),
                 stopped = exposure(program.run(start + " --f-number 11"));
    ASSERT_NE(plain, stopped);
    set(program, "[enlarger]\nf-number = 11\n");
    EXPECT_EQ(exposure(with_settings(program, start)), stopped);
    EXPECT_EQ(exposure(with_settings(program, start + " --f-number 8")),
              exposure(program.run(start + " --f-number 8")));

    set(program, "[work]\nlitres = 2\n");
    const std::string plan = "plan negative.tif --pack pack.toml";
    EXPECT_THAT(with_settings(program, plan).out, HasSubstr("For 2 L in the tray"));
    EXPECT_THAT(with_settings(program, plan + " --tray 200x250x10").out, HasSubstr("For 0.5 L in the tray"));
    set(program, "[work]\ntray = \"200x250x10\"\n");
    EXPECT_THAT(with_settings(program, plan).out, HasSubstr("For 0.5 L in the tray"));
    EXPECT_THAT(with_settings(program, plan + " --litres 3").out, HasSubstr("For 3 L in the tray"));
}

TEST(Settings, HoldThePackInUseAndHowItIsWorked) {
    const Program program;
    ASSERT_EQ(program.run("demo . --megapixels 0.3").code, 0);
    const auto answer = [&](const std::string& words) {
        const auto said = with_settings(program, words);
        EXPECT_EQ(said.code, 0) << said.err;
        return said.out;
    };
    const std::string full =
        program.run("start negative.tif --pack pack.toml --develop 150 --dilution 1+30 --json").out;
    set(program, "[work]\npack = \"pack.toml\"\ndevelop = \"2min30s\"\ndilution = \"1+30\"\n");
    EXPECT_EQ(answer("start negative.tif --json"), full);
    // Another pack's fit starts from the prior that is named, and from no other; strips were developed as
    // they were.
    EXPECT_EQ(answer("pack fit readings.csv -o a.toml"), program.run("pack fit readings.csv -o b.toml").out);
    EXPECT_EQ(content_of(program / "a.toml"), content_of(program / "b.toml"));
    answer("grid negative.tif --down develop=60,120 -o grid.png --cell 100");
    EXPECT_EQ(with_settings(program, "start negative.tif --pack absent.toml").code, 66);
}

TEST(Settings, HoldTheStocksOfTheDarkroom) {
    const Program program;
    set(program, "[work]\nrestrainer-agent = \"bromide\"\nrestrainer-stock = 5\nbleach-stock = 200\n");
    const std::string slips = "pack new --white 0.09 --blank 0.42 ";
    ASSERT_EQ(
        program.run(slips + "--restrainer-agent bromide --restrainer-stock 5 --bleach-stock 200 -o told.toml")
            .code,
        0);
    ASSERT_EQ(with_settings(program, slips + "-o set.toml").code, 0);
    EXPECT_EQ(content_of(program / "set.toml"), content_of(program / "told.toml"));
}

TEST(Settings, FaultsNameTheirLine) {
    const Program program;
    ASSERT_EQ(program.run("demo . --megapixels 0.3").code, 0);
    const auto told = [&](const std::string& text, const std::string& words) {
        set(program, text);
        const auto answer = with_settings(program, words);
        EXPECT_NE(answer.code, 0) << text;
        EXPECT_EQ(std::ranges::count(answer.err, '\n'), 1) << answer.err;
        return answer.err;
    };
    EXPECT_THAT(told("[enlarger]\ncalier = 1\n", "darkroom"),
                AllOf(HasSubstr("darkroom.toml:3"), HasSubstr("nearest is callier")));
    EXPECT_THAT(told("[enlarge]\n", "darkroom"), AllOf(HasSubstr("darkroom.toml:2"), HasSubstr("enlarger")));
    EXPECT_THAT(told("[enlarger]\ncallier = \"wide\"\n", "start negative.tif --pack pack.toml"),
                HasSubstr("darkroom.toml:3"));
    EXPECT_THAT(told("[enlarger]\ncallier = 9\n", "--quiet start negative.tif --pack pack.toml"),
                AllOf(HasSubstr("darkroom.toml:3"), HasSubstr("--callier"), HasSubstr("1 to 2")));
    EXPECT_THAT(told("[enlarger]\ncallier = 9\n", "--quiet start negative.tif --pack pack.toml --callier 7"),
                AllOf(StartsWith("fogproof: --callier: 7"), Not(HasSubstr("darkroom.toml"))));
    EXPECT_THAT(told("[work\n", "darkroom"), HasSubstr("darkroom.toml:2"));
}

TEST(Completion, OffersEveryVerbAndItsOptionsInBash) {
    const Program program;
    program.write("complete", program.run("completion bash").out);
    const auto offered = [&](const std::string& words, int count) {
        program.write("ask", "source ./complete\nCOMP_WORDS=(" + words + ")\nCOMP_CWORD=" +
                                 std::to_string(count) + "\n_fogproof\nprintf '%s\\n' \"${COMPREPLY[@]}\"\n");
        const auto answer = program.shell("bash ask");
        EXPECT_EQ(answer.code, 0) << answer.err;
        std::set<std::string> words_offered;
        std::istringstream lines(answer.out);
        for (std::string line; std::getline(lines, line);) words_offered.insert(line);
        return words_offered;
    };
    const auto verbs = verbs_of(program);
    ASSERT_GE(verbs.size(), 7u);
    for (const auto& verb : verbs) {
        EXPECT_TRUE(offered("fogproof ''", 1).contains(verb)) << verb;
        const auto words = offered("fogproof " + verb + " --", 2);
        for (const auto& option : options_in(program.run(verb + " --help").out))
            EXPECT_TRUE(words.contains(option)) << verb << ' ' << option;
    }
    EXPECT_TRUE(offered("fogproof pack ''", 2).contains("fit"));
    EXPECT_TRUE(offered("fogproof pack fit --", 3).contains("--curves"));
    EXPECT_EQ(program.run("completion tcsh").code, 64);
}

// A terminal by script(1) of util-linux: what the keys of a user with Tab among them make of a name with a
// blank.
TEST(Completion, KeepsNamesWithBlanksWholeInBash) {
    const Program program;
    program.write("complete", program.run("completion bash").out);
    program.write("my scan.tif", "");
    program.write("keys",
                  "source ./complete; fogproof() { printf '<%s>' \"$@\"; echo; }\n"
                  "fogproof print my\t\nfogproof print \"my\t\nfogproof pa\tfi\t--cur\tx\nexit\n");
    const auto seen =
        program.shell("TERM=dumb timeout 20 script -qec 'bash --norc --noprofile -i' /dev/null <keys").out;
    std::size_t whole = 0;
    const std::string wanted = "\n<print><my scan.tif>";
    for (auto at = seen.find(wanted); at != std::string::npos; at = seen.find(wanted, at + 1)) ++whole;
    EXPECT_EQ(whole, 2u) << seen;
    EXPECT_THAT(seen, HasSubstr("\n<pack><fit><--curves><x>"));
}

TEST(Manual, HasAPageForEveryVerbThatTellsEveryOption) {
    const Program program;
    std::filesystem::create_directory(program / "man");
    ASSERT_EQ(program.run("manual man").code, 0);
    auto verbs = verbs_of(program);
    verbs.insert(verbs.end(), {"pack fit", "pack show", "pack new", "pack check"});
    for (const auto& verb : verbs) {
        std::string name = "fogproof-" + verb;
        std::ranges::replace(name, ' ', '-');
        std::string page = content_of(program / ("man/" + name + ".1"));
        ASSERT_FALSE(page.empty()) << name;
        std::erase(page, '\\');
        for (const auto& option : options_in(program.run(verb + " --help").out))
            EXPECT_THAT(page, HasSubstr(option)) << verb;
    }
    EXPECT_EQ(program.run("manual man").code, 73) << "nothing is replaced unasked";
}

// UTF-8 (RFC 3629) of one to four bytes a character.
TEST(Progress, NoCharacterIsCutInTwo) {
    const std::string name = "a\xC3\xA4\xE2\x82\xAC\xF0\x9F\x8E\x9Ez";
    const std::set<std::string> whole{"",  "a", name.substr(0, 3), name.substr(0, 6), name.substr(0, 10),
                                      name};
    std::set<std::string> seen;
    for (std::size_t bytes = 0; bytes <= name.size() + 1; ++bytes) {
        const std::string shown(beginning_within(name, bytes));
        EXPECT_LE(shown.size(), bytes);
        EXPECT_TRUE(whole.contains(shown)) << bytes;
        seen.insert(shown);
    }
    EXPECT_EQ(seen, whole);
}

// A terminal by script(1) of util-linux. One processor does not draw the demo within the first second, in
// which nothing is said.
TEST(Progress, IsShownOnATerminalAndNowhereElse) {
    const Program program;
    const auto small = [](const std::string& size) {
        return "\"$FOGPROOF\" demo . --force --megapixels " + size;
    };
    const auto on_terminal = [&](const std::string& surroundings, const std::string& command) {
        return program.shell("SHELL=/bin/sh " + surroundings + " script -qec '" + command + "' /dev/null")
            .out;
    };
    const std::string seen = on_terminal(
        "TERM=xterm NO_COLOR=1", "taskset -c $(taskset -cp $$ | sed \"s/.*: //; s/[-,].*//\") " + small("3"));
    EXPECT_THAT(seen, testing::ContainsRegex("drawing the demo's negative: [0-9]+ %, [0-9]+ s left"));
    // The line is taken away before the next is said, and nothing is coloured.
    EXPECT_THAT(seen, HasSubstr("\r\033[Kfogproof: .: negative.tif"));
    EXPECT_THAT(seen, Not(testing::ContainsRegex("\033\\[[0-9;]*m")));
    EXPECT_THAT(on_terminal("TERM=dumb", small("0.3")), Not(HasSubstr("\033")));
    const auto piped = program.shell("TERM=xterm " + small("0.3"));
    EXPECT_EQ(std::ranges::count(piped.err, '\n'), 1) << piped.err;
    EXPECT_THAT(piped.err + piped.out, Not(HasSubstr("\033")));
}

// As demo and plan make theirs.
TEST(Manual, MakesItsFolder) {
    const Program program;
    ASSERT_EQ(program.run("manual shelf/man").code, 0);
    EXPECT_FALSE(content_of(program / "shelf/man/fogproof-print.1").empty());
    program.write("file", "");
    EXPECT_EQ(program.run("manual file/man").code, 73);
}

}  // namespace
}  // namespace fogproof::tests
