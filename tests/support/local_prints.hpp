// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A small negative, masks over it, and prints with local work read back.
#pragma once

#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <functional>
#include <string>
#include <vector>
#include <vips/vips8>

#include "fogproof/pack/file.hpp"
#include "support/film_scan.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {

struct LocalPrints {
    static constexpr int kWide = 240, kHigh = 160;
    Program program;
    bool has_grades = true;  ///< the pack's paper

    LocalPrints() {
        vips_ready();
        const auto tones = [](int x, int y, int) {
            const double u = double(x) / kWide, v = double(y) / kHigh;
            return 65535 * std::pow(10.0, -(0.02 + 1.5 * std::sqrt(u * (0.4 + 0.6 * v)) +
                                            0.03 * std::sin(0.7 * x + y)));
        };
        const auto scan = raster<std::uint16_t>(kWide, kHigh, 1, tones, VIPS_INTERPRETATION_GREY16);
        // Read by the engine, and by libvips.
        for (const char* name : {"negative.tif", "negative.png"}) save(scan, name);
        program.write(
            "pack.toml",
            "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.35\n[anchor]\nknown = true\n");
        mask("white.png", [](double, double) { return 1; });
        mask("left.png", [](double x, double) { return x < 0.5 ? 1 : 0; });
    }
    void save(const vips::VImage& image, const std::string& name) const {
        image.write_to_file((program / name).c_str());
    }
    /// A mask in 16 bits, by places from 0 to 1.
    void mask(const std::string& name, const std::function<double(double, double)>& level, int wide = kWide,
              int high = kHigh) const {
        save(raster<std::uint16_t>(
                 wide, high, 1,
                 [&](int x, int y, int) {
                     return std::lround(65535 * level((x + 0.5) / wide, (y + 0.5) / high));
                 },
                 VIPS_INTERPRETATION_GREY16),
             name);
    }
    void recipe(const std::string& text) const {
        program.write("recipe.toml", "fogproof_recipe = 1\n[[exposure]]\n" +
                                         std::string(has_grades ? "grade = 2\n" : "") + "time_s = 12\n" +
                                         text);
    }
    /// A print's samples; none when it was refused, which fails the test.
    [[nodiscard]] std::vector<int> samples(const std::string& options,
                                           const std::string& scan = "negative.tif",
                                           const std::string& to = "print.tif") const {
        const auto answer =
            program.run("print " + scan + " --whole --pack pack.toml --force -o " + to + " " + options);
        EXPECT_EQ(answer.code, 0) << options << "\n" << answer.err;
        return answer.code == 0 ? samples_of(to) : std::vector<int>{};
    }
    [[nodiscard]] std::vector<int> samples_of(const std::string& picture) const {
        const vips::VImage image =
            vips::VImage::new_from_file((program / picture).c_str()).cast(VIPS_FORMAT_INT).copy_memory();
        const auto* first = static_cast<const int*>(image.data());
        return {first, first + std::size_t(image.width()) * std::size_t(image.height()) *
                                   std::size_t(image.bands())};
    }
};

/// The largest difference of two prints' samples in columns [from, to), each as wide as the negative; a
/// difference in size counts as all codes.
inline int farthest(const std::vector<int>& one, const std::vector<int>& two, int from = 0,
                    int to = LocalPrints::kWide) {
    if (one.empty() || one.size() != two.size()) return 65536;
    const std::size_t channels = one.size() / std::size_t(LocalPrints::kWide * LocalPrints::kHigh);
    int worst = 0;
    for (std::size_t i = 0; i < one.size(); ++i) {
        const int x = int(i / channels % std::size_t(LocalPrints::kWide));
        if (x >= from && x < to) worst = std::max(worst, std::abs(one[i] - two[i]));
    }
    return worst;
}

}  // namespace fogproof::tests
