// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What stands behind an option: every option of every verb refuses an empty value by its name, every number
// is read by one reader, and dilutions are taken as they are printed.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <sstream>

#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/typed_files.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;

struct Option {
    std::string verb, name, type;
};

// The lines of a help text that tell an option with its type: "  -o,--output TEXT REQUIRED   readings file".
std::vector<Option> options_with_values(const Program& program, const std::string& verb) {
    std::vector<Option> options;
    std::istringstream help(program.run(verb + " --help").out);
    for (std::string line; std::getline(help, line);) {
        std::istringstream words(line);
        std::string names, type;
        words >> names >> type;
        const bool is_type =
            !type.empty() &&
            type.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789+/") == std::string::npos;
        if (line.starts_with("  -") && is_type && line.find("  ", 3) > line.find(' ' + type))
            options.push_back({verb, names.substr(names.find("--")), type});
    }
    return options;
}

std::vector<Option> all_options(const Program& program) {
    std::vector<Option> all;
    for (const char* verb : {"demo", "grid", "print", "start", "plan", "read", "pack new", "pack check",
                             "pack show", "pack fit", "darkroom", "completion", "manual"}) {
        const auto some = options_with_values(program, verb);
        all.insert(all.end(), some.begin(), some.end());
    }
    return all;
}

// The number of options whose values are typed, counted by hand off the help of 0.1.0: a floor that shows
// when the reading of the help breaks.
constexpr std::size_t kFewestOptions = 100;

TEST(EmptyValues, AreRefusedByEveryOptionOfEveryVerb) {
    const Program program;
    const auto options = all_options(program);
    ASSERT_GE(options.size(), kFewestOptions);
    // The two ways of writing one are told apart before an option is looked up, so they take turns.
    for (std::size_t i = 0; i < options.size(); ++i) {
        const Option& option = options[i];
        const std::string empty = option.name + (i % 2 == 0 ? "= next" : " ''");
        const auto answer = program.run(option.verb + " " + empty);
        EXPECT_EQ(answer.code, 64) << option.verb << ' ' << empty;
        EXPECT_THAT(answer.err, AllOf(HasSubstr(option.name + ": "), HasSubstr("empty value")))
            << option.verb << ' ' << empty;
    }
}

TEST(Numbers, AreReadByOneReaderBehindEveryOption) {
    const Program program;
    std::size_t numbers = 0;
    for (const Option& option : all_options(program)) {
        if (option.type == "TEXT") continue;
        const char* const wrong = ++numbers % 2 == 0 ? "0x5A" : "2,5";
        const auto answer = program.run(option.verb + " " + option.name + " " + wrong);
        EXPECT_EQ(answer.code, 64) << option.verb << ' ' << option.name << ' ' << wrong;
        EXPECT_THAT(answer.err, AllOf(HasSubstr(option.name + ": \""), HasSubstr("no number")))
            << option.verb << ' ' << option.name << ' ' << wrong;
    }
    EXPECT_GE(numbers, 40u);
    for (const char* wrong : {"nan", "inf", "-inf", "1e999", "4.5.6", "'1 2'", "8x", "x", "'\xc2\xbd'"}) {
        EXPECT_THAT(program.run(std::string("print --magnification ") + wrong).err,
                    AllOf(HasSubstr("--magnification: \""), HasSubstr("no number")))
            << wrong;
        EXPECT_THAT(program.run(std::string("print --jobs ") + wrong).err,
                    AllOf(HasSubstr("--jobs: \""), HasSubstr("no number")))
            << wrong;
    }
}

TEST(Numbers, MeanTheSameHoweverTheyAreWritten) {
    const Program program;
    make_typed_files(program);
    const auto printed = [&](const std::string& options) {
        const auto answer =
            program.run("print scan.tif --pack pack.toml --grade 2 -o out.jpg --force " + options);
        EXPECT_EQ(answer.code, 0) << options << answer.err;
        return content_of(program / "out.jpg");
    };
    const std::string ten = printed("--quality 10 --develop 90");
    for (const char* same : {"--quality 010 --develop 90", "--quality 1e1 --develop 9e1",
                             "--quality +10 --develop 90s", "--quality ' 10' --develop 0090"})
        EXPECT_EQ(printed(same), ten) << same;
    EXPECT_NE(printed("--quality 8 --develop 90"), ten) << "010 must not be octal";
}

