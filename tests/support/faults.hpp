// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A folder with a scan and a pack, in which things go wrong.
#pragma once

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <iostream>
#include <set>
#include <sstream>

#include "base/words.hpp"
#include "fogproof/pack/readings.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/typed_files.hpp"

namespace fogproof::tests {

using std::chrono::microseconds;
using testing::AllOf;
using testing::HasSubstr;
using testing::StartsWith;

class Faults : public testing::Test {
  protected:
    void SetUp() override {
        make_typed_files(program);
        const auto slope = [](int x, int y, int) {
            return 60000 * std::pow(10.0, -(0.1 + 1.2 * x / 1200 + 0.05 * ((x * 7 + y * 13) % 11)));
        };
        const auto scan = raster<std::uint16_t>(1200, 900, 1, slope, VIPS_INTERPRETATION_GREY16);
        scan.write_to_file((program / "large.tif").c_str());
    }
    /// Names that start with a dot: what temporary files are called.
    [[nodiscard]] std::vector<std::string> hidden() const {
        std::vector<std::string> names;
        for (const auto& entry : std::filesystem::recursive_directory_iterator(program / ""))
            if (entry.path().filename().string().starts_with('.')) names.push_back(entry.path().filename());
        return names;
    }
    [[nodiscard]] microseconds time_of(const std::string& words) const {
        const auto start = std::chrono::steady_clock::now();
        const auto answer = program.run(words);
        EXPECT_EQ(answer.code, 0) << words << "\n" << answer.err;
        return std::chrono::duration_cast<microseconds>(std::chrono::steady_clock::now() - start);
    }
    [[nodiscard]] bool may_mount() const {
        return program.shell("unshare -rm mount -t tmpfs none folder").code == 0;
    }
    const Program program{};
};

// One job, killed at moments spread over a little more than the time it takes.
inline void sweep(const Program& program, const std::string& words, const std::vector<std::string>& outputs,
                  microseconds whole, int moments, const std::function<std::vector<std::string>()>& hidden) {
    std::map<std::string, std::string> wanted;
    for (const auto& output : outputs) wanted[output] = content_of(program / output);
    int killed = 0, left = 0;
    for (int moment = 0; moment < moments; ++moment) {
        const bool has_old = moment % 2 == 1;
        for (const auto& output : outputs) {
            std::filesystem::remove(program / output);
            if (has_old) program.write(output, "the old file");
        }
        const auto answer = program.run_and_kill(words, whole * moment * 11 / (10 * moments));
        killed += answer.code == 128 + SIGKILL;
        left += int(hidden().size());
        std::set<bool> are_new;
        for (const auto& output : outputs) {
            const std::string now = content_of(program / output);
            const bool is_there = std::filesystem::exists(program / output);
            const bool is_old = has_old ? now == "the old file" : !is_there;
            EXPECT_TRUE(is_old || now == wanted[output])
                << output << " after " << moment << " of " << moments << ": " << now.size() << " bytes";
            are_new.insert(is_there && now == wanted[output]);
        }
        EXPECT_EQ(are_new.size(), 1u) << "a part of the set after " << moment << " of " << moments;
    }
    EXPECT_GT(killed, moments / 4);
    const auto last = program.run(words);
    EXPECT_EQ(last.code, 0) << last.err;
    EXPECT_THAT(hidden(), testing::IsEmpty()) << "the next run sweeps what killed ones left";
    std::cout << "killed " << killed << " of " << moments << ", " << left
              << " temporary files seen after them, all swept: " << words << "\n";
}

}  // namespace fogproof::tests
