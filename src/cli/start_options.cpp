// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/start_options.hpp"

#include <array>

#include "base/words.hpp"
#include "cli/choice.hpp"
#include "cli/proposed_files.hpp"
#include "cli/run_inputs.hpp"
#include "cli/typed_values.hpp"
#include "fogproof/base/error.hpp"
#include "pack/treatment_limits.hpp"
#include "print/amounts.hpp"
#include "print/recipe_doubts.hpp"
#include "scan/local_masks.hpp"

namespace fogproof::cli {
namespace {

// More are hard to tell apart.
constexpr std::size_t kMostRungs = 11;

}  // namespace

void StartOptions::add_to(CLI::App& app) {
    app.add_option("NEG", scan, "scanned negative or digital picture")->required();
    app.add_flag("--json", json, "the answer as JSON");
    app.add_option("--dilution", dilution, "of the bleach bath [the pack's]")->type_name(kDilution);
    app.add_option("--dry-down", dry_down_percent,
                   "for strips judged wet: percent by which to shorten the band you choose, 8 to 12 "
                   "by trade habit; the times that start gives are for the dry print and do not change [0]");
    app.add_option(
        "--ladder", ladder,
        "picture of the print at several bleach times, from too short to too long (.tif .png .jpg)");
    app.add_option("--rungs", rungs,
                   "bleach times of --ladder beside the recommended one, such as 10s,20s,2min [from half "
                   "to double of it]");
    app.add_option("--strip", strip,
                   "picture of the test strip as its bands should come out, to compare the real one with "
                   "(.tif .png .jpg)");
    app.add_option("--rescue", rescue,
                   "how long the best print was left in the bleach (140s); start says what "
                   "redevelopment brings back");
    app.add_option("--recipe-out", recipe, "file for the best recipe, which print takes as its own (.toml)");
    app.add_flag("--local", propose,
                 "also look for the burn or dodge that would gain most; --recipe-out then writes "
                 "it with its mask (RECIPE-burn.png or RECIPE-dodge.png)");
    seen.add_to(app);
    decided.add_to(app);
    local.add_to(app);
    sheet.add_to(app, kSheetGroup);
    target.add_to(app);
    pack.add_to(app);
    negative.add_to(app);
    picture.add_to(app);
}

std::vector<std::string> StartOptions::doubts(const Pack& on, std::optional<Seconds> bleached) const {
    Recipe told = decided.recipe();
    // A print left in the bleach for long is what a rescue is for.
    if (bleached && bleached->value <= on.bleach.soak_s) told.bleach = *bleached;
    auto all = recipe_doubts(on, std::array{told});
    if (const double percent = dry_down_percent; percent > 0 && percent < 1)
        all.push_back("--dry-down " + decimal(percent, 3) +
                      " takes less than one percent off; percent are wanted: 8 for 8 %");
    return all;
}

std::optional<Seconds> StartOptions::overdone() const {
    if (rescue.empty()) return std::nullopt;
    return Seconds{within(plain_amount(rescue, "s", "--rescue"), 0, 7200, "--rescue")};
}

std::vector<Seconds> StartOptions::ladder_times() const {
    if (rungs.empty()) return {};
    const auto refuse = [](const char* other) {
        throw Error(Fault::usage, "--rungs", other, "--ladder FILE of a print that is bleached");
    };
    if (ladder.empty()) refuse("without --ladder");
    if (!rescue.empty()) refuse("cannot go together with --rescue");
    std::vector<Seconds> times;
    for (const auto& word : split(rungs, ','))
        times.push_back({within(plain_amount(std::string(word), "s", "--rungs"), 0.5,
                                kBleachTimeLimits.maximum, "--rungs")});
    if (times.size() > kMostRungs)
        throw Error(Fault::usage, "--rungs", std::to_string(times.size()) + " times",
                    "up to " + std::to_string(kMostRungs));
    return times;
}

WholeFile::Replace StartOptions::replace() const {
    return picture.force ? WholeFile::Replace::allowed : WholeFile::Replace::never;
}

void StartOptions::check_files(const Recipe& worked, const Pack& on) const {
    RunFiles files = run_that_reads({scan, pack.path, target.match, picture.profile, local.file});
    for (const auto& mask : mask_files(worked)) files.reads(mask);
    files.reads(on.edge_fog.map);
    files.writes(ladder, "the ladder");
    files.writes(strip, "the test strip");
    files.writes(recipe, "the recipe");
    files.writes(seen.readings, "the reading");
    if (propose) declare_proposed_masks(files, recipe, replace());
    for (const std::string& drawn : {ladder, strip}) {
        if (drawn.empty()) continue;
        static_cast<void>(picture.options(drawn, 8));
        WholeFile::refuse_unwritable(drawn, replace());
    }
    if (!recipe.empty()) WholeFile::refuse_unwritable(recipe, replace());
}

void StartOptions::require_alone() const {
    if (!propose) return;
    const auto refuse = [](const std::string& other) {
        throw Error(Fault::usage, "--local", "cannot go together with " + other,
                    Advice{"give one of the two"});
    };
    if (!local.file.empty()) refuse("--local-work");
    if (!rescue.empty()) refuse("--rescue");
    if (seen.band) refuse("--seen");
    if (!target.places.empty()) refuse("--place");
}

}  // namespace fogproof::cli
