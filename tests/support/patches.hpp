// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Negatives of flat patches side by side, and what a print made of them: enough to ask the program whether an
// option does what it says.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {

/// Pixels across one patch.
inline constexpr int kPatch = 24;

/// Worst step, of 65535, between two prints that should be one: a print's table is good to 0.02 L*, some 15
/// steps of sRGB, and so is the other's.
inline constexpr double kSamePrint = 40;

inline void save_patches(const Program& program, const std::string& name,
                         const std::vector<double>& transmittances) {
    raster<std::uint16_t>(
        kPatch * int(transmittances.size()), 2 * kPatch, 1,
        [&](int x, int, int) { return std::round(65535 * transmittances[std::size_t(x / kPatch)]); },
        VIPS_INTERPRETATION_GREY16)
        .write_to_file((program / name).c_str());
}

/// First band in the middle of every patch.
inline std::vector<double> patches_of(const Program& program, const std::string& picture, int count) {
    const vips::VImage print = vips::VImage::new_from_file((program / picture).c_str());
    std::vector<double> codes;
    for (int i = 0; i < count; ++i) {
        const double middle = (i + 0.5) * print.width() / count;
        codes.push_back(print.getpoint(int(middle), print.height() / 2).front());
    }
    return codes;
}

/// A program with a pack that has seconds, and patches from clear film to density 1.8.
class PatchPrints {
  public:
    inline static const std::vector<double> kLight{1.0, 0.6, 0.32, 0.16, 0.08, 0.04, 0.016};

    PatchPrints() {
        vips_ready();
        program.write(
            "pack.toml",
            "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.35\n[anchor]\nknown = true\n");
        save_patches(program, "neg.tif", kLight);
    }
    /// Makes a print and gives its patches; `--force` is set, the pack named.
    [[nodiscard]] std::vector<double> codes(const std::string& options,
                                            const std::string& negative = "neg.tif",
                                            const std::string& clear = "--whole --clear 1") const {
        const auto answer = program.run("print " + negative + " --pack pack.toml -o out.tif --force " +
                                        clear + " " + options);
        EXPECT_EQ(answer.code, 0) << options << "\n" << answer.err;
        return patches_of(program, "out.tif", int(kLight.size()));
    }

    Program program;
};

inline void expect_same_print(const std::vector<double>& one, const std::vector<double>& other) {
    ASSERT_EQ(one.size(), other.size());
    for (std::size_t i = 0; i < one.size(); ++i) EXPECT_NEAR(one[i], other[i], kSamePrint) << "patch " << i;
}

/// Two prints that differ by more than their tables may err, somewhere.
inline void expect_another_print(const std::vector<double>& one, const std::vector<double>& other) {
    ASSERT_EQ(one.size(), other.size());
    double most = 0;
    for (std::size_t i = 0; i < one.size(); ++i) most = std::max(most, std::abs(one[i] - other[i]));
    EXPECT_GT(most, 10 * kSamePrint);
}

}  // namespace fogproof::tests
