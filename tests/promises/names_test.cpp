// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A name may hold any byte but a slash and NUL (POSIX.1-2017, 3.170). Whatever stands in the names of files,
// strips and packs and in the words typed: nothing that the program says or writes holds a character that
// steers a terminal (ISO 6429), ends a line, turns the direction of reading (Unicode annex 9) or is forbidden
// in XML 1.0 (clause 2.2).
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "base/words.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/typed_files.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;

// Red, a line like one of ours, C1's clear screen, line separator, right-to-left override, no character, no
// UTF-8, DEL, bell.
const std::string kName =
    "a\x1b[31m\nfogproof: forged\r\xC2\x9B"
    "2J\xE2\x80\xA8\xE2\x80\xAE\xE2\x81\xA6\xEF\xBF\xBE\xEF\xBF\xBF\xFF\x7F\x07\tz";

// Where such a character stands first; empty when there is none. Tabs and line feeds are asked about
// elsewhere.
std::string steering_in(const std::string& text) {
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        if (byte >= 0x20 && byte < 0x7F) continue;
        const bool is_control =
            (byte < 0x20 && byte != '\n' && byte != '\t' && text.compare(i, 2, "\r\n") != 0) ||
            byte == 0x7F || (byte == 0xC2 && i + 1 < text.size() && (text[i + 1] & 0xE0) == 0x80);
        bool is_mark = byte == 0xFF;
        for (const char* mark : {"\xE2\x80\xA8", "\xE2\x80\xA9", "\xE2\x80\xAA", "\xE2\x80\xAE",
                                 "\xE2\x81\xA6", "\xE2\x81\xA9", "\xEF\xBF\xBE", "\xEF\xBF\xBF"})
            is_mark = is_mark || text.compare(i, 3, mark) == 0;
        if (is_control || is_mark)
            return "byte " + std::to_string(i) + " in " +
                   testing::PrintToString(text.substr(i < 60 ? 0 : i - 60, 120));
    }
    return {};
}

void expect_clean(const std::string& text, const std::string& where) {
    EXPECT_EQ(steering_in(text), "") << where;
    EXPECT_EQ(("\n" + text).find("\nfogproof: forged"), std::string::npos) << where;
    EXPECT_EQ(text.find("z\t"), std::string::npos) << where;
}

// The words of an answer as whoever reads it gets them.
void expect_clean(const nlohmann::json& part, const std::string& where) {
    if (part.is_string()) {
        expect_clean(part.get<std::string>(), where);
        EXPECT_EQ(part.get<std::string>().find('\n'), std::string::npos) << where;
    }
    if (part.is_structured())
        for (const auto& inner : part) expect_clean(inner, where);
}

// What a file says in words: all of it, or the description in a picture (XMP, ISO 16684-1), which a PNG
// packs.
std::string words_in(const std::string& content) {
    const bool is_text = content.find('\0') == std::string::npos;
    if (is_text) return content;
    std::string words = content;
    if (content.starts_with("\x89PNG")) {
        const auto picture = vips::VImage::new_from_buffer(content, "");
        if (picture.get_typeof(VIPS_META_XMP_NAME) == 0) return {};
        std::size_t size = 0;
        const auto* const bytes = static_cast<const char*>(picture.get_blob(VIPS_META_XMP_NAME, &size));
        words.assign(bytes, size);
    }
    const auto from = words.find("<x:xmpmeta"), to = words.find("</x:xmpmeta>");
    return to == std::string::npos ? std::string() : words.substr(from, to - from);
}

