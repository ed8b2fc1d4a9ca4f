// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The file of a pack: what it says, what it may leave out, what is refused.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <optional>
#include <random>
#include <set>

#include "fogproof/base/error.hpp"
#include "fogproof/emulsion/paper_numbers.hpp"
#include "fogproof/pack/file.hpp"
#include "fogproof/pack/grades.hpp"
#include "pack/from_slips.hpp"
#include "pack/schema.hpp"
#include "support/packs.hpp"
#include "support/refusal.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

struct TextFault {
    const char* text;
    const char* message;
};

TEST(PackFile, AFileThatSaysNothingGivesTheDefaultsAllAssumed) {
    const Pack pack = parse_pack("fogproof_pack = 1\n", "old.toml");
    EXPECT_EQ(pack, Pack{});
    const std::string text = written(pack);
    std::size_t assumed = 0;
    for (auto at = text.find("from = \"assumed\" }"); at != std::string::npos;
         at = text.find("from = \"assumed\" }", at + 1))
        ++assumed;
    // And contrast, surface, agent and head; a departure from the laws is told by the list once there is one,
    // fog of the edges once somebody tells it.
    const auto is_written = [](const PackNumber& row) {
        return !is_departure(row) && is_listed(Pack{}, row);
    };
    EXPECT_EQ(assumed, std::size_t(std::ranges::count_if(pack_numbers(), is_written)) + 4);
    EXPECT_EQ(text.find("edge_fog"), std::string::npos);
}

TEST(PackFile, PlainValuesAreGivenAndTablesSayWhereTheyComeFrom) {
    const Pack pack = parse_pack(
        "fogproof_pack = 1\nname = \"attic\"\n[paper]\ncontrast = \"graded\"\nwhite = 0.1\n"
        "black = { value = 1.9, sd = 0.02, from = \"measured\" }\niso_range = { value = 90, from = "
        "\"assumed\" }\n"
        "[fog]\nblank = { value = 0.3, sd = 0.01 }\n[anchor]\nknown = true\n",
        "old.toml");
    EXPECT_EQ(pack.name, "attic");
    EXPECT_EQ(pack.contrast, Contrast::graded);
    EXPECT_TRUE(pack.darkroom.anchored);
    EXPECT_EQ(pack.sheet.white_density, 0.1);
    EXPECT_EQ(pack.known("paper.white"), (Knowledge{Origin::given, std::nullopt}));
    EXPECT_EQ(pack.black_density, 1.9);
    EXPECT_EQ(pack.known("paper.black"), (Knowledge{Origin::measured, 0.02}));
    EXPECT_EQ(pack.iso_range, 90);
    EXPECT_EQ(pack.known("paper.iso_range").origin, Origin::assumed);
    EXPECT_EQ(pack.known("fog.blank"), (Knowledge{Origin::given, 0.01}));
    EXPECT_EQ(pack.known("paper.contrast").origin, Origin::given);
    EXPECT_EQ(pack.known("paper.surface").origin, Origin::assumed);
}

TEST(PackFile, ASurfaceBringsItsOwnLightAndBlackUnlessStated) {
    const Pack matt = parse_pack("fogproof_pack = 1\n[paper]\nsurface = \"matt\"\n", "old.toml");
    EXPECT_EQ(matt.surface, Surface::matt);
    EXPECT_EQ(matt.sheet.surface, surface_defaults(Surface::matt).light);
    EXPECT_EQ(matt.black_density, surface_defaults(Surface::matt).black_density);
    EXPECT_NO_THROW(static_cast<void>(paper_model(matt)));
    const Pack stated =
        parse_pack("fogproof_pack = 1\n[paper]\nblack = 1.4\nsurface = \"matt\"\n", "old.toml");
    EXPECT_EQ(stated.black_density, 1.4);
}

