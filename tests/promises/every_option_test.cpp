// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Options that several verbs share do something in every one of them. What exactly they do, the tests of each
// group of options say; here no verb may take an option and leave it aside.
#include <gtest/gtest.h>

#include <map>
#include <string>
#include <vector>

#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

// Two ways of saying something, which must not come to the same.
struct Pair {
    std::string without, with;
};
using Pairs = std::vector<Pair>;

const std::string kWhole = "--whole --clear 1 ", kPositive = "--whole --as positive ";
const Pairs kScan{{"--whole ", kPositive},
                  {kWhole, kWhole + "--encoding srgb"},
                  {kWhole, "--frame 24,4,72,30 --clear 1"},
                  {kWhole, kWhole + "--black 0.01"},
                  {kPositive, kPositive + "--film-slope 1.2"},
                  {kPositive, kPositive + "--film-range 2"}};
// A print whose exposure is sought comes out the same wherever clear film lies.
const Pairs kClear{{kWhole, "--whole --clear 0.7"}};
const std::string kGivenSeconds = kWhole + "--exposure 7s ";

// Options beside some that stay.
Pairs beside(const std::string& kept, const std::vector<std::string>& options) {
    Pairs pairs;
    for (const auto& option : options) pairs.push_back({kept, kept + option});
    return pairs;
}
const std::vector<std::string> kEnlarger{"--magnification 6", "--f-number 4", "--callier 1.4",
                                         "--head condenser",  "--flare 0.08", "--reciprocity 0.8",
                                         "--black-time 3s@2", "--light +1"};
const std::vector<std::string> kRecipe{"--recipe recipe.toml", "--grade 4",     "--flash 1s@1",
                                       "--restrainer 25",      "--develop 200", "--bleach 120%",
                                       "--bleach 30s"};
const std::vector<std::string> kPicture{"--profile display-p3", "--rendering relative", "--view bath"};
const std::vector<std::string> kWanted{"--place 0.9@64%", "--mind 80%-100%=90%", "--match other.tif"};

class EveryOption : public ::testing::Test {
  protected:
    void SetUp() override {
        // Light to spare at the top, so that clear film may be put lower; the rest as in `PatchPrints`.
        save_patches(prints_.program, "neg.tif", {0.7, 0.6, 0.32, 0.16, 0.08, 0.04, 0.016});
        save_patches(prints_.program, "other.tif", {0.05, 0.1, 0.3, 0.5, 0.6, 0.7, 0.75});
        prints_.program.write("recipe.toml", "fogproof_recipe = 1\n[bleach]\ntime_s = 70\n");
        prints_.program.write("restrained.toml", "fogproof_recipe = 1\n[develop]\nrestrainer_ml_l = 30\n");
    }
    // What a run says and the pixels it makes; names and notes aside.
    std::string outcome(const std::string& words, const std::string& picture) {
        const auto answer = prints_.program.run(words);
        EXPECT_EQ(answer.code, 0) << words << "\n" << answer.err;
        std::string told = answer.out;
        if (!picture.empty()) {
            const vips::VImage pixels = vips::VImage::new_from_file((prints_.program / picture).c_str());
            std::size_t size = 0;
            void* const bytes = pixels.write_to_memory(&size);
            told += std::string(static_cast<const char*>(bytes), size);
            g_free(bytes);
        }
        return told;
    }
    void expect_difference(const std::string& verb, const Pairs& pairs, const std::string& picture = {}) {
        std::map<std::string, std::string> plain;
        for (const auto& [without, with] : pairs) {
            if (!plain.contains(without)) plain[without] = outcome(verb + without, picture);
            EXPECT_TRUE(outcome(verb + with, picture) != plain[without]) << verb << with;
        }
    }
    PatchPrints prints_;
};

const std::string kInput = "neg.tif --pack pack.toml --quiet ";
const std::string kPrintJob = "print " + kInput + "-o out.tif --force ",
                  kGrid = "grid " + kInput + "-o out.png --force --cell 80 ";

TEST_F(EveryOption, OfPrintDoesSomething) {
    expect_difference(kPrintJob, kScan, "out.tif");
    expect_difference(kPrintJob, {{kGivenSeconds, "--whole --clear 0.7 --exposure 7s "}}, "out.tif");
    expect_difference(kPrintJob, beside(kGivenSeconds, kEnlarger), "out.tif");
    expect_difference(kPrintJob, beside(kGivenSeconds, kRecipe), "out.tif");
    expect_difference(kPrintJob, beside(kGivenSeconds, kPicture), "out.tif");
    expect_difference(kPrintJob,
                      {{kWhole, kWhole + "--exposure 5s"},
                       {kWhole, kWhole + "--exposure +1"},
                       {kWhole, kWhole + "--split 2s@0 4s@5"},
                       {kGivenSeconds + "--bleach 30s", kGivenSeconds + "--bleach 30s --dilution 20"},
                       {kGivenSeconds + "--bleach 90s", kGivenSeconds + "--bleach 90s --redevelop 40"}},
                      "out.tif");
}

TEST_F(EveryOption, OfGridDoesSomething) {
    const std::string grid = kGrid + "--across bleach=0,20s --down develop=80,90 ";
    expect_difference(grid, kScan, "out.png");
    expect_difference(grid, kClear, "out.png");
    expect_difference(grid, beside(kGivenSeconds, kEnlarger), "out.png");
    expect_difference(grid,
                      beside(kGivenSeconds, {"--recipe restrained.toml", "--grade 4", "--flash 1s@1",
                                             "--restrainer 25", "--dilution 20"}),
                      "out.png");
    expect_difference(grid, beside(kGivenSeconds, kPicture), "out.png");
    expect_difference(kGrid + "--across grade=1,2 --down restrainer=0,10 ",
                      {{kWhole, kWhole + "--exposure +1"},
                       {kGivenSeconds, kGivenSeconds + "--develop 200"},
                       {kGivenSeconds, kGivenSeconds + "--bleach 40s"},
                       {kGivenSeconds + "--bleach 90s", kGivenSeconds + "--bleach 90s --redevelop 40"}},
                      "out.png");
}

TEST_F(EveryOption, OfStartDoesSomething) {
    const std::string start = "start " + kInput + "--json ";
    expect_difference(start, kScan);
    expect_difference(start, kClear);
    expect_difference(start, beside(kWhole, kEnlarger));
    expect_difference(start, beside(kWhole, kWanted));
    expect_difference("start " + kInput + "--ladder out.png --force ", beside(kWhole, kPicture), "out.png");
}

TEST_F(EveryOption, OfPlanDoesSomething) {
    const std::string plan = "plan " + kInput + "--json ";
    expect_difference(plan, kScan);
    expect_difference(plan, kClear);
    expect_difference(plan, beside(kWhole, kEnlarger));
    expect_difference(plan, beside(kWhole, kWanted));
}

}  // namespace
}  // namespace fogproof::tests
