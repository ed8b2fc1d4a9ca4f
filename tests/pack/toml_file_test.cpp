// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Packs, recipes and settings whose text is lawful TOML 1.0 and still no file of ours: whole numbers beyond
// what a double holds (TOML 1.0, "Integer": 64 bits), keys and tables as deep as nobody writes them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/typed_files.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;

struct Written {
    const char *file, *command, *head;
};
constexpr char kSettings[] = "settings/fogproof/darkroom.toml";
// Each kind of file with a command that reads it.
constexpr Written kKinds[] = {
    {"bad.toml", "pack check bad.toml", "fogproof_pack = 1\n"},
    {"bad.toml", "print scan.tif --pack pack.toml -o out.tif --recipe bad.toml", "fogproof_recipe = 1\n"},
    {kSettings, "print scan.tif --pack pack.toml -o out.tif", "fogproof_darkroom = 1\n"}};

class TomlText : public testing::Test {
  protected:
    void SetUp() override {
        make_typed_files(program_);
        std::filesystem::create_directories(program_ / "settings" / "fogproof");
    }
    [[nodiscard]] Program::Answer run(const std::string& words) const {
        return program_.run("--quiet " + words, "XDG_CONFIG_HOME=\"$PWD/settings\"");
    }
    // The one line in which the program refuses a text.
    [[nodiscard]] std::string refused(const Written& kind, const std::string& text, int code = 65) const {
        program_.write(kind.file, kind.head + text);
        const auto answer = run(kind.command);
        std::filesystem::remove(program_ / kind.file);
        EXPECT_EQ(answer.code, code) << answer.err.substr(0, 400);
        EXPECT_EQ(std::ranges::count(answer.err, '\n'), 1) << answer.err.substr(0, 400);
        EXPECT_LT(answer.err.size(), 500u);
        EXPECT_EQ(answer.out, "");
        EXPECT_FALSE(std::filesystem::exists(program_ / "out.tif"));
        return answer.err;
    }
    Program program_;
};

std::string repeated(const std::string& text, int times) {
    std::string all;
    for (int i = 0; i < times; ++i) all += text;
    return all;
}

TEST_F(TomlText, WholeNumbersBeyondADoubleAreHeldAgainstTheLimitsLikeOthers) {
    // 2^53 + 1 is the first whole number that no double holds (IEEE 754, binary64); the others are the ends
    // of TOML's integers.
    for (const std::string number :
         {"9007199254740993", "9223372036854775807", "-9223372036854775808", "0x7fffffffffffffff"}) {
        SCOPED_TRACE(number);
        EXPECT_THAT(refused(kKinds[0], "[paper]\nwhite = " + number + "\n"),
                    AllOf(HasSubstr("bad.toml:3"), HasSubstr("white = "), HasSubstr("0 to 0.5 D")));
        EXPECT_THAT(refused(kKinds[0], "[fog]\nblank = { value = 0.35, sd = 0.01, from = " + number + " }\n"),
                    HasSubstr("bad.toml:3"));
        EXPECT_THAT(refused(kKinds[1], "[bleach]\ntime_s = " + number + "\n"),
                    AllOf(HasSubstr("bad.toml:3"), HasSubstr("time_s = ")));
        // A setting is held against the limits of its option, like a word that is typed.
        EXPECT_THAT(refused(kKinds[2], "[enlarger]\ncallier = " + number + "\n", 64),
                    AllOf(HasSubstr("darkroom.toml:3"), HasSubstr("1 to 2")));
        EXPECT_THAT(refused(kKinds[0], "fogproof_pack2 = " + number + "\n"), HasSubstr("bad.toml:2"));
    }
}

TEST_F(TomlText, DeepKeysAndTablesAreRefusedInOneLine) {
    constexpr int kParts = 20000;
    const std::string key = repeated("a.", kParts) + "a", spaced = repeated("a . ", kParts) + "a",
                      quoted = repeated("\"a\".", kParts) + "'a'";
    // Levels that add up from headers, keys and inline tables of moderate depth.
    const std::string moderate = repeated("b.", 90) + "b";
    const std::string sum = "[" + moderate + "]\n" + moderate + " = " +
                            repeated("{ " + moderate + " = ", 90) + "1" + repeated(" }", 90) + "\n";
    for (const auto& kind : kKinds)
        for (const auto& text :
             {key + " = 1\n", spaced + " = 1\n", quoted + " = 1\n", "[" + key + "]\n", "[[" + key + "]]\n",
              "x = \"\\\"\" # \"\n" + key + " = 1\n", "x = '''\n'''\n" + key + " = 1\n",
              "x = " + repeated("[", kParts) + "\n", "x = " + repeated("{a=", kParts) + "\n", sum}) {
            SCOPED_TRACE(std::string(kind.file) + " " + text.substr(0, 20));
            EXPECT_THAT(refused(kind, text), AllOf(HasSubstr(".toml:"), HasSubstr("levels")));
        }
}

TEST_F(TomlText, DotsAndBracketsInTextsAndRemarksAreNoLevels) {
    const std::string many = repeated("a.[{", 500);
    program_.write("good.toml", "fogproof_pack = 1\n# " + many + "\nname = \"" + many + "\\\"" + many +
                                    "\"\nnotes = '''\n" + many + "''" + many + "\n'''\n[paper] # " + many +
                                    "\nwhite = 0.08\n[fog]\n\"blank\" = 0.35\n");
    const auto answer = run("pack check good.toml");
    EXPECT_EQ(answer.code, 0) << answer.err.substr(0, 400);
}

TEST_F(TomlText, VersionAndHelpAreToldWhateverTheSettingsSay) {
    for (const std::string text : {"[work\n", "[work]\nlitres = \"much\"\n", "[strange]\n"}) {
        program_.write(kSettings, "fogproof_darkroom = 1\n" + text);
        for (const char* words : {"--version", "--help", "print --help", "pack fit --help"}) {
            const auto answer = run(words);
            EXPECT_EQ(answer.code, 0) << words << answer.err;
            EXPECT_EQ(answer.err, "");
            EXPECT_THAT(answer.out, HasSubstr("fogproof"));
        }
        // Whatever is wrong with the words as well, the settings come first: every command suffers from them.
        for (const char* words : {"plan", "print scan.tif --pack pack.toml -o out.tif"})
            EXPECT_THAT(run(words).err, HasSubstr("darkroom.toml:"));
    }
}

TEST_F(TomlText, ThatIsReadingsIsCalledSo) {
    for (const Written& kind : kKinds)
        EXPECT_THAT(refused(kind, "strip,bleach_s,density\nA,0,0.31\n"), HasSubstr("looks like a CSV file"));
}

}  // namespace
}  // namespace fogproof::tests