TEST(PackFile, FaultsAreNamedWithTheirLineAndWhatIsAllowed) {
    const TextFault kFaults[] = {
        {"", "old.toml: does not say fogproof_pack; expected: fogproof_pack = 1 above the first section"},
        {"fogproof_pack = 2\n", "old.toml:1: fogproof_pack = 2; expected: fogproof_pack = 1"},
        {"fogproof_pack = \"1\"\n", "old.toml:1: fogproof_pack = \"1\"; expected: fogproof_pack = 1"},
        {"fogproof_pack = 1\n[paper]\nwhite = 1.9\n", "old.toml:3: white = 1.9; expected: 0 to 0.5 D"},
        {"fogproof_pack = 1\n[paper]\n\nwhite = nan\n", "old.toml:4: white = nan; expected: 0 to 0.5 D"},
        {"fogproof_pack = 1\n[paper]\nblack = inf\n", "old.toml:3: black = inf; expected: 0.75 to 2.6 D"},
        {"fogproof_pack = 1\n[paper]\nwhite = \"cream\"\n",
         "old.toml:3: white = \"cream\"; expected: 0 to 0.5 D"},
        {"fogproof_pack = 1\n[paper]\nwhite = true\n", "old.toml:3: white = true; expected: 0 to 0.5 D"},
        {"fogproof_pack = 1\n[paper]\nwhite = [0.1]\n", "old.toml:3: white = a list; expected: 0 to 0.5 D"},
        {"fogproof_pack = 1\n[paper]\nwhite = 2001-01-01\n",
         "old.toml:3: white = a date or time; expected: 0 to 0.5 D"},
        {"fogproof_pack = 1\n[paper]\nwhit = 0.1\n",
         "old.toml:3: unknown key in [paper]: whit; nearest is white"},
        {"fogproof_pack = 1\n[fog]\nwhatever = 0.1\n",
         "old.toml:3: unknown key in [fog]: whatever; expected: blank, time_exponent"},
        {"fogproof_pack = 1\n[papr]\nwhite = 0.1\n", "old.toml:2: unknown section papr; nearest is paper"},
        {"fogproof_pack = 1\nnmae = \"x\"\n", "old.toml:2: unknown key nmae; nearest is name"},
        {"fogproof_pack = 1\nname = 3\n", "old.toml:2: name = 3; expected: text in quotes"},
        {"fogproof_pack = 1\nname = \"a\\nb\"\n",
         "old.toml:2: name = \"a\\u000Ab\"; expected: text of one line"},
        {"fogproof_pack = 1\n[paper]\nsurface = \"mat\"\n",
         "old.toml:3: surface = \"mat\"; expected: \"gloss\", \"semi-matt\", \"matt\""},
        {"fogproof_pack = 1\n[paper]\nwhite = { value = 0.9 }\n",
         "old.toml:3: white = 0.9; expected: 0 to 0.5 D"},
        {"fogproof_pack = 1\n[paper]\nwhite = { sd = 0.1 }\n",
         "old.toml:3: white has no value; expected: { value = ... }"},
        {"fogproof_pack = 1\n[paper]\nwhite = { value = 0.1, sd = 0 }\n",
         "old.toml:3: sd = 0; expected: numbers above 0"},
        {"fogproof_pack = 1\n[paper]\nwhite = { value = 0.1, sd = -0.1 }\n",
         "old.toml:3: sd = -0.1; expected: numbers above 0"},
        {"fogproof_pack = 1\n[paper]\nwhite = { value = 0.1, sd = inf }\n",
         "old.toml:3: sd = inf; expected: numbers above 0"},
        {"fogproof_pack = 1\n[paper]\nwhite = { value = 0.1, from = \"guessed\" }\n",
         "old.toml:3: from = \"guessed\"; expected: \"assumed\", \"given\", \"measured\", "
         "\"partly-measured\""},
        {"fogproof_pack = 1\n[paper]\nwhite = { value = 0.1, form = \"given\" }\n",
         "old.toml:3: unknown part of white: form; nearest is from"},
        {"fogproof_pack = 1\n[anchor]\nknown = 1\n", "old.toml:3: known = 1; expected: true or false"},
        {"fogproof_pack = 1\n[[paper]]\nwhite = 0.1\n", "old.toml:2: [[paper]]; expected: [paper], once"},
        {"fogproof_pack = 1\n[filter]\ngrade = 1\n", "old.toml:2: [filter]; expected: [[filter]]"},
        {"fogproof_pack = 1\n[[filter]]\ngrade = 1\n",
         "old.toml:2: a [[filter]] without balance; expected: grade, balance and, if measured, speed"},
        {"fogproof_pack = 1\n[[filter]]\ngrade = 2\nbalance = 0\n[[filter]]\ngrade = 2\nbalance = 1\n",
         "old.toml:5: filter grade 2; expected: above 2, the filter before"},
        {"fogproof_pack = 1\n[paper]\ncontrast = \"graded\"\n[[filter]]\ngrade = 2\nbalance = 0\n",
         "old.toml: filters on graded paper; expected: filters with contrast = \"variable\""},
    };
    for (const auto& [text, message] : kFaults) EXPECT_STREQ(pack_refusal(text).what(), message);
}