class Names : public testing::Test {
  protected:
    void SetUp() override {
        make_typed_files(program_);
        for (const auto& [name, content] : program_.files())
            if (!std::set<std::string>{"good.icc", "strip.tif", "instrument.txt"}.contains(name))
                std::filesystem::remove_all(program_ / name);
        ASSERT_EQ(program_.run("--quiet demo . --megapixels 0.3 --force").code, 0);
        ::setenv("NAME", kName.c_str(), 1);
        std::filesystem::create_directories(program_ / kName / "fogproof");
        for (const auto& [from, ending] : {std::pair{"negative.tif", ".tif"},
                                           {"pack.toml", ".toml"},
                                           {"readings.csv", ".csv"},
                                           {"good.icc", ".icc"},
                                           {"strip.tif", "-strip.tif"},
                                           {"instrument.txt", ".txt"}})
            std::filesystem::copy_file(program_ / from, program_ / (kName + ending));
        program_.write(kName + ".recipe", "fogproof_recipe = 1\n[bleach]\ntime_s = 40\n");
        program_.write(kName + ".list", "negative.tif\n");
        program_.write(kName + "/fogproof/darkroom.toml", "fogproof_darkroom = 1\n[work]\nlitres = 1\n");
        inputs_ = program_.files();
    }
    void TearDown() override { ::unsetenv("NAME"); }

    // Runs a line; what is said and written must be clean, exit code and inputs as they should.
    Program::Answer run(const std::string& words, int code, const std::string& settings = "$NAME") {
        const auto answer = program_.run(words, "XDG_CONFIG_HOME=\"$PWD/" + settings + "\"");
        SCOPED_TRACE(words);
        EXPECT_EQ(answer.code, code) << answer.err;
        expect_clean(answer.out, "standard output");
        expect_clean(answer.err, "standard error");
        if (answer.out.starts_with("{")) expect_clean(nlohmann::json::parse(answer.out), "answer");
        int written = 0;
        for (const auto& [name, content] : program_.files()) {
            if (const auto input = inputs_.find(name); input != inputs_.end()) {
                EXPECT_TRUE(input->second == content) << "changed: " << testing::PrintToString(name);
                continue;
            }
            expect_clean(words_in(content), testing::PrintToString(name));
            if (name.ends_with(".json")) expect_clean(nlohmann::json::parse(content), name);
            if (!words_in(content).empty()) kinds_.insert(std::filesystem::path(name).extension());
            if (!name.ends_with("/")) ++written;
            if (!name.ends_with("/")) std::filesystem::remove(program_ / name);
        }
        EXPECT_TRUE(code == 0 || written == 0);
        return answer;
    }
    Program program_;
    std::map<std::string, std::string> inputs_;
    std::set<std::string> kinds_;  ///< suffixes of the files in whose words was looked
};

// What runs, the kinds of files in whose words is looked, and the folder of settings below the program's own.
struct Line {
    std::string words, kinds, settings = "$NAME";
};

// SCAN, STRIP and PACK stand for files of the name.
std::vector<Line> lines() {
    std::vector<Line> all{
        {"print SCAN PACK -o \"$NAME-out.tif\" --recipe \"$NAME.recipe\"", ".tif"},
        {"print SCAN PACK -o \"$NAME-out.png\" --size 64 --verbose --profile \"$NAME.icc\"", ".png"},
        {"print --list \"$NAME.list\" SCAN PACK -o \"$NAME\" --format jpg", ".jpg"},
        {"grid SCAN PACK -o \"$NAME-out.png\" --cell 80 --html --profile \"$NAME.icc\"", ".png .json .html"},
        {"start SCAN PACK", ""},
        {"start SCAN PACK --verbose --ladder \"$NAME-ladder.jpg\" --match SCAN", ""},
        {"start SCAN PACK --json --match STRIP", ""},
        {"start SCAN PACK --rescue 140s", ""},
        {"start SCAN PACK --rescue 140s --json", ""},
        {"plan SCAN negative.tif PACK", ""},
        {"plan SCAN PACK --json", ""},
        {"plan SCAN negative.tif PACK -o \"$NAME\"", ".txt .html"},
        {"plan SCAN PACK --match STRIP -o \"$NAME\"", ".txt .html"},
        {"pack check \"$NAME.toml\"", ""},
        {"pack show \"$NAME.toml\" --curves \"$NAME.svg\"", ".svg"},
        {"pack show \"$NAME.toml\" --json --at 'grade=2,\nbleach=20s'", ""},
        {"pack show \"$NAME.toml\" --json", ""},
        {"pack fit \"$NAME.csv\" PACK -o \"$NAME-fit.toml\" --curves \"$NAME.svg\"", ".toml .svg"},
        {"pack fit \"$NAME.csv\" --json -o \"$NAME-fit.toml\"", ".toml"},
        {"pack new --white 0.1 --blank 0.3 -o \"$NAME-new.toml\"", ".toml"},
        {"read \"$NAME.csv\" -o \"$NAME-read.csv\"", ".csv"},
        {"read STRIP --white 20,190,120,50=0.09 -o \"$NAME-read.csv\" --picture \"$NAME-seen.png\"", ".csv"},
        {"read STRIP --white 20,190,120,50=0.09 -o \"$NAME-read.csv\" --json", ".csv"},
        {"read STRIP \"$NAME.txt\" -o \"$NAME-read.csv\" --picture \"$NAME-seen.tif\"", ".csv"},
        {"darkroom", ""},
        {"darkroom --new", ".toml", "$NAME-new"},
        {"completion bash", ""},
        {"manual \"$NAME\"", ".1"},
        {"demo \"$NAME-demo\" --megapixels 0.3", ".toml .csv .txt"}};
    for (Line& line : all)
        for (const auto& [word, meant] : {std::pair{"SCAN", "\"$NAME.tif\""},
                                          {"STRIP", "\"$NAME-strip.tif\""},
                                          {"PACK", "--pack \"$NAME.toml\""}})
            for (auto at = line.words.find(word); at != std::string::npos; at = line.words.find(word))
                line.words.replace(at, std::string(word).size(), meant);
    return all;
}

