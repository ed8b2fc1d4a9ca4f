// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The program as it is typed: the way through it, and every wrong turn we could think of.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>
#include <sstream>

#include "fogproof/base/words.hpp"
#include "support/program.hpp"

namespace fogproof {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::StartsWith;
using vips::VImage;

// Said by CMakeLists.txt alone.
std::string version_of_build() {
    const std::string text = content_of(std::filesystem::path(FOGPROOF_SOURCE_DIR) / "CMakeLists.txt");
    const auto at = text.find("VERSION ", text.find("project(")) + 8;
    return text.substr(at, text.find_first_of(" \n)", at) - at);
}

TEST(CommandLine, TellsTheVersionOfTheBuild) {
    const auto answer = Program().run("--version");
    EXPECT_EQ(answer.code, 0);
    EXPECT_THAT(answer.out, StartsWith("fogproof " + version_of_build() + "\n"));
    EXPECT_THAT(answer.out, AllOf(HasSubstr("libvips 8."), HasSubstr("Little CMS 2."), HasSubstr("Ceres 2.")));
    EXPECT_EQ(answer.err, "");
}

TEST(CommandLine, HelpsWithEveryVerb) {
    const Program program;
    const std::string top = program.run("--help").out;
    for (const char* verb : {"demo", "grid", "print", "pack", "pack new", "pack check", "pack show"}) {
        EXPECT_THAT(top, HasSubstr(std::string(verb).substr(0, 4)));
        const auto answer = program.run(std::string(verb) + " --help");
        EXPECT_EQ(answer.code, 0) << verb;
        EXPECT_EQ(answer.err, "") << verb;
        EXPECT_THAT(answer.out, HasSubstr("--help")) << verb;
    }
    for (const char* word : {"--pack", "--grade", "--exposure", "--restrainer", "--develop", "--bleach",
                             "--dilution", "--redevelop", "--recipe"})
        EXPECT_THAT(program.run("print --help").out, HasSubstr(word));
}

TEST(CommandLine, LeadsFromTheDemoToItsGridItsPrintsAndItsPack) {
    vips_ready();
    const Program program;
    const auto works = [&](const std::string& words) {
        const auto answer = program.run(words);
        EXPECT_EQ(answer.code, 0) << words << "\n" << answer.err;
        return answer;
    };
    works("demo attic --megapixels 0.3");
    for (const char* name : {"negative.tif", "pack.toml", "readings.csv", "README.txt"})
        EXPECT_TRUE(std::filesystem::is_regular_file(program / "attic" / name)) << name;

    const auto drawn = works("grid attic/negative.tif --pack attic/pack.toml -o grid.png --cell 120");
    // Guesses taken are said.
    EXPECT_THAT(drawn.err, AllOf(HasSubstr("linear transmittance"), HasSubstr("the frame was found")));
    const VImage grid = VImage::new_from_file((program / "grid.png").c_str());
    EXPECT_GT(grid.width(), 4 * 120);
    const auto numbers = nlohmann::json::parse(content_of(program / "grid.png.json"));
    EXPECT_TRUE(numbers.is_object());

    works("print attic/negative.tif --pack attic/pack.toml -o print.tif --grade 3 --bleach 100%");
    const VImage print = VImage::new_from_file((program / "print.tif").c_str());
    EXPECT_EQ(print.format(), VIPS_FORMAT_USHORT);
    EXPECT_EQ(print.bands(), 3);
    std::filesystem::create_directory(program / "prints");
    std::filesystem::copy_file(program / "attic/negative.tif", program / "second.tif");
    works("print attic/negative.tif second.tif --pack attic/pack.toml -o prints --format jpg");
    EXPECT_TRUE(std::filesystem::exists(program / "prints/negative.jpg"));
    EXPECT_TRUE(std::filesystem::exists(program / "prints/second.jpg"));

    EXPECT_THAT(works("pack check attic/pack.toml").out, HasSubstr("hangs together"));
    EXPECT_THAT(works("pack show attic/pack.toml").out, AllOf(HasSubstr("measured"), HasSubstr("assumed")));
    const auto shown =
        works("pack show attic/pack.toml --json --at grade=3,restrainer=20,bleach=40s --at grade=0");
    EXPECT_TRUE(nlohmann::json::accept(shown.out)) << shown.out;
    works("pack show attic/pack.toml --curves curves.svg");
    EXPECT_THAT(content_of(program / "curves.svg"), HasSubstr("<svg"));
}

// What stands in tests/reference/wrong_input.txt is typed among these.
void make_files(const Program& program) {
    vips_ready();
    constexpr int kWide = 96, kHigh = 64;
    const auto save = [&](const VImage& image, const std::string& name) {
        image.write_to_file((program / name).c_str());
    };
    const auto slope = [](int x, int y, int) {
        return 60000 * std::pow(10.0, -(0.1 + 1.3 * x / kWide * (0.5 + 0.5 * y / kHigh)));
    };
    const auto scan = raster<std::uint16_t>(kWide, kHigh, 1, slope, VIPS_INTERPRETATION_GREY16);
    for (const char* folder : {"folder", "twin"}) std::filesystem::create_directory(program / folder);
    for (const char* name : {"scan.tif", "other.tif", "twin/scan.tif", "whole.png"}) save(scan, name);
    save(raster<std::uint16_t>(
             kWide, kHigh, 1, [](int, int, int) { return 30000.0; }, VIPS_INTERPRETATION_GREY16),
         "even.tif");
    save(scan.crop(0, 0, 4, 4), "tiny.tif");
    save(raster<float>(
             kWide, kHigh, 1,
             [&](int x, int y, int band) {
                 return x == 50 && y == 30 ? std::numeric_limits<double>::quiet_NaN()
                                           : slope(x, y, band) / 65535;
             },
             VIPS_INTERPRETATION_B_W),
         "nan.tif");
    for (const auto& [whole, cut] :
         {std::pair{"scan.tif", "truncated.tif"}, {"whole.png", "truncated.png"}}) {
        const std::string bytes = content_of(program / whole);
        program.write(cut, bytes.substr(0, bytes.size() * 2 / 3));
    }
    program.write("text.tif", "not a picture\n");
    program.write("empty.tif", "");
    for (const char* name : {"there.tif", "there.toml", "there.png.json"}) program.write(name, "kept");

    const std::string head = "fogproof_pack = 1\n", slips = head + "[paper]\nwhite = 0.08\n";
    program.write("unanchored.toml", slips + "[fog]\nblank = 0.35\n");
    program.write("pack.toml", slips + "[fog]\nblank = 0.35\n[anchor]\nknown = true\n");
    program.write("fresh.toml", slips + "[fog]\nblank = 0.08\n[anchor]\nknown = true\n");
    program.write("graded.toml", slips + "contrast = \"graded\"\niso_range = 87\n[fog]\nblank = 0.35\n");
    program.write("broken.toml", head + "name = \n");
    program.write("strange_key.toml", head + "[paper]\nwhitte = 0.1\n");
    program.write("strange_section.toml", head + "[papre]\nwhite = 0.1\n");
    program.write("wrong_type.toml", head + "[paper]\nwhite = \"clear\"\n");
    program.write("out_of_range.toml", head + "[paper]\nwhite = 9\n");
    program.write("contradiction.toml", head + "[paper]\nwhite = 0.4\n[fog]\nblank = 0.1\n");
    program.write("strange_recipe.toml", "fogproof_recipe = 1\n[bleach]\ntmie_s = 40\n");
}

TEST(CommandLine, IsQuietWhenAskedAndTellsTheTablesErrorWhenAsked) {
    const Program program;
    make_files(program);
    const std::string print = "print scan.tif --pack pack.toml --force -o out.tif ";
    EXPECT_EQ(program.run(print + "--quiet").err, "");
    EXPECT_THAT(program.run(print + "--verbose").err, HasSubstr("L*"));
}

TEST(CommandLine, GivesTheSamePixelsTwice) {
    const Program program;
    make_files(program);
    for (const char* name : {"a.tif", "b.tif"})
        ASSERT_EQ(program.run("print scan.tif --pack pack.toml -o " + std::string(name)).code, 0);
    EXPECT_EQ(content_of(program / "a.tif"), content_of(program / "b.tif"));
}

TEST(CommandLine, OneBadNegativeDoesNotKeepTheOthersFromTheirPrints) {
    const Program program;
    make_files(program);
    const auto answer = program.run("print text.tif scan.tif --pack pack.toml -o folder --quiet");
    EXPECT_EQ(answer.code, 65);
    EXPECT_THAT(answer.err, AllOf(HasSubstr("text.tif"), HasSubstr("not all negatives could be printed")));
    EXPECT_TRUE(std::filesystem::exists(program / "folder/scan.tif"));
    EXPECT_FALSE(std::filesystem::exists(program / "folder/text.tif"));
}

std::vector<std::string> names_of(const std::map<std::string, std::string>& files) {
    std::vector<std::string> names;
    for (const auto& [name, content] : files) names.push_back(name);
    return names;
}

TEST(WrongInput, EndsWithOneLineItsExitCodeAndNothingLeftBehind) {
    const Program program;
    make_files(program);
    const auto before = program.files();
    std::istringstream table(
        content_of(std::filesystem::path(FOGPROOF_SOURCE_DIR) / "tests/reference/wrong_input.txt"));
    int tried = 0;
    for (std::string line; std::getline(table, line);) {
        if (line.empty() || line.starts_with('#')) continue;
        const auto parts = split(line, '|');
        ASSERT_EQ(parts.size(), 3u) << line;
        ++tried;
        const auto answer = program.run("--quiet " + parts[2]);
        EXPECT_EQ(answer.code, std::stoi(parts[0])) << line << "\n" << answer.err;
        for (const auto& words : split(parts[1], '&'))
            EXPECT_THAT(answer.err, HasSubstr(std::string(trimmed(words)))) << line;
        EXPECT_THAT(answer.err, StartsWith("fogproof: ")) << line;
        EXPECT_EQ(std::ranges::count(answer.err, '\n'), 1) << line << "\n" << answer.err;
        EXPECT_TRUE(answer.err.ends_with('\n')) << line;
        EXPECT_EQ(answer.out, "") << line;
        EXPECT_EQ(names_of(program.files()), names_of(before)) << line;
        ASSERT_TRUE(program.files() == before) << line << "\nleft something behind or changed an input";
    }
    EXPECT_GE(tried, 40);
}

}  // namespace
}  // namespace fogproof