TEST(PackFile, WhatIsNotTomlIsNamedWithItsLine) {
    for (const char* text :
         {"fogproof_pack = 1\n[paper]\nwhite = 0.1\nwhite = 0.2\n",
          "fogproof_pack = 1\n[paper]\n\nwhite 0.1\n", "fogproof_pack = 1\n\n\n[paper\n"}) {
        const Error error = pack_refusal(text);
        EXPECT_THAT(error.what(), testing::StartsWith("old.toml:4: ")) << text;
        EXPECT_THAT(error.what(), testing::EndsWith("expected: TOML 1.0, every key once"));
        EXPECT_EQ(error.fault(), Fault::data);
    }
}

TEST(PackFile, TheFirstFaultInTheFileIsTheOneNamed) {
    EXPECT_STREQ(pack_refusal("fogproof_pack = 1\n[speed]\nlog_seconds = 99\n[fog]\nblank = 99\n").what(),
                 "old.toml:3: log_seconds = 99; expected: -3 to 4 log10 s");
}

TEST(PackFile, MessagesStayOneLineWhateverTheKeyHolds) {
    for (const char* text :
         {"fogproof_pack = 1\n\"a\\nb\" = 1\n", "fogproof_pack = 1\n[\"a\\u001bb\"]\n",
          "fogproof_pack = 1\n[paper]\nsurface = \"a\\nb\"\n", "fogproof_pack = 1\n[\x01]\n"}) {
        const std::string message = pack_refusal(text).what();
        EXPECT_EQ(message.find_first_of("\n\r\x1b\x01"), std::string::npos) << message;
    }
}

TEST(PackFile, TruncatedAnywhereItIsReadOrRefusedNeverMore) {
    Pack pack;
    pack.notes = "two\nlines";
    pack.filters = {{1, 0.2, 0}, {3, -0.3, 0.1}};
    const std::string text = written(pack);
    for (std::size_t length = 0; length < text.size(); length += 7) {
        try {
            static_cast<void>(parse_pack(text.substr(0, length), "old.toml"));
        } catch (const Error& error) {
            EXPECT_THAT(error.what(), testing::StartsWith("old.toml:"));
        }
    }
}

TEST(PackFile, TwoHundredRandomPacksComeBackIdentical) {
    std::mt19937_64 dice(20240607);
    for (int i = 0; i < 200; ++i) {
        const Pack pack = random_pack(dice);
        const std::string text = written(pack);
        const Pack back = parse_pack(text, "random.toml");
        ASSERT_EQ(back, pack) << text;
        ASSERT_EQ(written(back), text);
    }
}

TEST(PackFile, WhatCannotBeReadBackIsNotWritten) {
    Pack pack;
    pack.black_density = std::nan("");
    EXPECT_STREQ(refusal([&] { static_cast<void>(written(pack)); }).what(),
                 "pack: paper.black = nan; expected: 0.75 to 2.6 D");
    pack = Pack{};
    pack.name = "\xff";
    EXPECT_STREQ(refusal([&] { static_cast<void>(written(pack)); }).what(),
                 "pack: name is not text; expected: UTF-8");
}

TEST(PackFile, AMissingFileIsRefused) {
    EXPECT_EQ(refusal([] { static_cast<void>(read_pack("no-such-pack.toml")); }).fault(), Fault::no_input);
}

}  // namespace
}  // namespace fogproof::tests