// As the pages of the manual name them, verbs of verbs too.
TEST(NamesTable, HasALineForEveryVerb) {
    const Program program;
    std::filesystem::create_directory(program / "pages");
    ASSERT_EQ(program.run("--quiet manual pages").code, 0);
    int verbs = 0;
    for (const auto& page : std::filesystem::directory_iterator(program / "pages")) {
        std::string verb = page.path().stem().string().substr(std::string("fogproof").size());
        if (verb.empty()) continue;
        std::ranges::replace(verb, '-', ' ');
        const auto is_of_verb = [&](const Line& line) {
            return (line.words + " ").starts_with(verb.substr(1) + " ");
        };
        EXPECT_TRUE(std::ranges::any_of(lines(), is_of_verb)) << verb;
        ++verbs;
    }
    EXPECT_GE(verbs, 13);
}

// A share of the table, so that several can run at once.
constexpr std::size_t kShares = 5;
class EveryVerb : public Names, public testing::WithParamInterface<std::size_t> {};

TEST_P(EveryVerb, SteersNothingByTheNamesOfFiles) {
    const auto table = lines();
    for (std::size_t at = GetParam(); at < table.size(); at += kShares) {
        kinds_.clear();
        run(table[at].words, 0, table[at].settings);
        for (const auto& kind : split(table[at].kinds, ' '))
            EXPECT_TRUE(kind.empty() || kinds_.contains(std::string(kind)))
                << table[at].words << ": no words of a file " << kind;
    }
}

INSTANTIATE_TEST_SUITE_P(Share, EveryVerb, testing::Range<std::size_t>(0, kShares));

// Each once more where it fails and has to name the file.
TEST_F(Names, OfFilesSteerNothingInAnyRefusal) {
    const std::string scan = "\"$NAME.tif\" ", pack = "--pack \"$NAME.toml\" ";
    for (const std::string& words : std::vector<std::string>{
             "print " + scan + pack + "-o \"$NAME.tif\"", "print \"$NAME\" " + pack + "-o \"$NAME-out.tif\"",
             "print \"$NAME.csv\" " + pack + "-o out.tif", "grid \"$NAME\" " + pack + "-o \"$NAME.png\"",
             "start \"$NAME.recipe\" " + pack, "plan " + scan + pack + "-o \"$NAME.csv\"",
             "pack check \"$NAME.csv\"", "pack fit \"$NAME.toml\" -o \"$NAME-fit.toml\"",
             "read \"$NAME.toml\" -o \"$NAME-read.csv\"", "pack fit \"$NAME.csv\" -o \"$NAME/none/fit.toml\"",
             std::string("manual \"$NAME.tif/none\""), std::string("\"$NAME\""), std::string("--\"$NAME\""),
             std::string("pack \"$NAME\""), std::string("completion \"$NAME\""),
             "print --list \"$NAME.recipe\" " + pack + "-o \"$NAME\"",
             "grid " + scan + pack + "-o \"$NAME.tif\"", "start " + scan + pack + "--match \"$NAME.csv\"",
             "print " + scan + "--pack \"$NAME\" -o o.tif"}) {
        const auto answer = program_.run("--quiet " + words);
        SCOPED_TRACE(words);
        EXPECT_NE(answer.code, 0);
        EXPECT_NE(answer.code, 70) << answer.err;
        expect_clean(answer.err, "standard error");
    }
}