TEST(Dilutions, AreTakenAsTheyArePrintedWhereverTheyAreTold) {
    const Program program;
    make_typed_files(program);
    // Options of print, start and plan, the file of a recipe, and the file of a pack.
    program.write("recipe.toml", "fogproof_recipe = 1\n[bleach]\ntime_s = 40\nparts = \"1+80\"\n");
    program.write("thin.toml", content_of(program / "pack.toml") + "[bath]\nparts = \"1+80\"\n");
    const auto pixels = [&](const std::string& words) {
        const auto answer = program.run("print scan.tif -o out.png --force --grade 2 " + words);
        EXPECT_EQ(answer.code, 0) << words << answer.err;
        return content_of(program / "out.png");
    };
    const std::string plain = pixels("--pack pack.toml --bleach 40s --dilution 80");
    EXPECT_NE(plain, pixels("--pack pack.toml --bleach 40s"));
    EXPECT_EQ(plain, pixels("--pack pack.toml --bleach 40s --dilution 1+80"));
    EXPECT_EQ(plain, pixels("--pack pack.toml --recipe recipe.toml"));
    for (const char* verb : {"start", "plan"}) {
        const std::string words = std::string(verb) + " scan.tif --json --pack ";
        const auto by_number = program.run(words + "pack.toml --dilution 80");
        EXPECT_EQ(by_number.code, 0) << by_number.err;
        EXPECT_EQ(program.run(words + "pack.toml --dilution 1+80").out, by_number.out) << verb;
        EXPECT_EQ(program.run(words + "thin.toml").out, by_number.out) << verb;
    }
    EXPECT_EQ(program.run("plan scan.tif --pack pack.toml --developer-parts 1+14").out,
              program.run("plan scan.tif --pack pack.toml --developer-parts 14").out);
}

TEST(Dilutions, AreTakenAsTheyArePrintedInReadingsAndSettings) {
    const Program program;
    make_typed_files(program);
    const auto row_of = [&](const std::string& parts) {
        EXPECT_EQ(program.run("read instrument.txt -o out.csv --bleach 40 --parts " + parts).code, 0);
        const std::string rows = content_of(program / "out.csv");
        std::filesystem::remove(program / "out.csv");
        return rows;
    };
    EXPECT_EQ(row_of("1+80"), row_of("80"));
    const auto fitted = [&](const std::string& parts) {
        program.write("own.csv", "strip,exposure_s,develop_s,bleach_s,bleach_parts,density\na,0,90,40," +
                                     parts + ",0.2\nb,0,90,0,,0.35\n");
        const auto answer = program.run("pack fit own.csv --pack pack.toml --json -o new.toml --force");
        EXPECT_EQ(answer.code, 0) << answer.err;
        return answer.out;
    };
    EXPECT_EQ(fitted("1+80"), fitted("80"));
    std::filesystem::create_directories(program / "settings/fogproof");
    const auto planned = [&](const std::string& parts) {
        program.write("settings/fogproof/darkroom.toml",
                      "fogproof_darkroom = 1\n[work]\ndeveloper-parts = " + parts + "\n");
        const auto answer =
            program.run("plan scan.tif --pack pack.toml", "XDG_CONFIG_HOME=\"$PWD/settings\"");
        EXPECT_EQ(answer.code, 0) << answer.err;
        return answer.out;
    };
    EXPECT_EQ(planned("\"1+14\""), planned("14"));
    EXPECT_NE(planned("14"), planned("9"));
}

TEST(Values, InBracketsStayWhole) {
    const Program program;
    make_typed_files(program);
    EXPECT_EQ(program.run("read instrument.txt -o out.csv --strip '[a,b]'").code, 0);
    EXPECT_THAT(content_of(program / "out.csv"), HasSubstr("\n\"[a,b]\","));
}

TEST(PlanFolder, IsMadeWhereItDoesNotExist) {
    const Program program;
    make_typed_files(program);
    const auto answer = program.run("plan scan.tif --pack pack.toml --output sheets/today");
    EXPECT_EQ(answer.code, 0) << answer.err;
    for (const char* name : {"scan.html", "scan.txt", "session.html", "session.txt", "scan-proofs.html"})
        EXPECT_TRUE(std::filesystem::exists(program / ("sheets/today/" + std::string(name)))) << name;
}

TEST(PlanFolder, IsNotMadeForAScanThatCannotBeRead) {
    const Program program;
    make_typed_files(program);
    EXPECT_EQ(program.run("plan text.tif --pack pack.toml -o sheets").code, 65);
    EXPECT_FALSE(std::filesystem::exists(program / "sheets"));
}

}  // namespace
}  // namespace fogproof::tests