TEST_F(Names, OfPacksAndStripsAreRefusedWhereTheyEnter) {
    program_.write("named.toml",
                   "fogproof_pack = 1\nname = \"a\\u001b[31m\\u009b\\u2028z\"\n[paper]\nwhite = 0.1\n");
    program_.write("strip.csv", "strip,density\n\"" + kName + "\",0.1\n");
    program_.write("plain.csv", "density\n0.1\n");
    program_.write("keys.toml", "fogproof_pack = 1\n\"\\u001b\\u009b\\n\\u2028\\ufffe\" = 1\n");
    program_.write("column.csv", "\"" + kName + "\",density\n1,0.1\n");
    inputs_ = program_.files();
    EXPECT_THAT(run("pack check named.toml", 65).err, HasSubstr("named.toml:2: name = "));
    EXPECT_THAT(run("pack new --white 0.1 --blank 0.3 --name \"$NAME\" -o new.toml", 78).err,
                HasSubstr("name"));
    EXPECT_THAT(run("pack fit strip.csv -o fit.toml", 65).err, HasSubstr("strip.csv:2: strip = "));
    EXPECT_THAT(run("read plain.csv --strip \"$NAME\" -o read.csv", 65).err, HasSubstr("strip = "));
    run("pack check keys.toml", 65);
    run("pack fit column.csv -o fit.toml", 65);
}

TEST_F(Names, AsTheValueOfAnyOptionSteerNothing) {
    const std::string scan = "negative.tif --pack pack.toml ";
    for (const auto& [verb, words] :
         std::map<std::string, std::string>{{"print", scan + "-o out.tif"},
                                            {"grid", scan + "-o out.png"},
                                            {"start", scan},
                                            {"plan", scan},
                                            {"pack new", "--white 0.1 --blank 0.3 -o new.toml"},
                                            {"pack show", "pack.toml"},
                                            {"pack fit", "readings.csv -o fit.toml"},
                                            {"read", "readings.csv -o read.csv"},
                                            {"demo", "new"}}) {
        std::set<std::string> options;
        std::istringstream help(program_.run(verb + " --help").out);
        for (std::string word; help >> word;)
            if (word.starts_with("--") && word.size() > 3)
                options.insert(word.substr(0, word.find_first_of(",;.)[=")));
        EXPECT_GE(options.size(), 2u) << verb;
        for (const auto& option : options) {
            const auto answer = program_.run("--quiet " + verb + " " + words + " " + option + "=\"$NAME\"");
            SCOPED_TRACE(verb + " " + option);
            EXPECT_NE(answer.code, 70) << answer.err;
            EXPECT_LT(answer.code, 128) << answer.err;
            expect_clean(answer.out, "standard output");
            expect_clean(answer.err, "standard error");
            if (answer.code != 0) {
                EXPECT_EQ(std::ranges::count(answer.err, '\n'), 1) << answer.err;
            }
            for (const auto& [name, content] : program_.files())
                if (!inputs_.contains(name)) {
                    expect_clean(words_in(content), name);
                    std::filesystem::remove_all(program_ / name);
                }
        }
    }
    EXPECT_TRUE(program_.files() == inputs_);
}

}  // namespace
}  // namespace fogproof::tests
